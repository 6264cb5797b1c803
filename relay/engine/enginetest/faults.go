package enginetest

import (
	"io"
	"os"
	"os/exec"
	"strings"
	"time"

	"clocktell/relay/bitboard"
)

// Fault hears a command first, and reports whether that was all.
type Fault func(p *player, words []string) bool

// at does something in place of what a command calls for.
func at(command string, do func(p *player)) Fault {
	return func(p *player, words []string) bool {
		if words[0] != command {
			return false
		}
		do(p)
		return true
	}
}

// before does something, and then what the command calls for.
func before(command string, do func(p *player)) Fault {
	return func(p *player, words []string) bool {
		if words[0] == command {
			do(p)
		}
		return false
	}
}

// says is an answer to go: these lines, and nothing else.
func says(text string) Fault {
	return at("go", func(p *player) { p.searches++; io.WriteString(p.out, text) })
}

// saysFirst is these lines before a search that is in order.
func saysFirst(text string) Fault {
	return before("go", func(p *player) { io.WriteString(p.out, text) })
}

func nothing(*player) {}

// Faults are what it can do wrong, by name.
var Faults = map[string]Fault{
	"never uciok":            at("uci", nothing),
	"never readyok":          at("isready", nothing),
	"never bestmove":         says("info depth 1 score cp 3 pv a2a3\n"),
	"two bestmoves":          func(p *player, words []string) bool { return twice(p, words) },
	"bestmove before go":     before("isready", func(p *player) { p.say("bestmove e2e4") }),
	"half lines":             saysFirst("info\ninfo depth\ninfo depth 3 score\ninfo depth 3 score cp\ninfo score mate pv\nbest\ninfo depth 3 multipv\n"),
	"no newline at the end":  at("go", func(p *player) { io.WriteString(p.out, "info depth 1 score cp 3 pv a2"); os.Exit(0) }),
	"wrong bestmove":         at("go", func(p *player) { p.say("info depth 9 score cp 1 pv %s", p.moves()[0]); p.say("bestmove e9e4") }),
	"wrong first move":       saysFirst("info depth 20 score cp 900 pv a1h8\n"),
	"illegal further on":     at("go", func(p *player) { m := p.moves()[0]; p.say("info depth 20 score cp 12 pv %s %s\nbestmove %s", m, m, m) }),
	"no lines":               says("bestmove a2a3\n"),
	"nothing but moves":      says("bestmove\n"),
	"NaN":                    saysFirst("info depth 3 score cp NaN pv a2a3\ninfo depth NaN score cp 1 pv a2a3\n"),
	"10 MB line":             saysFirst("info string " + strings.Repeat("x", 10<<20) + "\n"),
	"10 MB without end":      saysFirst(strings.Repeat("info depth 1 pv a2a3 ", 500_000)),
	"dies after 2 searches":  at2("go", 2, func(*player) { os.Exit(0) }),
	"dies at start":          at("uci", func(*player) { os.Exit(7) }),
	"dies while it waits":    after("go", func(*player) { os.Exit(3) }),
	"ignores stop":           at("go", ignore),
	"closes its output":      at("go", func(*player) { os.Stdout.Close(); time.Sleep(time.Hour) }),
	"closes its input":       nil, // see deaf
	"floods":                 at("go", flood),
	"floods without newline": at("go", func(p *player) { torrent(p, strings.Repeat("x", 1<<20)) }),
	"floods before uciok":    at("uci", flood),
	"garbage":                saysFirst("\x00\x01\xff\xfe\x80info depth 3 score cp 1 pv a2a3\n\xc3\x28\n\x1b[2J\n"),
	"only garbage":           at("go", func(p *player) { io.WriteString(p.out, strings.Repeat("\xff\xfe\n", 3000)) }),
	"wrong multipv":          saysFirst("info depth 3 multipv 0 score cp 1 pv a2a3\ninfo depth 3 multipv -1 score cp 1 pv a2a3\ninfo depth 3 multipv 99 score cp 1 pv a2a3\n"),
	"huge numbers":           saysFirst("info depth 99999999999999999999 score cp 1 pv a2a3\ninfo depth 3 score cp 1e30 pv a2a3\ninfo depth 3 score mate 4000000000 pv a2a3\ninfo nodes 99999999999999999999999999\n"),
	"negative depth":         saysFirst("info depth -5 score cp 1 pv a2a3\n"),
	"exits with a code":      at("go", func(*player) { os.Exit(42) }),
	"slow to greet":          before("uci", func(*player) { time.Sleep(300 * time.Millisecond) }),
	"chatters on stderr":     before("go", func(*player) { torrent(&player{out: os.Stderr}, strings.Repeat("help\n", 20_000)) }),
	"leaves a child behind":  before("uci", fork),
	"deaf at the end":        at("quit", func(*player) { time.Sleep(time.Hour) }),
	"unasked":                before("isready", func(p *player) { p.say("uciok\nreadyok extra\nregistration error\ncopyprotection ok\n\n  \t \nhello") }),
}

// Spoilt hangs at the position after 1.d4 and does well at all others.
const Spoilt = "hangs after 1.d4"

func spoilt(p *player, words []string) bool {
	if pawn := bitboard.Square(27); words[0] != "go" || p.place.Piece(pawn).Type() != bitboard.Pawn {
		return false
	}
	ignore(p)
	return true
}

// twice says bestmove twice for each go.
func twice(p *player, words []string) bool {
	if words[0] != "go" {
		return false
	}
	p.does(words)
	p.say("bestmove %s", p.moves()[0])
	return true
}

// at2 is at from the n-th such command on.
func at2(command string, n int, do func(*player)) Fault {
	heard := 0
	return func(p *player, words []string) bool {
		if words[0] == command {
			heard++
		}
		if words[0] != command || heard <= n {
			return false
		}
		do(p)
		return true
	}
}

// after does what the command calls for, and then something.
func after(command string, do func(*player)) Fault {
	return func(p *player, words []string) bool {
		if words[0] != command {
			return false
		}
		p.does(words)
		do(p)
		return true
	}
}

// ignore searches until the process is ended.
func ignore(p *player) {
	p.say("info depth 1 score cp 1 pv %s", p.moves()[0])
	for range p.lines {
	}
}

func flood(p *player) {
	torrent(p, strings.Repeat("info depth 1 seldepth 1 multipv 1 score cp 1 nodes 1 pv a2a3\n", 1000))
}

// torrent writes the same until nobody reads it, 200 times at most.
func torrent(p *player, text string) {
	for range 200 {
		if _, err := io.WriteString(p.out, text); err != nil {
			return
		}
	}
}

// fork starts a process that outlives this one, if nobody ends it.
func fork(p *player) {
	child := exec.Command("sleep", "1000")
	child.Stdout = os.Stdout
	if child.Start() == nil {
		note(p.folder, "child", child.Process.Pid)
	}
}

// deaf greets and closes its input. It is not a player: a goroutine that reads the input
// would keep it open.
func deaf() {
	os.Stdin.Read(make([]byte, 100))
	os.Stdin.Close()
	os.Stdout.WriteString("id name Fault Engine\nuciok\n")
	time.Sleep(time.Hour)
}
