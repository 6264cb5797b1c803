package relay_test

import (
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// TestPaces: what the clocks show when little else happens, each beside a game that just lacks it. The
// figures follow from the paces by hand.
func TestPaces(t *testing.T) {
	const sec = time.Second
	slow := func(own int, d time.Duration) pace { return thinksOf(6*sec, map[int]time.Duration{own: d}) }
	three := func(d time.Duration) pace { return thinksOf(6*sec, map[int]time.Duration{14: d, 15: d, 16: d}) }
	answered := func(d time.Duration) [2]pace {
		return [2]pace{thinksOf(6*sec, map[int]time.Duration{9: 65 * sec, 17: 50 * sec}), slow(17, d)}
	}
	for _, test := range []struct {
		text        string
		yes, no     [2]pace
		start       time.Duration
		plies, away int // away: plies played before anybody counts what is said
	}{
		{"Noir answers at once, after", answered(2 * sec), answered(5 * sec), 15 * time.Minute, 40, 0},
		{"The longest think of the game so far: Weiss", [2]pace{slow(18, 44*sec), always(6 * sec)}, [2]pace{slow(18, 38*sec), always(6 * sec)}, 15 * time.Minute, 40, 0},
		{"The last three moves took Weiss at least forty seconds each.", [2]pace{three(42 * sec), always(6 * sec)}, [2]pace{three(38 * sec), always(6 * sec)}, 15 * time.Minute, 40, 0},
		{"After twenty moves Weiss still has", [2]pace{always(7 * sec), always(9 * sec)}, [2]pace{always(20 * sec), always(22 * sec)}, 15 * time.Minute, 44, 0},
		{"After twenty moves the clocks are level.", [2]pace{always(9 * sec), always(9 * sec)}, [2]pace{always(9 * sec), always(10 * sec)}, 15 * time.Minute, 44, 0},
		{"Weiss has half of the starting time left.", [2]pace{always(22 * sec), always(10 * sec)}, [2]pace{always(14 * sec), always(10 * sec)}, 15 * time.Minute, 64, 0},
		{"seconds a move on average", [2]pace{always(15 * sec), always(22 * sec)}, [2]pace{always(15 * sec), always(18 * sec)}, 15 * time.Minute, 36, 0},
	} {
		for i, paces := range [][2]pace{test.yes, test.no} {
			p := newPlayed(t, "900+5", test.start, 5*sec, paces)
			text := strings.Join(p.saidBy(test.plies), "\n")
			if strings.Contains(text, test.text) != (i == 0) {
				t.Errorf("%q, game %d, said:\n%s", test.text, i, text)
			}
		}
	}
}

// TestOpeningNamed: how an opening is called is told once the name has stood for some plies, and not while it
// changes, nor of a game from a position that was set up.
func TestOpeningNamed(t *testing.T) {
	book := namesAfter{}
	for _, setUp := range []bool{false, true} {
		s := relaytest.NewStage()
		s.Apply(relay.OpeningsLoaded{At: s.Now, Book: book})
		said := 0
		moves := strings.Fields("e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7 Re1 b5")
		for n := 1; n <= len(moves); n++ {
			text := relaytest.Packet(relaytest.Game{Control: "900+10", Moves: strings.Join(moves[:n], " ")})
			if setUp {
				text = tagged(text, `SetUp "1"`, `FEN "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1"`)
			}
			s.Same(5 * time.Second)
			s.Take(text)
			for _, item := range s.Show.Said.Items {
				if item.Alert.Kind == relay.AlertOpening && said == 0 {
					said = n
				}
			}
		}
		if want := map[bool]int{false: 8, true: 0}[setUp]; said != want {
			t.Errorf("set up %v: told after %d plies, want %d", setUp, said, want)
		}
	}
}

// namesAfter names every position alike.
type namesAfter struct{}

func (namesAfter) Name(uint64) (relay.Opening, bool) {
	return relay.Opening{Code: "C60", Name: "Harbour Game: Quay Line"}, true
}

// TestGambitNamed: a gambit is called one as long as a pawn is given, and a name that says no more than the
// one told before is not told.
func TestGambitNamed(t *testing.T) {
	for moves, want := range map[string]int{
		"e4 c5 d4 cxd4 c3 dxc3 Nf3 Nc6 Bc4 d6": 1, // a pawn is given
		"e4 c5 d4 cxd4 Qxd4 Nc6 Qd3 Nf6 c4 d6": 0, // it was taken back
	} {
		s := relaytest.NewStage()
		s.Apply(relay.OpeningsLoaded{At: s.Now, Book: gambits{}})
		told := make(map[string]bool)
		list := strings.Fields(moves)
		for n := 1; n <= len(list); n++ {
			s.Same(5 * time.Second)
			s.Take(relaytest.Packet(relaytest.Game{Control: "900+10", Moves: strings.Join(list[:n], " ")}))
			for _, item := range s.Show.Said.Items {
				if item.Alert.Kind == relay.AlertOpening {
					told[item.Text] = true
				}
			}
		}
		if len(told) != want {
			t.Errorf("%s: %v, want %d names", moves, told, want)
		}
	}
}

// gambits names every position alike.
type gambits struct{}

func (gambits) Name(uint64) (relay.Opening, bool) {
	return relay.Opening{Code: "B21", Name: "Harbour Game: Quay Gambit"}, true
}
