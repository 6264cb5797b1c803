package cue

import (
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// staged is a show in which most of what makes cues happens, with two groups that are held
// back, and every state it passed through.
type staged struct {
	log    *Log
	states []*relay.Show
}

func stageShow(t *testing.T, language string) staged {
	t.Helper()
	plan := relaytest.Plan()
	plan.Language = language
	s := relaytest.NewStageOf(plan)
	s.Record = true
	games := func(first, result, second string) {
		s.Take(relaytest.Packet(
			relaytest.Game{White: "Orsolic, Dana", Black: "Pellinen, Timo", Control: "600+5", Moves: first, Result: result},
			relaytest.Game{White: "Quaas, Birte", Black: "Rimaru, Sorin", Control: "600+5", Moves: second}))
		s.Same(20 * time.Second)
	}
	desk := func(acts ...relay.AtDesk) {
		for _, act := range acts {
			if refused := s.AtDesk(act); refused != "" {
				t.Fatalf("%+v: %s", act, refused)
			}
			s.Same(8 * time.Second)
		}
	}
	hold := func(group string, by time.Duration) {
		if refused := s.Enter(relay.ByHand{Act: relay.ActHold, Text: group, For: by}); refused != "" {
			t.Fatal(refused)
		}
	}
	hold("air", 12*time.Second)
	hold("wall", 3*time.Second)
	games("e4 e5 Nf3", "", "d4")
	desk(relay.AtDesk{Action: "play", SAN: "Nf6"}, relay.AtDesk{Action: "put-on-air"}, relay.AtDesk{Action: "play", SAN: "Nxe5"}, relay.AtDesk{Action: "take-off-air"}, relay.AtDesk{Action: "to-live"})
	hold("air", 40*time.Second)
	games("e4 e5 Nc3", "", "d4 d5")
	desk(relay.AtDesk{Action: "look-at", Board: 2}, relay.AtDesk{Action: "put-on-air"}, relay.AtDesk{Action: "prepare-challenge", Text: "What now?"}, relay.AtDesk{Action: "take-off-air"})
	hold("air", 2*time.Second)
	desk(relay.AtDesk{Action: "ask"})
	games("e4 e5 Nc3 Nf6", "1/2-1/2", "d4 d5 c4")
	desk(relay.AtDesk{Action: "reveal"})
	s.AtPanel(relay.AtPanel{Who: "Ada", Act: relay.PanelAir, Text: "Tonight: two games"})
	s.AtPanel(relay.AtPanel{Who: "Ada", Act: relay.PanelNote, Text: "cut here"})
	s.Enter(relay.ByHand{Act: relay.ActRecording, Mark: s.Now, Timecode: "10:00:00:00"})
	s.Same(90 * time.Second)
	return again(plan, s.Events)
}

// again plays the events of a stage through a collector and keeps every state.
func again(plan relay.Plan, events []relay.Event) staged {
	out := staged{}
	show := relay.NewShow(plan, events[0].When())
	c := NewCollector(show)
	for _, e := range events {
		show = show.Through(e, c.See, func(s *relay.Show) { out.states = append(out.states, s) })
	}
	out.log = c.Log()
	return out
}

// TestCollected: what happened is told, in both languages.
func TestCollected(t *testing.T) {
	for language, want := range map[string][]string{
		"en": {
			"segment 1 Board 1: Orsolic – Pellinen | Board 1: Orsolic – Pellinen", "game 2 Board 2: Quaas – Rimaru | Board 2: Quaas – Rimaru",
			"line 1 A side line at move 2, Orsolic – Pellinen | 2...Nf6 3.Nxe5", "correction 1  | 2.Nc3, no longer 2.Nf3",
			"segment 2 Board 2: Quaas – Rimaru | Board 2: Quaas – Rimaru", "question 2 A question to the viewers | What now?",
			"answer 2 The answer | 2.c4", "result 1 Orsolic – Pellinen: a draw | Orsolic – Pellinen: a draw",
			"caption 0 Tonight: two games | Tonight: two games", "note 0  | Ada: cut here", "byHand 0  | group air is held back by 40 s",
		},
		"de": {
			"segment 1 Brett 1: Orsolic – Pellinen | Brett 1: Orsolic – Pellinen", "line 1 Eine Variante im 2. Zug, Orsolic – Pellinen | 2...Nf6 3.Nxe5",
			"correction 1  | 2.Nc3, nicht mehr 2.Nf3", "question 2 Eine Frage an die Zuschauer | What now?", "answer 2 Die Antwort | 2.c4",
			"result 1 Orsolic – Pellinen: remis | Orsolic – Pellinen: remis",
		},
	} {
		log := stageShow(t, language).log
		var all strings.Builder
		for _, c := range log.Cues {
			all.WriteString(string(c.Kind) + " " + string(rune('0'+c.Board)) + " " + c.Title + " | " + c.Text + "\n")
		}
		for _, line := range want {
			if n := strings.Count(all.String(), line+"\n"); n != 1 {
				t.Errorf("%s: %d times %q in\n%s", language, n, line, all.String())
			}
		}
		if len(log.Holds) != 4 || strings.Join(log.Groups(), " ") != "air wall" || len(log.Marks) != 1 || log.Language != language {
			t.Errorf("%s: holds %+v, marks %+v", language, log.Holds, log.Marks)
		}
	}
}

// TestCuesAreOnTheChannelThen: for each channel, at the picture where a cue stands its scenes
// showed what it tells, and a picture before they did not yet.
func TestCuesAreOnTheChannelThen(t *testing.T) {
	s := stageShow(t, "en")
	checked := 0
	for _, group := range []string{"", "air", "wall"} {
		for _, tape := range tapes(t, s.log, "50", group, relay.StartMark{At: s.log.Began, Timecode: "09:59:58:00"}) {
			for _, p := range tape.Place(s.log.Cues) {
				first := tape.Start.Add(tape.Rate.Time(p.Frame - tape.First))
				after, before := s.shownBy(tape.Channel, first.Add(tape.Rate.Time(1))), s.shownBy(tape.Channel, first.Add(-1))
				tells, known := telling(p.Cue)
				if !known {
					continue
				}
				checked++
				if !tells(after) || tells(before) {
					t.Errorf("%q: %s of board %d, %q, at %s: %v there, %v before", group, p.Kind, p.Board, p.Text, tape.Rate.Label(p.Frame), tells(after), tells(before))
				}
			}
		}
	}
	if checked < 18 {
		t.Errorf("only %d cues were looked at", checked)
	}
}

// shownBy returns the state that a channel's scenes show at a time.
func (s staged) shownBy(c Channel, t time.Time) *relay.Show {
	at := t
	for i, h := range c {
		if i == 0 || !t.Before(h.Since) {
			at = place(c[:i+1], at.Add(-time.Hour), t)
		}
	}
	for i, h := range c { // it never goes back: where it stood when the hold changed
		if i > 0 && !t.Before(h.Since) {
			if stood := place(c[:i], at.Add(-time.Hour), h.Since); stood.After(at) {
				at = stood
			}
		}
	}
	shown := s.states[0]
	for _, state := range s.states {
		if !state.At.After(at) {
			shown = state
		}
	}
	return shown
}

// telling returns whether a state shows what a cue tells, for those kinds that can be seen
// in a state.
func telling(c Cue) (func(*relay.Show) bool, bool) {
	switch c.Kind {
	case KindResult:
		return func(s *relay.Show) bool { return len(s.Boards) >= c.Board && s.Boards[c.Board-1].Result != "*" }, true
	case KindLine:
		return func(s *relay.Show) bool { return s.Desk.Shown != nil && len(s.Desk.Shown.Moves) > 0 }, true
	case KindCaption:
		return func(s *relay.Show) bool { return s.OnAir.Caption != nil && s.OnAir.Caption.Text == c.Text }, true
	case KindQuestion:
		return func(s *relay.Show) bool { return s.Desk.Asking() != nil }, true
	case KindSegment:
		return func(s *relay.Show) bool { return s.Desk.Air.Board == c.Board }, true
	case KindCorrection:
		return func(s *relay.Show) bool { return len(s.Boards) > 0 && s.Boards[0].Correction != nil }, true
	}
	return nil, false
}

// TestTapes: several recordings of a show, each with what was shown in its time.
func TestTapes(t *testing.T) {
	l := &Log{Began: noon, Ended: noon.Add(time.Hour), Holds: []relay.Hold{{Group: "air", For: 30 * time.Second, From: 30 * time.Second, Since: noon}}}
	for i := range 60 {
		l.Cues = append(l.Cues, Cue{At: noon.Add(time.Duration(i) * time.Minute), Kind: KindNote, Text: "n"})
	}
	marks := []relay.StartMark{
		{At: noon.Add(10 * time.Minute), Timecode: "10:00:00:00"}, {At: noon.Add(30 * time.Minute), Timecode: "11:00:00:00", Group: "air"}, {At: noon.Add(40 * time.Minute)},
	}
	for group, want := range map[string][]int{"": {30, 20}, "air": {20, 10, 20}, "other": {30, 20}} {
		got := tapes(t, l, "25", group, marks...)
		if len(got) != len(want) {
			t.Fatalf("%q: %d recordings, want %d", group, len(got), len(want))
		}
		for i, tape := range got {
			placed := tape.Place(l.Cues)
			if len(placed) != want[i] {
				t.Errorf("%q: recording %d has %d cues, want %d", group, i+1, len(placed), want[i])
			}
		}
	}
	air := tapes(t, l, "25", "air", marks...)
	if first := air[1].Place(l.Cues)[0]; air[1].Rate.Label(first.Frame) != "11:00:30:00" || !first.At.Equal(noon.Add(30*time.Minute)) {
		t.Errorf("the first cue of the second recording is %+v", first)
	}
	if whole := tapes(t, l, "25", ""); len(whole) != 1 || !whole[0].Start.Equal(noon) || len(whole[0].Place(l.Cues)) != 60 {
		t.Errorf("without a mark: %+v", whole)
	}
	r := Rates[2]
	if _, err := l.Tapes(r, "", []relay.StartMark{{At: noon, Timecode: "10:00:00:29"}}); err == nil || !strings.Contains(err.Error(), "frames 00 to 24") {
		t.Errorf("a timecode of another rate: %v", err)
	}
}
