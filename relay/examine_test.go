package relay_test

import (
	"strings"
	"testing"

	"clocktell/relay"
	"clocktell/relay/pgn"
	"clocktell/relay/relaytest"
)

// TestExamineDoubtsTimeControl: a tag that the clocks contradict is told before the show.
func TestExamineDoubtsTimeControl(t *testing.T) {
	for _, test := range []struct {
		control string
		clocks  []string
		want    string // "": no doubt
	}{
		{"600+5", []string{"0:10:02", "0:10:01"}, ""},
		{"600+5", []string{"0:10:05", "0:10:05"}, ""},      // an increment for no time at all
		{"600+5", []string{"0:10:06", "0:10:06"}, ""},      // rounded up
		{"600+5", []string{"0:10:07", "0:10:05"}, "10:07"}, // more than that
		{"600+5", []string{"1:30:30", "1:30:10"}, "1:30:30"},
		{"5400+30", []string{"0:10:05", "0:10:01"}, "less than half"},
		{"5400+30", []string{"0:10:05", "1:30:01"}, ""}, // one came late
		{"40/7200:3600", []string{"1:59:00", "1:58:00"}, ""},
		{"600/5", []string{"0:10:02", "0:10:01"}, "10:02"}, // 600 moves in five seconds, says the standard (PGN 9.6.1)
		{"ten minutes", []string{"0:10:02", "0:10:01"}, "TimeControl"},
		{"", []string{"0:10:02", "0:10:01"}, "no time control"},
		{"600+5", nil, "2 of 2 plies have no clock"},
	} {
		games := pgn.Read([]byte(relaytest.Packet(relaytest.Game{Control: test.control, Moves: "e4 e5", Clocks: test.clocks})))
		r := relay.Examine(&games[0], relay.Defaults{})
		got := strings.Join(r.Doubts, "; ")
		if (got == "") != (test.want == "") || !strings.Contains(got, test.want) || !r.Good() || r.Plies != 2 || r.Clocks != len(test.clocks) {
			t.Errorf("%s %v: doubts %q, want %q; faults %q, %d plies, %d clocks", test.control, test.clocks, got, test.want, r.Faults, r.Plies, r.Clocks)
		}
	}
}
