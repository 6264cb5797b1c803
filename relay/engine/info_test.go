package engine

import (
	"reflect"
	"strings"
	"testing"

	"clocktell/relay/bitboard"
	"clocktell/relay/opinion"
)

// TestReadInfo: the forms of the UCI description of April 2006, with wdl from memory, and
// what is none.
func TestReadInfo(t *testing.T) {
	for line, want := range map[string]*info{
		"depth 12 nodes 123456 nps 100000":                                      {multi: 1, depth: 12, nodes: 123456},
		"score cp 13  depth 1 nodes 13 time 15 pv f1b5":                         {multi: 1, depth: 1, nodes: 13, scored: true, score: opinion.Score{Centipawns: 13}, moves: []string{"f1b5"}},
		"depth 2 score cp 214 time 1242 nodes 2124 nps 34928 pv e2e4 e7e5 g1f3": {multi: 1, depth: 2, nodes: 2124, scored: true, score: opinion.Score{Centipawns: 214}, moves: []string{"e2e4", "e7e5", "g1f3"}},
		"depth 5 seldepth 9 multipv 3 score mate -2 pv a1a2":                    {multi: 3, depth: 5, scored: true, score: opinion.Score{Mate: -2}, moves: []string{"a1a2"}},
		"depth 5 score cp -7 lowerbound pv a1a2":                                {multi: 1, depth: 5, scored: true, score: opinion.Score{Centipawns: -7, Bound: opinion.AtLeast}, moves: []string{"a1a2"}},
		"depth 5 score cp -7 upperbound wdl 10 900 90 pv a7a8q":                 {multi: 1, depth: 5, scored: true, score: opinion.Score{Centipawns: -7, Bound: opinion.AtMost}, chances: &opinion.Chances{Win: 10, Draw: 900, Loss: 90}, moves: []string{"a7a8q"}},
		"pv e2e4 e7e5 depth 4":                                                  {multi: 1, depth: 4, moves: []string{"e2e4", "e7e5"}},
		"currmove e2e4 currmovenumber 1":                                        {multi: 1},
		"string depth x score cp y":                                             {multi: 1},
		"hashfull 3 wonder 7 depth 6":                                           {multi: 1, depth: 6},
		"":                                                                      {multi: 1},
		"depth":                                                                 nil, "depth x": nil, "depth -1": nil, "depth 1001": nil, "score": nil, "score cp": nil, "score cp NaN": nil,
		"score cp 1e9": nil, "score cp 1000001": nil, "score mate 0": nil, "score mate 1001": nil, "score odd 3": nil, "multipv 0": nil,
		"multipv 9": nil, "nodes -4": nil, "nodes 99999999999999999999": nil, "wdl 1 2": nil, "wdl 1 2 3": nil, "wdl 1001 0 -1": nil,
	} {
		got, ok := readInfo(strings.Fields(line))
		if ok != (want != nil) || ok && !reflect.DeepEqual(got, *want) {
			t.Errorf("info %s: %+v, %v; want %+v", line, got, ok, want)
		}
	}
}

// TestMoves: moves as UCI writes them, castling as the king's move, and only legal ones.
func TestMoves(t *testing.T) {
	castles := position(t, "r3k2r/1P6/8/8/8/8/8/R3K2R w KQkq - 0 1")
	for text, want := range map[string]bool{
		"e1g1": true, "e1c1": true, "e1h1": false, "b7b8q": true, "b7a8n": true, "b7b8": false, "b7b8k": false, "b7b8Q": false,
		"a1a8": true, "a1a9": false, "i1a1": false, "e8g8": false, "": false, "0000": false, "e1e1": false, "a1a8q": false, "(none)": false,
	} {
		if m, got := moveOf(&castles, text); got != want || got && m.String() != text {
			t.Errorf("%q: %v, %v; want %v", text, m, got, want)
		}
	}
}

// heardAll lets a gathering hear lines.
func heardAll(g *gathering, lines ...string) (reasons []Reason) {
	for _, line := range lines {
		in, ok := readInfo(strings.Fields(line))
		if !ok {
			reasons = append(reasons, FaultRubbish)
		} else if reason := g.take(in); reason != "" {
			reasons = append(reasons, reason)
		}
	}
	return reasons
}

// TestWhiteView: scores, bounds and chances are White's whoever is to move.
func TestWhiteView(t *testing.T) {
	const line = "depth 3 score cp 40 lowerbound wdl 500 300 200 pv "
	white := gather(bitboard.Start(), 1)
	heardAll(white, line+"e2e4")
	black := gather(after(t, "e2e4"), 1)
	heardAll(black, line+"e7e5")
	for _, row := range []struct {
		of   *gathering
		want opinion.Line
	}{
		{white, opinion.Line{Score: opinion.Score{Centipawns: 40, Bound: opinion.AtLeast}, Chances: &opinion.Chances{Win: 500, Draw: 300, Loss: 200}}},
		{black, opinion.Line{Score: opinion.Score{Centipawns: -40, Bound: opinion.AtMost}, Chances: &opinion.Chances{Win: 200, Draw: 300, Loss: 500}}},
	} {
		o, ok := row.of.opinion("x", 0, 0, true)
		if best, _ := o.Best(); !ok || best.Score != row.want.Score || *best.Chances != *row.want.Chances {
			t.Errorf("%+v, want %+v", o, row.want)
		}
	}
	mated := gather(after(t, "e2e4"), 1)
	heardAll(mated, "depth 3 score mate -2 pv e7e5")
	if o, _ := mated.opinion("x", 0, 0, true); o.Lines[0].Score.Mate != 2 {
		t.Errorf("Black is mated in two, and the score is %+v", o.Lines[0].Score)
	}
}

// TestWholeDepths: lines are those of the last depth at which all were searched to the
// end; one that is only a bound, or belongs to the next depth, does not take a place.
func TestWholeDepths(t *testing.T) {
	g := gather(bitboard.Start(), 2)
	if _, ok := g.opinion("x", 0, 0, true); ok {
		t.Error("an opinion of nothing")
	}
	heardAll(g, "depth 1 multipv 1 score cp 30 lowerbound pv e2e4")
	if o, _ := g.opinion("x", 0, 0, false); len(o.Lines) != 1 || o.Lines[0].Score.Bound != opinion.AtLeast || len(o.Steps) != 0 {
		t.Errorf("before a depth is whole: %+v", o)
	}
	heardAll(g, "depth 1 multipv 1 score cp 30 pv e2e4", "depth 1 multipv 2 score cp 20 pv d2d4",
		"depth 2 multipv 1 score cp 35 pv d2d4 d7d5", "depth 2 multipv 2 score cp 25 pv e2e4",
		"depth 3 multipv 1 score cp 99 upperbound pv g1f3", "depth 3 multipv 2 score cp 1 pv e2e4")
	o, _ := g.opinion("x", 7, 8, true)
	want := opinion.Opinion{
		Engine: "x", Depth: 2, Given: 7, Took: 8, Final: true,
		Lines: []opinion.Line{
			{Score: opinion.Score{Centipawns: 35}, Depth: 2, Moves: played(t, "d2d4", "d7d5")},
			{Score: opinion.Score{Centipawns: 25}, Depth: 2, Moves: played(t, "e2e4")},
		},
		Steps: []opinion.Step{
			{Depth: 1, First: played(t, "e2e4")[0], Score: opinion.Score{Centipawns: 30}},
			{Depth: 2, First: played(t, "d2d4")[0], Score: opinion.Score{Centipawns: 35}},
		},
	}
	if !reflect.DeepEqual(o, want) {
		t.Errorf("got  %+v\nwant %+v", o, want)
	}
	heardAll(g, "depth 4 multipv 1 score cp 5 pv g1f3", "depth 4 multipv 2 score cp 4 pv g1f3")
	if o, _ := g.opinion("x", 7, 8, true); o.Depth != 2 {
		t.Errorf("two lines that begin alike were taken: %+v", o)
	}
}

func played(t *testing.T, texts ...string) (moves []bitboard.Move) {
	t.Helper()
	p := bitboard.Start()
	for _, text := range texts {
		m, legal := moveOf(&p, text)
		if !legal {
			t.Fatal(text)
		}
		moves = append(moves, m)
		p.Make(m)
	}
	return moves
}

// TestIllegalLines: a line ends before a move that cannot be played; one that begins with
// such a move is none.
func TestIllegalLines(t *testing.T) {
	g := gather(bitboard.Start(), 2)
	if got := heardAll(g, "depth 1 score cp 1 pv e2e5 e7e5"); !reflect.DeepEqual(got, []Reason{FaultIllegal}) || len(g.now[0].Moves) != 0 {
		t.Errorf("a wrong first move: %v, %+v", got, g.now)
	}
	if got := heardAll(g, "depth 1 score cp 1 pv e2e4 e7e4 d2d4"); !reflect.DeepEqual(got, []Reason{FaultIllegal}) || len(g.now[0].Moves) != 1 {
		t.Errorf("a wrong second move: %v, %+v", got, g.now)
	}
	long := strings.TrimSpace(strings.Repeat("g1f3 g8f6 f3g1 f6g8 ", 20))
	if got := heardAll(g, "depth 1 score cp 1 pv "+long); got != nil || len(g.now[0].Moves) != movesMost {
		t.Errorf("a long line: %v, %d moves, want %d", got, len(g.now[0].Moves), movesMost)
	}
	if got := heardAll(g, "depth 0 score cp 1 pv e2e4", "depth 1 multipv 3 score cp 1 pv e2e4"); !reflect.DeepEqual(got, []Reason{FaultRubbish, FaultRubbish}) {
		t.Errorf("depth 0, and a third line of two: %v", got)
	}
}

// TestOneMove: where there are fewer moves than lines, all of them make a whole depth.
func TestOneMove(t *testing.T) {
	g := gather(position(t, "7k/8/8/8/8/8/r7/1r5K w - - 0 1"), 3) // no move at all
	if len(g.now) != 0 {
		t.Errorf("%d lines of a mate", len(g.now))
	}
	g = gather(position(t, "k7/8/8/8/8/8/r7/7K w - - 0 1"), 3) // only Kg1
	heardAll(g, "depth 4 score cp -500 pv h1g1")
	if o, ok := g.opinion("x", 0, 0, true); !ok || len(o.Lines) != 1 || o.Depth != 4 || len(o.Steps) != 1 {
		t.Errorf("%+v", o)
	}
}
