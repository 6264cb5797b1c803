package main

import (
	"bufio"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"clocktell/relay/bitboard"
)

// collection makes a collection of invented games, always the same ones: legal moves that
// know favourites, so that openings are shared as in life; people, events, ratings and
// clocks that nobody has.
type collection struct {
	random *rand.Rand
	moves  []bitboard.Move
	text   []byte
}

// writeCollection writes so many games to a file and returns its path and size.
func writeCollection(t testing.TB, games int) (path string, size int64) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "collection.pgn")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	w := bufio.NewWriterSize(f, 1<<20)
	if err := writeGames(w, games); err != nil {
		t.Fatal(err)
	}
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	info, err := f.Stat()
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	return path, info.Size()
}

func writeGames(w io.Writer, games int) error {
	c := &collection{random: rand.New(rand.NewPCG(2026, 64))}
	for range games {
		if _, err := w.Write(c.game()); err != nil {
			return err
		}
	}
	return nil
}

// syllables make the names of 8,000 people.
var syllables = []string{"ba", "dro", "fel", "gri", "hu", "kas", "lin", "mo", "nar", "ot", "pel", "qui", "ras", "sol", "tu", "ver", "wim", "xa", "yor", "zen"}

func (c *collection) name() string {
	s := func() string { return syllables[c.random.IntN(len(syllables))] }
	return fmt.Sprintf("%s%s, %.1s", s(), s(), s())
}

// controls are time controls, each as often as it stands here.
var controls = []string{"5400+30", "5400+30", "900+10", "600+5", "180+2", "?"}

func (c *collection) game() []byte {
	moves := c.random.IntN(35) + 22
	result := []string{"1-0", "1/2-1/2", "0-1"}[c.random.IntN(3)]
	mode := []string{"OTB", "OTB", "ICS"}[c.random.IntN(3)]
	c.text = fmt.Appendf(c.text[:0], "[Event \"Invented Open %d\"]\n[Site \"Nowhere\"]\n[Date \"%d.%02d.%02d\"]\n[Round \"%d\"]\n[White \"%s\"]\n[Black \"%s\"]\n"+
		"[Result \"%s\"]\n[WhiteElo \"%d\"]\n[BlackElo \"%d\"]\n[Mode \"%s\"]\n[TimeControl \"%s\"]\n\n",
		c.random.IntN(3000), 1990+c.random.IntN(40), 1+c.random.IntN(12), 1+c.random.IntN(28), 1+c.random.IntN(9), c.name(), c.name(),
		result, 1800+c.random.IntN(1000), 1800+c.random.IntN(1000), mode, controls[c.random.IntN(len(controls))])
	c.play(2*moves, c.random.IntN(2) == 0)
	c.text = append(append(c.text, result...), "\n\n"...)
	return c.text
}

// play writes so many plies, or until somebody is mated.
func (c *collection) play(plies int, clocks bool) {
	at := bitboard.Start()
	for ply := range plies {
		move := c.choose(&at, ply)
		if move == bitboard.NoMove {
			return
		}
		if ply%2 == 0 {
			c.text = fmt.Appendf(c.text, "%d. ", ply/2+1)
		}
		c.text = append(at.AppendSAN(c.text, move), ' ')
		if clocks {
			c.text = fmt.Appendf(c.text, "{[%%clk 0:%02d:%02d]} ", 59-ply/3%60, c.random.IntN(60))
		}
		at.Make(move)
		if ply%14 == 13 {
			c.text = append(c.text, '\n')
		}
	}
}

// choose returns a legal move: mostly the favourite of the position, sometimes the second
// and so on; later in the game less often.
func (c *collection) choose(at *bitboard.Position, ply int) bitboard.Move {
	favourite := 0.78
	if ply > 24 {
		favourite = 0.4
	}
	rank := uint64(0)
	for c.random.Float64() > favourite {
		rank++
	}
	best, least := bitboard.NoMove, ^uint64(0)
	c.moves = at.Moves(c.moves[:0])
	for _, move := range c.moves {
		if key := (at.Hash() ^ rank<<32 ^ uint64(move)*0x9e3779b97f4a7c15) * 0xbf58476d1ce4e5b9; key < least {
			best, least = move, key
		}
	}
	return best
}
