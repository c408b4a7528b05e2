package charts

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/report"
)

// On a narrow page the numbers of a scale keep apart, and no number of a layout lies on the line of a limit.
func TestNumbersOnChartsKeepApart(t *testing.T) {
	b := startBrowser(t)
	b.Size(390, false)
	r := full()
	r.Sweeps = []report.PageSweep{{Layout: 0, Points: []report.PageSpeed{{SpeedRPM: 840, LevelDBA: levels(r, 70)}, {SpeedRPM: 2100, LevelDBA: levels(r, 80)}}}}
	e := &r.Layouts[0].Exhausts[0]
	beside := *e.RatedBackPressure * 1.25
	for i := range r.Layouts {
		for k := range r.Layouts[i].Exhausts {
			r.Layouts[i].Exhausts[k].Limit = &beside
		}
	}
	b.open(r)
	b.DrawAll()
	var gaps []float64
	b.Eval(`(function () {
		var gaps = [];
		document.querySelectorAll('#speed .chart svg').forEach(function (s) {
			var at = Array.from(s.querySelectorAll('text')).filter(function (x) { return /^[\s\u2002]*\d[\d\s]*[\s\u2002]*$/.test(x.textContent); }).map(function (x) {
				var r = document.createRange(), n = x.firstChild, all = n.data, from = all.search(/\d/), to = all.length - all.split('').reverse().join('').search(/\d/);
				r.setStart(n, from); r.setEnd(n, to);
				return r.getBoundingClientRect();
			});
			var foot = Math.max.apply(null, at.map(function (q) { return q.top; }));
			at = at.filter(function (q) { return q.top > foot - 2; }).sort(function (p, q) { return p.left - q.left; });
			at.forEach(function (q, i) { if (i) { gaps.push(q.left - at[i - 1].right); } });
		});
		return gaps;
	})()`, &gaps)
	require.Greater(t, len(gaps), 2)
	for _, g := range gaps {
		assert.Greater(t, g, 8.0, "%v", gaps)
	}
	var struck, limits int
	b.Eval(`document.querySelectorAll('#tradeoff .chart svg').length`, &limits)
	require.Positive(t, limits)
	b.Eval(`(function () {
		var struck = 0;
		document.querySelectorAll('#tradeoff .chart svg').forEach(function (s) {
			var lines = Array.from(s.querySelectorAll('path[stroke-dasharray]')).map(function (p) { return p.getBoundingClientRect(); }).filter(function (r) { return r.width < 6 && r.height > 100; });
			s.querySelectorAll('text').forEach(function (x) {
				var r = x.getBoundingClientRect();
				lines.forEach(function (l) { if (/^\(?\d\)?$/.test(x.textContent) && l.left > r.left && l.right < r.right && r.top > l.top && r.bottom < l.bottom) { struck++; } });
			});
		});
		return struck;
	})()`, &struck)
	assert.Zero(t, struck)
}

func levels(r *report.Page, v float64) (all []*float64) {
	for range r.Listeners {
		all = append(all, f64(v))
	}
	return all
}
