package main

import (
	"os"
	"testing"

	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/reference"
	"clocktell/relay/relaytest"
)

// TestReferenceFailsInShow: a reference that is cut short while the show runs is told of
// once, and nothing is claimed of the positions it no longer answers.
func TestReferenceFailsInShow(t *testing.T) {
	file, forget, err := demoReference(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := forget(); err != nil {
			t.Error(err)
		}
	})
	l := demoLibraryOf(t, config.Reference{File: file})
	if err := os.Truncate(file, 300); err != nil {
		t.Fatal(err)
	}
	s := relaytest.NewStage()
	s.Take(relaytest.Game{Moves: "e4 e5"}.PGN())
	if l.fails() {
		t.Error("a fault before anything was looked up")
	}
	b := s.Board(1)
	e := l.answers(b, b.Unanswered(l.index.Depth()))
	if len(e.Answers) > 0 || !l.fails() || l.fails() {
		t.Fatalf("%d answers; the fault must be news once", len(e.Answers))
	}
	s.Apply(relay.ReferenceAttached{At: s.Now, Reference: l.state})
	if r := s.Show.Reference; r.Fault == "" || r.Attached() || l.failed == nil || s.Board(1).Novelty() != -1 {
		t.Errorf("the show has %+v", r)
	}
	if _, err := reference.Open(file); err == nil {
		t.Error("the file was not cut short")
	}
}
