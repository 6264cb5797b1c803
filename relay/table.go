package relay

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

const (
	notesMost = 50 // on the table; the oldest make room
	saidMost  = 20 // prompts that were said and stay listed; the oldest make room
	heldMost  = 20 // prompts taken or pinned at the same time
)

// takeAtPanel does what a co-host asks for, unless it has been done before.
func (s *Show) takeAtPanel(e AtPanel) {
	if _, known := s.Entry(e.ID); known {
		return
	}
	entered := Entered{ID: e.ID}
	n, err := s.atPanel(e)
	if err != nil {
		entered.Refused = err.Error() // nothing happened, so the log has nothing to tell
	} else {
		n.Kind, n.Was, n.Is = NotePanel, e.Who, string(e.Act)
		s.note(n)
		s.Totals.AtPanel++
	}
	s.remember(entered)
}

// atPanel changes what is shared. It returns what the log says of it.
func (s *Show) atPanel(e AtPanel) (Noted, error) {
	if err := e.check(); err != nil {
		return Noted{}, err
	}
	switch e.Act {
	case PanelNote:
		return s.leaveNote(e)
	case PanelWipe:
		return s.wipeNote(e)
	case PanelOff:
		return s.offAir()
	case PanelAir:
		return s.putOnAir(e)
	}
	item, err := s.Said.find(e.Prompt)
	if err != nil && e.Act != PanelSaid {
		return Noted{}, err
	}
	if err != nil {
		if item = s.Said.past(e.Prompt); item == nil {
			return Noted{}, err
		}
	}
	noted := Noted{Board: item.Board, Ply: item.Alert.Ply, Text: item.Text, Engine: ofEngine(item.Kind)}
	use, err := item.Use.after(e, s.At)
	if err != nil || use == item.Use {
		return noted, err
	}
	next := *item
	next.Use = use
	s.Said, err = s.Said.used(next, s.At)
	return noted, err
}

// check reports what is wrong with an act, whatever the state of the show.
func (e AtPanel) check() error {
	switch {
	case e.ID == "" || len(e.ID) > 64:
		return errors.New("an act needs an id of 1 to 64 characters, its own and no other's")
	case !legible(e.Who, WhoMost):
		return fmt.Errorf("say who you are, in 1 to %d characters", WhoMost)
	case !slices.Contains(PanelActs, e.Act):
		return fmt.Errorf("there is no act %q; the acts are %v", e.Act, PanelActs)
	case e.Act == PanelNote && !legible(e.Text, PanelTextMost):
		return fmt.Errorf("a note has 1 to %d characters", PanelTextMost)
	case e.Act == PanelAir && e.Prompt == "" && !legible(e.Text, PanelTextMost):
		return fmt.Errorf("a sentence for the air has 1 to %d characters", PanelTextMost)
	}
	return nil
}

// legible reports a text that can be shown: some, and no more than that many characters.
func legible(text string, most int) bool {
	return strings.TrimSpace(text) != "" && utf8.RuneCountInString(text) <= most &&
		!strings.ContainsFunc(text, unicode.IsControl)
}

// after returns the use of a prompt after an act. One that changes nothing is done.
func (u Use) after(e AtPanel, at time.Time) (Use, error) {
	switch e.Act {
	case PanelPin:
		if u.Pinned == "" {
			u.Pinned = e.Who
		}
		return u, nil
	case PanelUnpin:
		u.Pinned = ""
		return u, nil
	}
	if u.By != "" && u.By != e.Who && !e.Over {
		switch {
		case u.State == UseTaken:
			return u, fmt.Errorf("%s has it", u.By)
		case u.State == UseSaid && e.Act != PanelUndo:
			return u, fmt.Errorf("%s has said it", u.By)
		}
	}
	next := map[PanelAct]UseState{PanelTake: UseTaken, PanelSaid: UseSaid, PanelDrop: UseDropped}[e.Act]
	switch {
	case next == u.State && (next == "" || u.By == e.Who):
		return u, nil
	case next == "":
		return Use{Pinned: u.Pinned}, nil
	}
	return Use{State: next, By: e.Who, At: at, Pinned: u.Pinned}, nil
}

func (s *Show) leaveNote(e AtPanel) (Noted, error) {
	note := TableNote{ID: e.ID, By: e.Who, At: s.At, Text: e.Text}
	s.Table.Notes = append(slices.Clip(s.Table.Notes[max(0, len(s.Table.Notes)-notesMost+1):]), note)
	s.Table.Rev++
	return Noted{Text: e.Text}, nil
}

func (s *Show) wipeNote(e AtPanel) (Noted, error) {
	i := slices.IndexFunc(s.Table.Notes, func(n TableNote) bool { return n.ID == e.Note })
	if i < 0 {
		return Noted{}, errors.New("that note is no longer there")
	}
	text := s.Table.Notes[i].Text
	s.Table.Notes = slices.Delete(slices.Clone(s.Table.Notes), i, i+1)
	s.Table.Rev++
	return Noted{Text: text}, nil
}
