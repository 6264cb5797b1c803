package main

import (
	"fmt"
	"log/slog"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/cue"
	"clocktell/relay/recap"
	"clocktell/testdata/demo"
)

// toldShow is the demo's match, asked for once a second of its own time, with co-hosts and a
// commentator at work. Its watch has seen all of it.
type toldShow struct {
	t     *testing.T
	at    time.Time
	show  *relay.Show
	watch *recap.Watch
	cues  *cue.Collector
	acts  int
}

// tellShow lets the demo's match happen in a language. Nothing waits for a wall clock.
func tellShow(t *testing.T, language string) *toldShow {
	t.Helper()
	s := &toldShow{t: t, at: rehearsalStart, watch: recap.NewWatch()}
	hall, err := newArena(demo.FS, func() time.Time { return s.at })
	if err != nil {
		t.Fatal(err)
	}
	file, forget, err := demoReference(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	defer forget()
	tb := relay.NewTimebaseAt(rehearsalStart, 1)
	c := demoConfig("http://127.0.0.1/games.pgn", file, demoShow{language: language}, tb)
	library := openLibrary(c.Reference, func() time.Time { return s.at }, slog.New(slog.DiscardHandler))
	defer library.close()
	s.show = relay.NewShow(planOf(c, tb), s.at)
	s.cues = cue.NewCollector(s.show)
	s.take(relay.ReferenceAttached{At: s.at, Reference: library.state})
	s.take(relay.OpeningsLoaded{At: s.at, Book: theBook()})
	intake, asked := relay.NewIntake("arena"), make(askedBefore)
	for second := range int((hall.ends() + arenaPause/2) / time.Second) {
		s.at = rehearsalStart.Add(time.Duration(second) * time.Second)
		if _, at := hall.clock(); !hall.stalled(at) {
			s.take(intake.Read(s.at, hall.text(1, at)))
		}
		for _, b := range s.show.Boards {
			for _, e := range library.asks(b, asked) {
				s.take(e)
			}
		}
		s.play(second)
	}
	return s
}

func (s *toldShow) take(e relay.Event) { s.show = s.show.Through(e, s.watch.See, s.cues.See) }

// says lets a co-host say the newest sentence of a board that nobody has said.
func (s *toldShow) says(board int, who string) {
	for i := range s.show.Said.Items {
		item := &s.show.Said.Items[i]
		if item.Board == board && item.Use.State == "" && item.Withdrawn.IsZero() {
			s.acts++
			s.take(relay.AtPanel{At: s.at, ID: fmt.Sprintf("said-%d", s.acts), Who: who, Act: relay.PanelSaid, Prompt: item.Key()})
			return
		}
	}
}

func (s *toldShow) desk(acts ...relay.AtDesk) {
	s.t.Helper()
	for _, act := range acts {
		s.acts++
		act.At, act.ID, act.Who = s.at, fmt.Sprintf("desk-%d", s.acts), "Runa"
		s.take(act)
		if entered, _ := s.show.Entry(act.ID); entered.Refused != "" {
			s.t.Fatalf("%s: %s", act.Action, entered.Refused)
		}
	}
}

// play is what people do in the show, by its seconds.
func (s *toldShow) play(second int) {
	s.t.Helper()
	switch second {
	case 66, 285, 470, 640, 1000, 1145, 1230, 1300:
		s.says(1, []string{"Maren", "Jost"}[second%2])
	case 150, 420, 800, 1020:
		s.says(2, "Jost")
	case 478: // behind 15.f3: a side line with an arrow, step by step
		s.desk(relay.AtDesk{Action: "look-at", Board: 1}, relay.AtDesk{Action: "mark-plan", From: "e3", To: "e4"}, relay.AtDesk{Action: "put-on-air"},
			relay.AtDesk{Action: "play", SAN: "Bd6"}, relay.AtDesk{Action: "play", SAN: "e4"}, relay.AtDesk{Action: "play", SAN: "dxe4"},
			relay.AtDesk{Action: "play", SAN: "fxe4"}, relay.AtDesk{Action: "play", SAN: "Bg3+"},
			relay.AtDesk{Action: "name-line", Text: "what e4 would allow"})
	case 495:
		s.desk(relay.AtDesk{Action: "take-off-air"}, relay.AtDesk{Action: "to-live"})
	case 1196: // behind 28.Bc2
		s.desk(relay.AtDesk{Action: "to-live"}, relay.AtDesk{Action: "prepare-challenge", Seconds: 30, Hints: []string{"A knight move"}},
			relay.AtDesk{Action: "ask"}, relay.AtDesk{Action: "give-hint"})
	case 1224:
		s.desk(relay.AtDesk{Action: "reveal"})
	case 1240:
		s.desk(relay.AtDesk{Action: "end-challenge"})
	}
}
