package relay

import (
	"errors"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/desk"
	"clocktell/relay/prompt"
)

// captionLeast is how long a sentence stays on the air that has stopped being true, from
// when it was put there: nobody can read one that only flashes.
const captionLeast = 4 * time.Second

// OnAir is what people have put on the air besides the boards.
type OnAir struct {
	Rev     uint64
	Caption *Caption // nil: none
}

// Caption is a sentence on the air.
type Caption struct {
	Key    string // of its prompt; "" for a person's own sentence
	Kind   prompt.Kind
	Board  int // 0: the whole show
	Side   string
	Text   string
	Source string        // what it is about, in words
	Marks  []prompt.Mark // none once it has stopped being true
	By     string
	At     time.Time
	Until  time.Time // when it leaves by itself; zero: it does not
	sees   string    // of an engine's verdict: the position, by its FEN, that viewers must see; "" no matter
}

// putOnAir puts the sentence of a prompt on the air, or one of a person's own.
func (s *Show) putOnAir(e AtPanel) (Noted, error) {
	caption := Caption{Text: e.Text, By: e.Who, At: s.At}
	if s.plan.CaptionFor > 0 {
		caption.Until = s.At.Add(s.plan.CaptionFor)
	}
	ply := 0
	if e.Prompt != "" {
		item, err := s.Said.find(e.Prompt)
		if err != nil {
			return Noted{}, err
		}
		if !item.Withdrawn.IsZero() {
			return Noted{Board: item.Board}, errors.New("that sentence is no longer true")
		}
		if s.EngineHides().keeps(item) {
			return Noted{Board: item.Board}, desk.ErrHidesEngine
		}
		ply = item.Alert.Ply
		caption.Key, caption.Kind, caption.Text = e.Prompt, item.Kind, item.Text
		caption.Board, caption.Side, caption.Marks = item.Board, item.Alert.Side, item.Marks
		caption.Source = s.sourceOf(item)
	}
	s.OnAir = OnAir{Rev: s.OnAir.Rev + 1, Caption: &caption}
	return Noted{Board: caption.Board, Ply: ply, Text: caption.Text, Engine: ofEngine(caption.Kind)}, nil
}

// sourceOf says what a prompt is about: "board 1 · Quintanilha – Tveiterås · move 15".
func (s *Show) sourceOf(item *BoardPrompt) string {
	if item.Board == 0 {
		return ""
	}
	b, move := s.Boards[item.Board-1], 0
	if item.Alert.Ply > 0 {
		move, _ = b.MoveNumber(item.Alert.Ply - 1)
	}
	return b.in.Source(b.Number, b.Called(clock.White), b.Called(clock.Black), move)
}

// offAir takes the sentence off the air.
func (s *Show) offAir() (Noted, error) {
	if s.OnAir.Caption == nil {
		return Noted{}, errors.New("no sentence is on the air")
	}
	off := Noted{Board: 0, Text: s.OnAir.Caption.Text, Engine: ofEngine(s.OnAir.Caption.Kind)}
	s.OnAir = OnAir{Rev: s.OnAir.Rev + 1}
	return off, nil
}

// agedAir returns what is on the air at t: a sentence leaves when its time is over, and
// soon after it has stopped being true.
func (s *Show) agedAir(t time.Time) OnAir {
	if due := s.airDue(); due.IsZero() || due.After(t) {
		return s.OnAir
	}
	return OnAir{Rev: s.OnAir.Rev + 1}
}

// aimedAir returns what is on the air without marks that would point at what is no longer
// there: a sentence may stay to be read a little longer, its marks may not.
func (s *Show) aimedAir() OnAir {
	caption := s.OnAir.Caption
	if caption == nil || len(caption.Marks) == 0 || s.Said.holds(caption.Key) {
		return s.OnAir
	}
	next := *caption
	next.Marks = nil
	return OnAir{Rev: s.OnAir.Rev + 1, Caption: &next}
}

// airDue returns when the sentence on the air leaves; zero: no time is set.
func (s *Show) airDue() time.Time {
	caption := s.OnAir.Caption
	if caption == nil {
		return time.Time{}
	}
	due := caption.Until
	if !s.holds(caption) {
		due = earlier(due, caption.At.Add(captionLeast))
	}
	if !due.IsZero() && due.Before(s.At) {
		return s.At
	}
	return due
}
