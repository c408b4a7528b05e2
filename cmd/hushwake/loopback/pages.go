package loopback

import (
	"context"
	"sync"
	"time"
)

const (
	// silence is how long a page may say nothing before it counts as gone. It says something every 15 s, but a browser lets a
	// page in the background do so only once a minute.
	silence = 150 * time.Second
	// afterLast is how long the host waits for another page once the last is gone: one that is loaded again comes at once.
	afterLast = 60 * time.Second
)

// pages are those that are open.
type pages struct {
	mu   sync.Mutex
	now  func() time.Time
	seen map[string]time.Time
	gone time.Time // when the last went; zero before any came
}

func newPages(now func() time.Time) *pages { return &pages{now: now, seen: map[string]time.Time{}} }

// saw notes that a page is there, or that it went; one without a name counts for the moment alone.
func (p *pages) saw(page string, bye bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.gone = p.now()
	if p.seen[page] = p.gone; bye || page == "" {
		delete(p.seen, page)
	}
}

// none says whether the last page has been gone for long enough.
func (p *pages) none() bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	for page, at := range p.seen {
		if p.now().Sub(at) > silence {
			delete(p.seen, page)
		}
	}
	return len(p.seen) == 0 && !p.gone.IsZero() && p.now().Sub(p.gone) >= afterLast
}

// over ends with the context, or with a tick at which the last page has been gone for long enough.
func (p *pages) over(ctx context.Context, tick <-chan time.Time) <-chan struct{} {
	done := make(chan struct{})
	go func() {
		defer close(done)
		for {
			select {
			case <-ctx.Done():
				return
			case <-tick:
				if p.none() {
					return
				}
			}
		}
	}()
	return done
}
