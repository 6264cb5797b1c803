package remark

import (
	"slices"
	"testing"
)

// TestFill: what fills a silence is found in the position it is told of, by a rule that only fills silences,
// at most once of a side and rule in a game but for those that count; and nothing else is told at that ply.
func TestFill(t *testing.T) {
	filled, again := 0, 0
	for _, game := range libraryGames(t, 60) {
		var told []Remark
		for _, one := range played(t, &game) {
			if len(one.fresh()) > 0 {
				continue
			}
			r, ok := one.state.Fill(&one.after, told)
			if !ok {
				continue
			}
			filled++
			if !r.Rule.Calm() || r.Said != one.state.ply || !one.state.Stands(&r) {
				t.Errorf("%s: %s", one.after.FEN(), r)
			}
			if slices.ContainsFunc(told, func(was Remark) bool { return was.Rule == r.Rule && was.Side == r.Side }) {
				again++
				if r.Rule != PawnsLeft && r.Rule != Opposition {
					t.Errorf("%s: %s again", one.after.FEN(), r)
				}
			}
			told = append(told, r)
		}
	}
	t.Logf("%d silences filled, %d with other figures of the same", filled, again)
	if filled < 100 {
		t.Errorf("%d silences filled: too few to tell anything", filled)
	}
}

// TestStands: what was told stands as long as it is so and no longer than its life, and not before it was told.
func TestStands(t *testing.T) {
	states := follow(t, "6k1/pp3ppp/8/8/8/8/PP3PPP/6K1 w - - 0 20", "Kf1 Kf8 Ke2 Ke7 a4")
	r := states[2].found[slices.IndexFunc(states[2].found, func(r Remark) bool { return r.Rule == PawnsAlike })]
	r.Said = 2
	for ply, want := range []bool{false, false, true, true, true, true} {
		if got := states[ply].Stands(&r); got != want {
			t.Errorf("ply %d: stands %v", ply, got)
		}
	}
	gone := follow(t, "6k1/pp3ppp/8/8/8/8/PP3PPP/4R1K1 w - - 0 20", "Re7 h6 Rxb7")
	if gone[3].Stands(&Remark{Rule: PawnsAlike, Said: 2}) {
		t.Error("it stands although a pawn has gone")
	}
}

// TestForetold: that a side has no pawns left is no news when they were just counted.
func TestForetold(t *testing.T) {
	r := &Remark{Rule: NoPawnsLeft}
	if foretold(r, []saying{{rule: OneWing}}) || !foretold(r, []saying{{rule: LastPawn}}) || !foretold(r, []saying{{rule: PawnsLeft}}) {
		t.Error("counted pawns and others are not told apart")
	}
}

// TestQueensThatNeverWere: queens are off only in games that had some.
func TestQueensThatNeverWere(t *testing.T) {
	for _, test := range []struct{ fen, moves, want string }{
		{"3qk3/ppp2ppp/8/8/8/8/PPP2PPP/3QK3 w - - 0 12", "Qxd8+ Kxd8", "queensoff-white"},
		{"3rk3/ppp2ppp/8/8/8/8/PPP2PPP/3RK3 w - - 0 12", "Rxd8+ Kxd8", ""},
	} {
		if got := finding(t, QueensOff, test.fen, test.moves); got != test.want {
			t.Errorf("%s: found %q, want %q", test.fen, got, test.want)
		}
	}
}
