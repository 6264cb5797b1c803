package tell

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay/clock"
)

// assessment is how a judge did on drawn games.
type assessment struct {
	games   []tally
	all     tally
	delays  []int
	earlyAt []int                       // own moves of early alarms
	said    [3]struct{ by, at float64 } // sides called thinking by and at saidMoves
	bins    [10]struct{ moves, sum, thought float64 }
}

// saidMoves are the own moves at which it is counted who is called thinking.
var saidMoves = [3]int{10, 20, 30}

// nearChange is how many own moves either side of the change are near it.
const nearChange = 4

// judge takes the moves of one game in order. It returns the probability that the
// mover thinks, and whether it would be said.
type judge func(Move) (thinking float64, said bool)

// byFilter judges by a filter with p.
func byFilter(c clock.Control, p *params) func() judge {
	return func() judge {
		f := newFilter(c, p)
		return func(m Move) (float64, bool) {
			f = f.Next(m)
			call := f.figures(&f.sides[m.Side])
			return call.Thinking, call.Verdict == Thinking
		}
	}
}

// byTime judges that a side thinks from its first move over limit on.
func byTime(limit time.Duration) func() judge {
	return func() judge {
		var over [2]bool
		return func(m Move) (float64, bool) {
			over[m.Side] = over[m.Side] || m.Quality != clock.QualityNone && m.Spent > limit
			return min(max(indicator(over[m.Side]), .001), .999), over[m.Side]
		}
	}
}

// assess draws games and sets new judges of every kind to each.
func assess(g generator, c clock.Control, games int, judges ...func() judge) []*assessment {
	out := make([]*assessment, len(judges))
	for i := range out {
		out[i] = &assessment{games: make([]tally, games)}
	}
	rnd := rand.New(rand.NewPCG(2026, 1))
	for n := range games {
		game := g.draw(rnd, c)
		for i, a := range out {
			a.judge(n, &game, judges[i]())
		}
	}
	for _, a := range out {
		for i := range a.games {
			a.all.add(&a.games[i])
		}
		slices.Sort(a.delays)
		slices.Sort(a.earlyAt)
	}
	return out
}

// judge lets a judge see game number n.
func (a *assessment) judge(n int, game *played, j judge) {
	var first [2]int // own move with which thinking was first said
	for _, m := range game.moves {
		thinking, said := j(m)
		move := own(m.Ply)
		if move == 1 {
			continue
		}
		a.count(&a.games[n], thinking, move, game.leaves[m.Side])
		if said && first[m.Side] == 0 {
			first[m.Side] = move
		}
		if i := slices.Index(saidMoves[:], move); i >= 0 {
			a.said[i].at += indicator(said)
			a.said[i].by += indicator(first[m.Side] > 0)
		}
	}
	for side, at := range first {
		a.announced(&a.games[n], at, game.leaves[side])
	}
}

// count counts a probability after own move number move.
func (a *assessment) count(t *tally, thinking float64, move, leaves int) {
	truth := indicator(move >= leaves)
	right := indicator((thinking >= .5) == (truth == 1))
	t.moves++
	t.right += right
	if leaves != neverLeaves && max(move-leaves, leaves-move) <= nearChange {
		t.near++
		t.nearRight += right
	}
	t.squares += (thinking - truth) * (thinking - truth)
	t.logs -= math.Log(1 - math.Abs(thinking-truth))
	b := &a.bins[min(int(thinking*10), 9)]
	b.moves, b.sum, b.thought = b.moves+1, b.sum+thinking, b.thought+truth
}

// announced counts with which own move a side was first said to think, 0 for never.
func (a *assessment) announced(t *tally, at, leaves int) {
	t.sides++
	switch {
	case at == 0:
	case at < leaves:
		t.early++
		a.earlyAt = append(a.earlyAt, at)
	default:
		t.detected++
		t.delay += float64(at - leaves)
		a.delays = append(a.delays, at-leaves)
	}
}

// calibration returns the mean distance between what was said and what was so, by
// tenths, weighted by moves.
func (a *assessment) calibration() float64 {
	sum := 0.0
	for _, b := range a.bins {
		sum += math.Abs(b.sum - b.thought)
	}
	return sum / a.all.moves
}

func (a *assessment) String() string {
	t := &a.all
	of := func(f figure) float64 { sum, by := f.of(t); return sum / max(1, by) }
	return fmt.Sprintf("accuracy %.4f, near %.4f, Brier %.4f, log loss %.4f, calibration %.4f, early %.4f (median own move %d), delay %.3f (not early %.2f, p90 %d), never said %.3f",
		of(accuracy), of(nearby), of(brierScore), of(logLoss), a.calibration(), of(early), tenth(a.earlyAt, 5),
		of(delay), t.delay/max(1, t.detected), tenth(a.delays, 9), (t.sides-t.early-t.detected)/t.sides)
}

// saidThinking returns the shares of sides called thinking by and at saidMoves.
func (a *assessment) saidThinking() string {
	list := make([]string, len(saidMoves))
	for i, move := range saidMoves {
		list[i] = fmt.Sprintf("own move %d: by then %.3f, just then %.3f", move, a.said[i].by/a.all.sides, a.said[i].at/a.all.sides)
	}
	return strings.Join(list, "; ")
}

// tenth returns the value of a sorted list below which so many tenths of it are.
func tenth(list []int, tenths int) int {
	if len(list) == 0 {
		return 0
	}
	return list[len(list)*tenths/10]
}

// table logs the reliability: what was said by tenths, and what was so.
func (a *assessment) table(t *testing.T, name string) {
	t.Helper()
	t.Logf("%s: said      moves  mean said  thought out", name)
	for i, b := range a.bins {
		t.Logf("%s: .%d to %.1f %6.0f  %9.3f  %11.3f", name, i, float64(i+1)/10, b.moves, b.sum/max(1, b.moves), b.thought/max(1, b.moves))
	}
}
