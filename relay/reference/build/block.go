package build

import (
	"fmt"
	"math"

	"clocktell/relay/bitboard"
	"clocktell/relay/pgn"
)

// limits are those of package pgn, but for the one on games: a block is no packet.
var limits = func() pgn.Limits {
	l := pgn.DefaultLimits
	l.Games = math.MaxInt
	return l
}()

// block is a piece of an input's text, and what a worker finds in it. Blocks are used
// again, so that their room is asked for once.
type block struct {
	cut
	input  int
	packed int64 // bytes of the file read when the block was cut
	last   bool  // the input ends here, and the text is empty

	games   []found
	rows    []byte   // games to be kept, in the form they are spilled in
	records []record // of those; their games are numbered in the block, from 0
	done    chan struct{}
}

// found is a game of a block: kept, or left out for a reason.
type found struct {
	reason   Reason
	line     int // in the block, from 1: where the game begins, or what is wrong stands
	who      string
	detail   string
	identity uint64 // 0: cannot be told from others
	row, end int    // the game is rows[row:end]
	records  int    // its records end here; they begin where those of the game before do
}

// worker reads the games of blocks.
type worker struct {
	options *Options
	headers *headers
	player  player
}

func newWorker(o *Options) *worker {
	return &worker{options: o, headers: newHeaders(), player: player{depth: o.Depth}}
}

// read finds the games of the block.
func (w *worker) read(b *block) {
	b.games, b.rows = b.games[:0], b.rows[:0]
	w.player.records = b.records[:0]
	if b.tooLong {
		w.readLong(b)
	} else {
		games := limits.Read(b.text)
		for i := range games {
			b.games = append(b.games, w.game(b, &games[i]))
		}
	}
	b.records = w.player.records
}

// readLong tells of a game that is too long to be read.
func (w *worker) readLong(b *block) {
	g, _ := limits.Next(string(b.text), 1)
	h := w.headers.read(&g)
	b.games = append(b.games, found{
		reason: ReasonLong, line: 1, who: whoPlays(&h), detail: fmt.Sprintf("%d bytes, at most %d are read", b.length, w.options.sizes.game),
	})
}

// game looks at one game; if it is to be kept, its row and records are added.
func (w *worker) game(b *block, g *pgn.Game) found {
	h := w.headers.read(g)
	out := found{line: g.Line, row: len(b.rows), end: len(b.rows)}
	w.keep(b, g, &h, &out)
	out.records = len(w.player.records)
	if out.reason != "" && out.reason.named() || out.identity != 0 {
		out.who = whoPlays(&h)
	}
	return out
}

// keep keeps a game, or says why it is left out.
func (w *worker) keep(b *block, g *pgn.Game, h *header, out *found) {
	if out.reason = w.choose(g, h); out.reason != "" {
		if out.reason == ReasonVariant {
			out.detail = h.variant
		}
		return
	}
	if fault, words := hidden(g.Faults); words != "" {
		out.reason, out.line, out.detail = ReasonText, fault.Line, words
		return
	}
	from := bitboard.Start()
	if h.fen != "" {
		var err error
		if from, err = bitboard.ParseFEN(h.fen); err != nil {
			out.reason, out.detail = ReasonPosition, err.Error()
			return
		}
	}
	if ply, err := w.player.play(g.Moves, from, uint32(len(b.games))); err != nil {
		out.reason, out.line = ReasonMove, g.Moves[ply].Line
		out.detail = moveName(ply, from.Turn()) + " " + err.Error()
		return
	}
	if !w.options.KeepDoubles && h.White+h.Black != "" {
		out.identity = max(1, w.player.identity(h, len(g.Moves)))
	}
	var times *gameTimes
	if both, ok := timesOf(g, from, w.player.moves); ok {
		times = &both
	}
	b.rows = appendRow(b.rows, &h.Game, out.identity, times)
	out.end = len(b.rows)
}

// choose returns why a game is not to be looked at further, or "".
func (w *worker) choose(g *pgn.Game, h *header) Reason {
	switch {
	case !isStandard(h.variant):
		return ReasonVariant
	case len(g.Moves) == 0:
		return ReasonNoMoves
	}
	return left(w.options.Keep, &h.Game)
}

// hidden returns a fault that may have taken moves out of a game, or put some in.
func hidden(faults []pgn.Fault) (fault pgn.Fault, words string) {
	for _, f := range faults {
		switch f.Reason {
		case pgn.FaultUnclosedComment:
			return f, "a comment is not closed"
		case pgn.FaultUnclosedVariation:
			return f, "a variation is not closed"
		case pgn.FaultOpenEnd:
			return f, "the file ends right behind a move, which may be cut"
		case pgn.FaultLimitWord:
			return f, "a word is too long"
		}
	}
	return pgn.Fault{}, ""
}

func whoPlays(h *header) string {
	white, black := h.White, h.Black
	if white == "" {
		white = "?"
	}
	if black == "" {
		black = "?"
	}
	return white + " – " + black
}
