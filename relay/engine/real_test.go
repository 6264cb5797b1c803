package engine

import (
	"bufio"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"clocktell/relay/bitboard"
	"clocktell/relay/opinion"
)

// asked is a real engine that is asked one thing after the other.
type asked struct {
	*kennel
	last int // board: each question has its own
}

// realEngine starts Debian's engine. Without one the test is skipped, but where
// CLOCKTELL_TESTS=all (as in .ci/run) it fails.
func realEngine(t *testing.T) *asked {
	t.Helper()
	path, err := exec.LookPath("stockfish")
	if err != nil {
		path, err = exec.LookPath("/usr/games/stockfish")
	}
	if err != nil && os.Getenv("CLOCKTELL_TESTS") == "all" {
		t.Fatal("there is no engine; .ci/run installs one")
	}
	if err != nil {
		t.Skip("there is no engine on the path")
	}
	return &asked{kennel: run(t, Options{Command: path, Threads: 1, Memory: 16, Nice: 10, Lines: 3})}
}

func (a *asked) ask(p bitboard.Position, limit Limit) opinion.Opinion {
	return a.askLine(Line{Start: p}, limit)
}

func (a *asked) askLine(line Line, limit Limit) opinion.Opinion {
	a.t.Helper()
	a.last++
	a.Want([]Wish{{Board: a.last, Limit: limit, Key: uint64(a.last), Line: func() Line { return line }}})
	answer := a.final(a.last)
	a.usable(answer)
	if state := a.State(); len(state.Faults) > 0 {
		a.t.Errorf("faults of a real engine: %v", state.Faults)
	}
	return answer.Opinion
}

// TestDraws: what is drawn only by a trick is found to be a draw.
func TestDraws(t *testing.T) {
	e := realEngine(t)
	for _, row := range []struct{ fen, first, why string }{
		{"7k/5Q2/8/8/8/6r1/8/R6K b - - 0 1", "g3g1", "the rook gives itself up: to take it is stalemate, set up for this test"},
		{"6k1/6p1/8/7Q/8/8/qr6/7K w - - 0 1", "h5e8", "two men down and about to be mated, the queen checks for ever, set up for this test"},
	} {
		for _, fen := range []string{row.fen, turned(row.fen)} {
			o := e.ask(position(t, fen), Limit{Depth: 16})
			best, _ := o.Best()
			if best.Score != (opinion.Score{}) || fen == row.fen && best.First().String() != row.first {
				t.Errorf("%s (%s): %+v by %v, want a draw by %s", fen, row.why, best.Score, best.First(), row.first)
			}
		}
	}
	p := position(t, "7k/5Q2/8/8/8/6r1/8/R6K b - - 0 1")
	for _, text := range []string{"g3g1", "h1g1"} {
		m, legal := moveOf(&p, text)
		if !legal {
			t.Fatal(text)
		}
		p.Make(m)
	}
	if !p.IsStalemate() {
		t.Error("taking the rook is no stalemate")
	}
}

// TestRepetitionCounts: the same position is won where it is new, and drawn for the side
// that can only go where it has been twice before.
func TestRepetitionCounts(t *testing.T) {
	e := realEngine(t)
	// Black has only Kh8-g8 and back; White is a queen up. After Qe8+ Kh7 twice, another
	// Qh5+ Kg8 would be there for the third time, which a line of moves has to tell.
	start := position(t, "6k1/6p1/8/7Q/8/8/qr6/7K w - - 0 1")
	line := Line{Start: start}
	p := start
	for _, text := range strings.Fields("h5e8 g8h7 e8h5 h7g8 h5e8 g8h7 e8h5") {
		m, legal := moveOf(&p, text)
		if !legal {
			t.Fatal(text)
		}
		line.Moves = append(line.Moves, m)
		p.Make(m)
	}
	o := e.askLine(line, Limit{Depth: 12})
	best, _ := o.Best()
	if len(o.Lines) != 1 || best.First().String() != "h7g8" || best.Score != (opinion.Score{}) {
		t.Errorf("with its history: %+v, want the one move Kg8 and a draw", o.Lines)
	}
	if len(best.Moves) != 1 {
		t.Logf("the line goes on after the third time: %v", best.Moves)
	}
}

// TestSigns: a rook up is good for the side that has it, whoever is to move, and the
// scores of a position and of that with colours turned are near to each other.
func TestSigns(t *testing.T) {
	e := realEngine(t)
	for _, fen := range []string{
		"4k3/pppp1ppp/8/8/8/8/PPPP1PPP/R3K3 w Q - 0 1", "4k3/pppp1ppp/8/8/8/8/PPPP1PPP/R3K3 b Q - 0 1",
	} {
		o, back := e.ask(position(t, fen), Limit{Depth: 8}), e.ask(position(t, turned(fen)), Limit{Depth: 8})
		first, second := o.Lines[0], back.Lines[0]
		if first.Score.Centipawns < 300 || second.Score.Centipawns > -300 {
			t.Errorf("%s: %d, turned %d; White is a rook up, and Black when turned", fen, first.Score.Centipawns, second.Score.Centipawns)
		}
		if first.Chances == nil || second.Chances == nil || first.Chances.Win < 900 || second.Chances.Loss < 900 {
			t.Errorf("%s: chances %+v, turned %+v", fen, first.Chances, second.Chances)
		}
		white := strings.Contains(fen, " w ")
		inOrder(t, o.Lines, white)
		inOrder(t, back.Lines, !white)
	}
}

// inOrder checks that lines are the best first for the side on move.
func inOrder(t *testing.T, lines []opinion.Line, white bool) {
	t.Helper()
	if len(lines) != 3 {
		t.Fatalf("%d lines, want 3", len(lines))
	}
	sorted := slices.IsSortedFunc(lines, func(a, b opinion.Line) int {
		return b.Score.From(white).Centipawns - a.Score.From(white).Centipawns
	})
	if !sorted || lines[0].First() == lines[1].First() || lines[1].First() == lines[2].First() {
		t.Errorf("lines %+v are not in order, for White: %v", lines, white)
	}
}

// TestOnlyMove: of one legal move there is one line.
func TestOnlyMove(t *testing.T) {
	o := realEngine(t).ask(position(t, "k7/8/8/8/8/8/r7/7K w - - 0 1"), Limit{Time: 200 * time.Millisecond})
	if len(o.Lines) != 1 || o.Lines[0].First().String() != "h1g1" || o.Lines[0].Score.Centipawns > -300 && o.Lines[0].Score.Mate >= 0 {
		t.Errorf("%+v", o)
	}
}

// TestLiveLatency prints how long a real engine takes to say something useful of a new
// position, with one thread, and how exactly it keeps its time.
func TestLiveLatency(t *testing.T) {
	e := realEngine(t)
	e.ask(bitboard.Start(), Limit{Depth: 1})
	var first, over []time.Duration
	p := bitboard.Start()
	for _, text := range strings.Fields("e2e4 c7c5 g1f3 d7d6 d2d4 c5d4 f3d4 g8f6 b1c3 a7a6") {
		m, _ := moveOf(&p, text)
		p.Make(m)
		wish := wishFor(1, OnAir, p, 200*time.Millisecond)
		began := time.Now()
		e.Want([]Wish{wish})
		for told := false; ; {
			a := <-e.answers
			if !told {
				first = append(first, time.Since(began))
				told = true
			}
			if a.Opinion.Final {
				over = append(over, time.Since(began)-200*time.Millisecond)
				break
			}
		}
	}
	slices.Sort(first)
	slices.Sort(over)
	t.Logf("first useful line: median %v, longest %v (goal: 1 s); bestmove past the time: median %v, longest %v",
		first[5], first[9], over[5], over[9])
}

// TestNice: the engine gives way with all the threads that it has.
func TestNice(t *testing.T) {
	command := realEngine(t).Command
	c, err := openProcess(Options{Command: command, Nice: 10})
	if err != nil {
		t.Fatal(err)
	}
	go c.watch()
	defer c.quit(true, usual.end)
	out := bufio.NewScanner(c.out)
	for _, say := range [][2]string{{"uci", "uciok"}, {"setoption name Threads value 3\nisready", "readyok"}} {
		if err := c.say(say[0]+"\n", usual.start); err != nil {
			t.Fatal(err)
		}
		for out.Scan() && out.Text() != say[1] {
			continue
		}
	}
	c.nice()
	threads, err := filepath.Glob("/proc/*/task/*/stat")
	if err != nil || len(threads) == 0 {
		t.Skip("there is no /proc")
	}
	n := 0
	for _, file := range threads {
		text, err := os.ReadFile(file)
		before, rest, found := strings.Cut(string(text), ") ")
		fields := strings.Fields(rest)
		// proc(5): after the name come state, parent, group, ... and as the 17th the nice value.
		if err != nil || !found || len(fields) < 17 || fields[1] != strconv.Itoa(os.Getpid()) || !strings.HasSuffix(before, "("+filepath.Base(command)) {
			continue
		}
		n++
		if fields[16] != "10" {
			t.Errorf("a thread has the nice value %s, want 10", fields[16])
		}
	}
	if n < 4 {
		t.Errorf("%d threads found, want the one that listens and three that search", n)
	}
}
