package overlay

import (
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// TestScenesNeverGoBack: where the past has been thinned out since a scene looked last, the scene
// keeps what it was sent until something newer comes. Other pages look at what is there now.
func TestScenesNeverGoBack(t *testing.T) {
	start, intake := relay.NewShow(relaytest.Plan(), relaytest.Start), relay.NewIntake(relaytest.FeedName)
	shows, moves := []*relay.Show{start}, strings.Fields("e4 e5 Nf3 Nc6")
	for n := range moves {
		at := relaytest.Start.Add(time.Duration(n+1) * 10 * time.Second)
		packet := relaytest.Packet(relaytest.Game{Moves: strings.Join(moves[:n+1], " ")})
		shows = append(shows, shows[n].After(intake.Read(at, []byte(packet))))
	}
	tb := relay.NewTimebaseAt(relaytest.Start, 1)
	server := New(Options{Relay: relay.New(start, tb), Time: tb})
	for _, test := range []struct {
		page string
		want []int // boards that it is sent of each show
	}{
		{"scene/board", []int{1, 0, 0, 1, 0}}, {"panel", []int{1, 1, 1, 1, 1}},
	} {
		v := &viewer{server: server, kind: pageKinds[test.page], parts: partsOfKinds[test.page], frames: server.frames.take(held{}), me: &connected{kind: test.page}}
		v.chosen.boards = []int{1}
		for i, plies := range []int{3, 2, 3, 4, 1} {
			sent := 0
			for _, frame := range v.update(shows[plies], nil) {
				sent += strings.Count(string(frame), `"type":"board"`)
			}
			if sent != test.want[i] {
				t.Errorf("%s: look %d, at %d plies: %d boards are sent, want %d", test.page, i, plies, sent, test.want[i])
			}
		}
	}
}
