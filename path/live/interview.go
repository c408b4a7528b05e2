package live

import (
	"errors"

	"hushwake/path/interview"
)

// begin starts the questions; the text is what is known so far.
func (s *Session) begin(m Message) error {
	v, err := interview.Begin(m.To)
	if err != nil {
		return err
	}
	s.talk = v
	s.hear()
	return nil
}

// converse hands an answer to the interview. What is wrong with it stands beside the question, not among the slips of the text.
func (s *Session) converse(m Message) error {
	if s.talk == nil {
		return errors.New("no question is asked\nhint: begin with what you want to know")
	}
	s.talk.Adopt(s.is.text)
	switch m.Op {
	case "answer":
		s.wrong = s.talk.Answer(m.ID, m.To)
	case "dont-know":
		s.wrong = s.talk.DontKnow(m.ID)
	case "ask":
		s.wrong = s.talk.Ask(m.ID)
	case "finish":
		s.wrong = s.talk.Finish()
	case "idea":
		s.wrong = s.talk.Take(m.ID)
	default:
		if !s.talk.Back() { // before the first question one chooses what one wants to know
			s.talk = nil
			s.put(nil, true)
			s.again()
			return nil
		}
	}
	s.hear()
	return nil
}

// hear takes over the text of the interview.
func (s *Session) hear() {
	if s.put(s.talk.Text(), true) {
		s.again()
	}
}
