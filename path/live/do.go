package live

import (
	"errors"
	"fmt"
	"strings"

	"hushwake/path/boatfile/edit"
	"hushwake/path/boatfile/spelling"
	"hushwake/path/interview"
)

// ops are what a message can ask, each with what does it.
var ops = map[string]func(*Session, Message) error{
	"show": (*Session).showText, "full": (*Session).inFull, "further": (*Session).oneFurther,
	"set": (*Session).change, "unknown": (*Session).change, "add": (*Session).change, "insert": (*Session).change, "remove": (*Session).change,
	"copy-layout": (*Session).change, "replace-text": (*Session).change, "note": (*Session).note,
	"undo": (*Session).undo, "redo": (*Session).redo, "saved": (*Session).keep, "diff": func(*Session, Message) error { return nil },
	"layout": (*Session).chooseLayout, "listener": (*Session).chooseListener,
	"begin": (*Session).begin, "answer": (*Session).converse, "dont-know": (*Session).converse, "back": (*Session).converse, "idea": (*Session).converse, "ask": (*Session).converse, "finish": (*Session).converse,
}

// Do does what a message asks and says what stands then. It never panics.
func (s *Session) Do(m Message) (a Answer) {
	defer func() {
		if r := recover(); r != nil {
			a = s.answer(fmt.Errorf("this could not be worked out: %v\nhint: undo the last change", r), m)
		}
	}()
	do, ok := ops[m.Op]
	if !ok {
		return s.answer(fmt.Errorf("no message %q\nhint: begin with show", spelling.Clip(m.Op)), m)
	}
	s.wrong = nil
	return s.answer(do(s, m), m)
}

// answer is what stands after a message that ended with an error or without.
func (s *Session) answer(err error, m Message) Answer {
	a := Answer{Stamp: s.is.stamp, Text: s.is.text, Figures: s.figures, Controls: s.control(), Layout: s.layout, Listener: s.listener,
		Dirty: s.is.stamp != s.saved, CanUndo: len(s.past) > 0, CanRedo: len(s.future) > 0, Interview: s.talk, Wrong: s.wrong}
	if err != nil {
		a.Errors = append(a.Errors, slipAt(m.At, err))
	}
	a.Errors = append(a.Errors, s.slips...)
	a.Left = s.left()
	if m.Op == "diff" {
		a.Diff = edit.Diff(s.savedText, s.is.text)
	}
	return a
}

// showText shows the present text; in full where that is asked for.
func (s *Session) showText(m Message) error {
	if m.Form == Full {
		return s.inFull(m)
	}
	s.figure(s.look)
	return nil
}

// inFull and oneFurther are of the text that the message means: that of another stamp is not worked out any more.
func (s *Session) inFull(m Message) error     { return s.deeper(m, s.full) }
func (s *Session) oneFurther(m Message) error { return s.deeper(m, s.further) }

func (s *Session) deeper(m Message, how func() error) error {
	if m.Stamp == "" || m.Stamp == s.is.stamp {
		s.figure(how)
	}
	return nil
}

// change edits the text at a place.
func (s *Session) change(m Message) error {
	if m.Op != "replace-text" && !s.fits(m.Stamp) {
		return errors.New("the file has changed since this was shown\nhint: look again, and repeat the change")
	}
	text, moved, err := edited(s.is.text, m)
	if err != nil {
		return err
	}
	if m.Op == "set" {
		text = interview.Stated(text, m.At)
	}
	if name := layoutAt(s.is.text, m.At); isLayoutName(m.At) && name == s.layout {
		s.layout = edit.Plain(m.To) // what is chosen stays so under its new name
	}
	s.put(text, moved)
	s.touched = layoutAt(text, m.At)
	s.again()
	return nil
}

// edited is the text after a change, and whether places may have moved by it.
func edited(text []byte, m Message) (out []byte, moved bool, err error) {
	if (m.Op == "set" || m.Op == "unknown") && isLayoutName(m.At) {
		out, err = renamed(text, m.At, m.To)
		return out, false, err
	}
	switch m.Op {
	case "set":
		out, err = edit.Set(text, m.At, m.To)
		return out, strings.ContainsAny(strings.TrimSpace(m.To), "[{\n"), err
	case "unknown":
		out, err = edit.Unknown(text, m.At)
		return out, false, err
	case "add":
		out, err = edit.Add(text, m.At, m.To)
		return out, false, err
	case "insert":
		out, err = edit.Insert(text, m.At, m.To)
	case "remove":
		out, err = edit.Remove(text, m.At)
	case "copy-layout":
		out, err = edit.CopyLayout(text, m.Layout, m.To)
		return out, false, err
	case "replace-text":
		if out = []byte(m.To); len(out) > maxText {
			err = errors.New("the text is longer than a boat file may be, 1 MB\nhint: is this the right file?")
		}
	}
	return out, true, err
}

// layoutAt names the layout that a place lies in, "" = none.
func layoutAt(text []byte, at string) string {
	rest, ok := strings.CutPrefix(at, "/layouts/")
	if !ok {
		return ""
	}
	n, _, _ := strings.Cut(rest, "/")
	name, _ := edit.Get(text, "/layouts/"+n+"/name")
	return edit.Plain(name)
}

// note adds a level that was read at a seat, on a layout; those that are chosen where none is named.
func (s *Session) note(m Message) error {
	layout, listener := m.Layout, m.Listener
	if layout == "" {
		layout = s.layout
	}
	if listener == "" {
		listener = s.listener
	}
	item := "listener: " + edit.Quote(listener) + ", layout: " + edit.Quote(layout) + ", level: " + edit.Quote(strings.TrimSpace(m.To))
	if m.PlusMinus != "" {
		item += ", plus_minus: " + edit.Quote(m.PlusMinus)
	}
	return s.change(Message{Op: "add", At: "/readings", To: "{" + item + "}", Stamp: m.Stamp})
}

func (s *Session) undo(Message) error { return s.back(&s.past, &s.future, "undo") }
func (s *Session) redo(Message) error { return s.back(&s.future, &s.past, "redo") }

func (s *Session) back(from, to *[]version, what string) error {
	if !step(from, to, &s.is) {
		return errors.New("there is nothing to " + what)
	}
	s.again()
	return nil
}

// keep takes the present text as what is saved.
func (s *Session) keep(Message) error {
	s.saved, s.savedText = s.is.stamp, s.is.text
	return nil
}

func (s *Session) chooseLayout(m Message) error {
	if s.boat == nil {
		return errors.New("the file does not load\nhint: mend what is wrong first")
	}
	if _, ok := s.boat.Layout(m.To); !ok {
		return fmt.Errorf("no layout %q in the file", spelling.Clip(m.To))
	}
	s.layout = m.To
	s.figure(s.look)
	return nil
}

func (s *Session) chooseListener(m Message) error {
	if s.boat != nil {
		for _, l := range s.boat.Listeners {
			if l.Name == m.To {
				s.listener = m.To
				s.figure(s.look)
				return nil
			}
		}
	}
	return fmt.Errorf("no listener %q in the file", spelling.Clip(m.To))
}
