package remark

import (
	"fmt"
	"slices"
	"testing"
	"unsafe"
)

// spoken returns what is said after each ply of a game, as "ply key".
func spoken(states []State) []string {
	var list []string
	for i := range states {
		for _, r := range states[i].Remarks() {
			if int(r.Said) == i {
				list = append(list, fmt.Sprint(i, " ", r.Key()))
			}
		}
	}
	return list
}

// TestCastlingPrevented: it is said when the reply has not settled it, and withdrawn when a
// second man prevents it too, when the right is lost, and when the man goes.
func TestCastlingPrevented(t *testing.T) {
	const fen = "r2qk2r/ppp2ppp/3pbn2/8/8/2N1BN2/PPP2PPP/R2QK2R b KQ - 0 12"
	for _, test := range []struct {
		moves string
		after string // what stands in the end
	}{
		{"Bc4", ""},
		{"Bc4 h3", "castlingprevented-white-k-Ke1-f1-bc4"},
		{"Bc4 h3 h6", "castlingprevented-white-k-Ke1-f1-bc4"},
		{"Bc4 h3 Bd5", ""},
		{"Bc4 h3 h6 Kd2", ""},
		{"Bc4 h3 h6 Nd2", "castlingprevented-white-k-Ke1-f1-bc4"},
		{"Bc4 h3 h6 Nd2 h5 b3", "castlingprevented-white-k-Ke1-f1-bc4"},
		{"Bc4 h3 Ng4 a3 Nxe3 a4", ""}, // f1 is attacked by the knight as well
	} {
		states := follow(t, fen, test.moves)
		got := ""
		for _, r := range states[len(states)-1].Remarks() {
			if r.Rule == CastlingPrevented && r.Wing == 2 {
				got = r.Key()
			}
		}
		if got != test.after {
			t.Errorf("%s: %q stands, want %q", test.moves, got, test.after)
		}
	}
}

// TestMaterialWaits: an imbalance is said when the exchange is over and nothing hangs.
func TestMaterialWaits(t *testing.T) {
	const fen = "3r2k1/5ppp/8/3n4/8/5N2/5PPP/3R2K1 w - - 0 30"
	if got := spoken(follow(t, fen, "Rxd5 Rxd5 h3 h6 Kh2 Kh7")); !slices.Equal(got, []string{"4 exchangeup-black"}) {
		t.Errorf("after an exchange for two plies: %q", got)
	}
	if got := spoken(follow(t, fen, "Rxd5")); len(got) > 0 {
		t.Errorf("in an exchange: %q", got)
	}
}

// TestFirstPositionIsNoNews: what stands when a game begins is not said of it.
func TestFirstPositionIsNoNews(t *testing.T) {
	const fen = "6k1/5ppp/8/3r4/8/5N2/5PPP/6K1 w - - 0 30"
	if got := spoken(follow(t, fen, "h3 h6 Kh2 Kh7 g3 g6 Kg2 Kg7")); len(got) > 0 {
		t.Errorf("said of what was there from the beginning: %q", got)
	}
}

// TestNotAgain: of a pawn that goes on, and of a rook that comes and goes, it is said once.
func TestNotAgain(t *testing.T) {
	const fen = "6k1/1r3ppp/8/4p3/P7/8/R4PPP/6K1 w - - 0 30"
	got := spoken(follow(t, fen, "a5 Ra7 a6 g6 h3 h6 Ra5 Kg7 Ra2 Kg8 Ra5 Kg7"))
	far := 0
	for _, key := range got {
		if len(key) > 12 && key[2:11] == "passerfar" {
			far++
		}
	}
	if far != 1 {
		t.Errorf("%q, want one word on the pawn that has come far", got)
	}
}

// TestFollowed: what was said of a man goes with it, and ends when it is captured.
func TestFollowed(t *testing.T) {
	said := []saying{{rule: KnightOutpost, man: 12, ply: 1}, {rule: KnightOutpost, man: 40, ply: 1}, {rule: MateHere, man: 5, ply: -90}}
	got := followed(said, move(12, 40), 2)
	if len(got) != 2 || got[0].man != 40 || got[1].man != 64 {
		t.Errorf("%v", got)
	}
}

// TestPure: the fold changes no state it goes on from, so that a takeback can go on from it.
func TestPure(t *testing.T) {
	for _, game := range libraryGames(t, 20) {
		steps := played(t, &game)
		for i := 1; i < len(steps); i++ {
			before := fmt.Sprint(steps[i-1].state)
			other := steps[i-1].state.Next(&steps[i].before, steps[i].move, &steps[i].after, steps[i].earlier...)
			if fmt.Sprint(other) != fmt.Sprint(steps[i].state) || fmt.Sprint(steps[i-1].state) != before {
				t.Fatalf("%s: %v, then %v", steps[i].after.FEN(), steps[i].state, other)
			}
		}
	}
}

// TestAmountsAsTheyAre: how many pawns there are is as it is when it is said, and withdrawn when
// it is no more.
func TestAmountsAsTheyAre(t *testing.T) {
	states := follow(t, "r3k3/5ppp/1n6/3N4/8/8/R4PPP/4K3 w - - 0 30", "Rxa8+ Nxa8 h3 h6 g3 Kf8 Nb4 g5 Nc6 Nb6 f3 f5 Kd2 f4 gxf4 gxf4")
	said, gone := 0, 0
	for i := range states {
		for _, r := range states[i].Remarks() {
			if r.Rule == EndingBegun && r.Amount == 33 {
				said = max(said, i)
			}
			if r.Rule == EndingBegun && r.Amount != 33 {
				gone++
			}
		}
	}
	if said == 0 || gone > 0 {
		t.Errorf("told at ply %d with 3 pawns each, %d times otherwise", said, gone)
	}
}

// TestWithdrawn: whatever stands is found in its position by its rule, and for no longer than its life.
func TestWithdrawn(t *testing.T) {
	standing := 0
	for _, game := range libraryGames(t, 50) {
		steps := played(t, &game)
		for i := range steps {
			for _, r := range steps[i].state.Remarks() {
				standing++
				p := &steps[i].after
				for n, on := range r.Squares() {
					if p.Piece(on) != r.Man(n) {
						t.Errorf("%s: %s", p.FEN(), r)
					}
				}
				if age := steps[i].state.ply - r.Said; age < 0 || int(age) >= r.Life() {
					t.Errorf("%s: %s stands for %d plies", p.FEN(), r, age)
				}
			}
		}
	}
	t.Logf("%d remarks stood in a position", standing)
	if standing == 0 {
		t.Error("none: nothing was tested")
	}
}

func move(from, to Square) Move { return Move(from) | Move(to)<<6 }

// stateMost is what the remarks after a ply may take in memory, on average.
const stateMost = 512

// TestStateIsSmall: a show keeps the state of every ply of every board.
func TestStateIsSmall(t *testing.T) {
	bytes, plies := 0, 0
	for _, game := range libraryGames(t, 50) {
		for _, one := range played(t, &game) {
			plies++
			bytes += int(unsafe.Sizeof(one.state)) + cap(one.state.found)*int(unsafe.Sizeof(Remark{})) + cap(one.state.said)*int(unsafe.Sizeof(saying{}))
		}
	}
	t.Logf("%d bytes a ply", bytes/plies)
	if bytes/plies > stateMost {
		t.Errorf("%d bytes a ply, want at most %d", bytes/plies, stateMost)
	}
}
