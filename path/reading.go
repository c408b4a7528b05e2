package path

import (
	"fmt"
	"slices"
	"strings"
)

// ForReading is the layout as it was when a reading was taken: its engine at the reading's duty and
// the named partitions standing open.
func (l *Layout) ForReading(r Reading) (*Layout, error) {
	out := *l
	out.Engines = append([]Engine(nil), l.Engines...)
	out.Partitions = append([]Partition(nil), l.Partitions...)
	if err := out.runAt(r); err != nil {
		return nil, err
	}
	for _, name := range r.Open {
		if err := out.open(name); err != nil {
			return nil, err
		}
	}
	return &out, nil
}

// runAt puts the reading's engine at its duty; without a power the load law gives it.
func (l *Layout) runAt(r Reading) error {
	if r.RunSpeed == 0 && r.RunPower == 0 {
		return nil
	}
	name := r.RunEngine
	if name == "" {
		name = r.Engine
	}
	if name == "" && len(l.Engines) == 1 {
		name = l.Engines[0].Name
	}
	e, ok := l.Engine(name)
	if !ok {
		return fmt.Errorf("no engine %q is in the file\nhint: say which engine ran", name)
	}
	duty, _ := e.RunningDuty()
	switch {
	case r.RunSpeed > 0 && r.RunPower > 0:
		duty.Speed, duty.Power = r.RunSpeed, r.RunPower
	case r.RunSpeed > 0 && r.RunSpeed != duty.Speed:
		duty = e.DutyThrough(r.RunSpeed)
	case r.RunSpeed > 0: // the running duty itself
	default:
		duty.Power = r.RunPower
	}
	e.RunAt(duty)
	return nil
}

// open takes a partition out of the way: the one of that name, or the only one whose name holds it.
func (l *Layout) open(name string) error {
	var found []*Partition
	for i := range l.Partitions {
		p := &l.Partitions[i]
		if p.Name == name {
			found = []*Partition{p}
			break
		}
		if p.Usual == nil && strings.Contains(strings.ToLower(p.Label()), strings.ToLower(name)) {
			found = append(found, p)
		}
	}
	switch len(found) {
	case 0:
		if l.openBox(name) {
			return nil
		}
		return fmt.Errorf("no partition %q is in the file, so it cannot stand open\nhint: give the door's partition that name, or say 'box lid' for an enclosure", name)
	case 1:
		found[0].OpenArea = found[0].Area
		return nil
	}
	return fmt.Errorf("%q may be any of %d partitions\nhint: write the whole name", name, len(found))
}

// openBox takes the enclosures in use off their engines when the name is one of theirs or speaks of
// a lid or cover.
func (l *Layout) openBox(name string) bool {
	low, found := strings.ToLower(name), false
	for i := range l.Engines {
		e := &l.Engines[i]
		if e.Enclosure == "" {
			continue
		}
		if strings.EqualFold(name, e.Enclosure) || strings.Contains(low, "lid") || strings.Contains(low, "cover") {
			e.Enclosure, found = "", true
		}
	}
	return found
}

// Doors names the partitions that a person can open: those whose name says so.
func (l *Layout) Doors() (names []string) {
	for i := range l.Partitions {
		n := strings.ToLower(l.Partitions[i].Name)
		for _, w := range []string{"door", "hatch", "window", "skylight"} {
			if l.Partitions[i].Usual == nil && strings.Contains(n, w) {
				names = append(names, l.Partitions[i].Name)
				break
			}
		}
	}
	return names
}

// WithSpaceReadings gives a boat in which every space that a sound reading or a loudspeaker test names has
// a listener of its own in the middle, after the file's own, and the readings name that listener.
func (b *Boat) WithSpaceReadings() *Boat {
	out := *b
	out.Listeners = append([]Listener(nil), b.Listeners...)
	out.Readings = append([]Reading(nil), b.Readings...)
	for i := range out.Readings {
		r := &out.Readings[i]
		if r.Space != "" && r.Listener == "" && r.HasSound() {
			r.Listener = out.listenIn(r.Space)
		}
		if r.Loudspeaker != nil {
			t := *r.Loudspeaker
			if space := b.engineSpace(*r); space != "" {
				t.Listener = out.listenIn(space)
			}
			r.Loudspeaker = &t
		}
	}
	return &out
}

// listenIn adds a listener in the middle of a space, once, and gives its name.
func (b *Boat) listenIn(space string) string {
	ear := Listener{Name: "in the " + space, In: space, Probe: true}
	for _, l := range b.Listeners {
		if l.Name == ear.Name {
			return ear.Name
		}
	}
	if len(b.Layouts) > 0 {
		if s, ok := b.Layouts[0].Space(space); ok {
			ear.At = s.centre()
		}
	}
	b.Listeners = append(b.Listeners, ear)
	return ear.Name
}

// Encloses tells whether any layout has an enclosure of that name.
func (b *Boat) Encloses(name string) bool {
	return slices.ContainsFunc(b.Layouts, func(l *Layout) bool {
		return slices.ContainsFunc(l.Enclosures, func(e Enclosure) bool { return e.Name == name })
	})
}

// engineSpace is where the engine of a reading stands; "" where it is not told.
func (b *Boat) engineSpace(r Reading) string {
	if len(b.Layouts) == 0 {
		return ""
	}
	engines := b.Layouts[0].Engines
	for _, e := range engines {
		if e.Name == r.RunEngine || e.Name == r.Engine || len(engines) == 1 {
			return e.In
		}
	}
	return ""
}
