package relay_test

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/pgn"
	"clocktell/relay/relaytest"
)

// changing is a feed whose packets change at random.
type changing struct {
	random *rand.Rand
	games  []string
}

func (c *changing) game() string {
	n := c.random.IntN(30)
	g := relaytest.Game{White: fmt.Sprintf("White%d, W", c.random.IntN(1000)), Moves: moves(n)}
	if c.random.IntN(4) == 0 {
		g.Result = "1-0"
	}
	for range n {
		g.Clocks = append(g.Clocks, fmt.Sprintf("0:09:%02d", c.random.IntN(60)))
	}
	return g.PGN()
}

// packet lets one thing happen and returns the packet, now and then cut or spoilt.
func (c *changing) packet() string {
	i := c.random.IntN(len(c.games) + 1)
	switch at := min(i, len(c.games)-1); {
	case i == len(c.games) || c.random.IntN(6) == 0:
		c.games = append(c.games[:i:i], append([]string{c.game()}, c.games[i:]...)...)
	case c.random.IntN(6) == 0:
		c.games = append(c.games[:i:i], c.games[i+1:]...)
	case c.random.IntN(4) == 0:
		j := c.random.IntN(len(c.games))
		c.games[at], c.games[j] = c.games[j], c.games[at]
	case c.random.IntN(5) == 0:
		c.games[at] = strings.Replace(c.games[at], "}", "", 1) // a comment that is not closed
	case c.random.IntN(5) == 0:
		c.games[at] += "{ said behind the result }\n"
	default:
		c.games[at] = c.game()
	}
	text := strings.Join(c.games, "\n")
	if c.random.IntN(5) == 0 {
		text = text[:c.random.IntN(len(text)+1)]
	}
	return text
}

// TestIntakeIsTheReader: whatever changes, the games that an Intake reads are those
// that reading the whole packet gives, it leaves out none that is new, and its parts
// build the same packet again elsewhere.
func TestIntakeIsTheReader(t *testing.T) {
	read, kept := 0, 0
	for seed := range uint64(60) {
		c := &changing{random: rand.New(rand.NewPCG(seed, 2))}
		in, again := relay.NewIntake("a"), relay.NewIntake("a")
		var before []pgn.Game
		for step := range 40 {
			text := c.packet()
			whole := pgn.Read([]byte(text))
			event, isNew := in.Read(relaytest.Start.Add(time.Duration(step)*time.Second), []byte(text)).(relay.PacketRead)
			if !isNew {
				if !sameGames(before, whole) {
					t.Fatalf("seed %d, step %d: nothing new, but the games are others", seed, step)
				}
				continue
			}
			if len(event.Keys) != len(whole) && len(whole) > 0 {
				t.Fatalf("seed %d, step %d: %d games, the reader finds %d in\n%s", seed, step, len(event.Keys), len(whole), text)
			}
			changed := make(map[int]bool)
			for _, g := range event.Games {
				changed[g.Index] = true
				if len(whole) > 0 && !sameGame(&g.Game, &whole[g.Index]) {
					t.Fatalf("seed %d, step %d, game %d: %+v, the reader says %+v", seed, step, g.Index, g.Game, whole[g.Index])
				}
			}
			read, kept = read+len(event.Games), kept+len(whole)-len(event.Games)
			for i := range whole {
				if !changed[i] && !hasGame(before, &whole[i]) {
					t.Fatalf("seed %d, step %d: game %d is new and was left out", seed, step, i)
				}
			}
			rebuilt, err := again.Again(relay.PacketRead{At: event.At, Feed: "a", Parts: event.Parts})
			if err != nil || !reflect.DeepEqual(rebuilt, event) {
				t.Fatalf("seed %d, step %d: the parts give another packet (%v)", seed, step, err)
			}
			before = whole
		}
	}
	if read == 0 || kept < read {
		t.Errorf("%d games read, %d kept: the test does not show that unchanged games are kept", read, kept)
	}
}

func sameGames(a, b []pgn.Game) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if !sameGame(&a[i], &b[i]) {
			return false
		}
	}
	return true
}

// sameGame compares all but the lines, which count from the packet's beginning, and
// what the reader says of the last game of a packet.
func sameGame(a, b *pgn.Game) bool {
	return reflect.DeepEqual(a.Tags, b.Tags) && a.Result == b.Result && words(a) == words(b) && reasons(a) == reasons(b)
}

func words(g *pgn.Game) string {
	var out strings.Builder
	for i := range g.Moves {
		operands, _ := g.Moves[i].Command("clk")
		fmt.Fprint(&out, g.Moves[i].SAN, operands, " ")
	}
	return out.String()
}

func reasons(g *pgn.Game) string {
	var out []string
	for _, f := range g.Faults {
		out = append(out, f.Reason)
	}
	return strings.Join(out, " ")
}

func hasGame(games []pgn.Game, g *pgn.Game) bool {
	for i := range games {
		if sameGame(&games[i], g) {
			return true
		}
	}
	return false
}

// TestWrongParts: parts that do not fit are an error, not a panic and not a game.
func TestWrongParts(t *testing.T) {
	for _, part := range []relay.Part{{From: 0, Count: 1}, {From: -1, Count: 1}, {From: 3, Head: 2}, {Head: -1, Tail: 1}, {From: 0, Head: 1, Tail: 1 << 40}} {
		if _, err := relay.NewIntake("a").Again(relay.PacketRead{Feed: "a", Parts: []relay.Part{part}}); err == nil {
			t.Errorf("%+v was taken", part)
		}
	}
}

// TestNoGameInIt: what is not PGN is told from what is.
func TestNoGameInIt(t *testing.T) {
	for _, test := range []struct {
		text string
		good bool
	}{
		{"", false}, {" \n\n", false}, {"<html><body>[e4]</body></html>", false}, {"1. e4 e5 *", false}, {`{"games":[]}`, false},
		{at(3), true}, {"\ufeff" + at(3), true}, {"; a comment\n" + at(3), true}, {"<!doctype html>" + at(3), false},
	} {
		if err := relay.HoldsGames([]byte(test.text)); (err == nil) != test.good {
			t.Errorf("%.20q: %v", test.text, err)
		}
	}
}
