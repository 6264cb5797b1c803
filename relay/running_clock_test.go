package relay_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// hall is a game as it is really played, and a feed that tells of it late. Nothing of
// it comes from the packages under test.
type hall struct {
	played []time.Time     // of each ply
	left   []time.Duration // on the mover's clock after it, exactly
	told   []time.Time     // when the feed has it
	step   time.Duration   // of the readings
}

const (
	hallPlies = 60
	hallBase  = 900 * time.Second
	hallInc   = 10 * time.Second
)

// newHall plays a game of 15 min + 10 s. Delay and jitter are of the feed: it has each
// ply after delay and up to jitter more.
func newHall(rnd *rand.Rand, delay, jitter, step time.Duration) *hall {
	h := &hall{step: step}
	now, clocks := relaytest.Start.Add(7*time.Second), [2]time.Duration{hallBase, hallBase}
	for ply := range hallPlies {
		spent := time.Duration(math.Exp(2.2+rnd.NormFloat64()) * float64(time.Second)) // median nine seconds
		spent = min(spent, clocks[ply%2]-time.Second)
		now = now.Add(spent)
		clocks[ply%2] += hallInc - spent
		told := now.Add(delay + time.Duration(rnd.Float64()*float64(jitter)))
		if ply > 0 && told.Before(h.told[ply-1]) {
			told = h.told[ply-1]
		}
		h.played, h.left, h.told = append(h.played, now), append(h.left, clocks[ply%2]), append(h.told, told)
	}
	return h
}

// text is what the feed answers at t.
func (h *hall) text(t time.Time) (string, int) {
	n := 0
	for n < len(h.told) && !h.told[n].After(t) {
		n++
	}
	round := []string{"Nf3", "Nf6", "Ng1", "Ng8"}
	game := relaytest.Game{Control: "900+10"}
	var moves []string
	for i := range n {
		moves = append(moves, round[i%4])
		left := h.left[i].Truncate(h.step)
		game.Clocks = append(game.Clocks, fmt.Sprintf("%d:%02d:%06.3f", left/time.Hour, left/time.Minute%60, (left%time.Minute).Seconds()))
	}
	game.Moves = strings.Join(moves, " ")
	return relaytest.Packet(game), n
}

// watch polls the feed and returns by how much the running clock was wrong when each
// ply from the fourth on was received, with and without what was learnt.
func (h *hall) watch(rnd *rand.Rand, poll, delay time.Duration) (errors, plain []float64) {
	plan := relaytest.Plan()
	plan.Feeds[0].Every, plan.Feeds[0].Late, plan.Feeds[0].Stale = poll, 3*poll, 6*poll
	stage := relaytest.NewStageOf(plan)
	intake := relay.NewIntake(relaytest.FeedName)
	stage.Wait(time.Duration(rnd.Float64() * float64(poll)))
	for seen := 0; seen < hallPlies; stage.Wait(time.Duration((0.95 + rnd.Float64()/10) * float64(poll))) {
		text, n := h.text(stage.Now)
		stage.Apply(intake.Read(stage.Now, []byte(text)))
		if n > max(seen, 3) && n < hallPlies {
			b := stage.Board(1)
			gone := stage.Now.Sub(h.played[n-1].Add(delay)) // in the feed's own time
			before := h.left[n-2]
			errors = append(errors, (b.Left(b.Turn(), stage.Now) - max(0, before-gone)).Abs().Seconds())
			plain = append(plain, (before.Truncate(h.step) - max(0, before-gone)).Abs().Seconds())
		}
		seen = n
	}
	return errors, plain
}

func medianOf(of []float64) float64 {
	slices.Sort(of)
	return of[len(of)/2]
}

// TestRunningClock holds the running clock to how the game was really played, in the
// feed's own time: with a delay that never changes, the median error from the third
// reading on stays under half a second, however slowly the feed is asked.
func TestRunningClock(t *testing.T) {
	const most, games = 0.5, 6
	for _, step := range []time.Duration{100 * time.Millisecond, time.Second} {
		var all, allPlain []float64
		for poll := time.Second; poll <= 10*time.Second; poll += 3 * time.Second {
			var errors, plain, early []float64
			for game := range uint64(games) {
				rnd := rand.New(rand.NewPCG(game, uint64(poll)))
				delay := time.Duration(game) * 12 * time.Second / (games - 1)
				e, p := newHall(rnd, delay, 0, step).watch(rnd, poll, delay)
				early = append(early, e[:3]...)
				errors, plain = append(errors, e...), append(plain, p...)
			}
			all, allPlain = append(all, errors...), append(allPlain, plain...)
			t.Logf("readings of %v, delay 0 to 12 s, asked every %v: median error %.2f s, without learning %.2f s (%d plies); of the first three receipts %.2f s",
				step, poll, medianOf(errors), medianOf(plain), len(errors), medianOf(early))
			if got := medianOf(errors); got >= most {
				t.Errorf("asked every %v: median error %.2f s, want less than %v s", poll, got, most)
			}
		}
		t.Logf("readings of %v, all: median error %.2f s, without learning %.2f s", step, medianOf(all), medianOf(allPlain))
	}
}

// TestRunningClockOfRestlessFeed: with a delay that is another one for every ply nobody
// can know so much, but what is learnt must help.
func TestRunningClockOfRestlessFeed(t *testing.T) {
	for poll := time.Second; poll <= 10*time.Second; poll += 3 * time.Second {
		var errors, plain []float64
		for game := range uint64(6) {
			rnd := rand.New(rand.NewPCG(game, uint64(poll)))
			e, p := newHall(rnd, 0, 12*time.Second, time.Second).watch(rnd, poll, 0)
			errors, plain = append(errors, e...), append(plain, p...)
		}
		with, without := medianOf(errors), medianOf(plain)
		t.Logf("delay 0 to 12 s anew for every ply, asked every %v: median error %.2f s, without learning %.2f s", poll, with, without)
		if with > without/2 {
			t.Errorf("asked every %v: median error %.2f s is more than half of %.2f s", poll, with, without)
		}
	}
}

// TestRunningClockOnlyFalls: between two packets with something new the clock that runs
// never rises, however much is learnt meanwhile.
func TestRunningClockOnlyFalls(t *testing.T) {
	for seed := range uint64(4) {
		rnd := rand.New(rand.NewPCG(seed, 6))
		h := newHall(rnd, 3*time.Second, 6*time.Second, time.Second)
		stage, intake := relaytest.NewStage(), relay.NewIntake(relaytest.FeedName)
		shown, looks := time.Duration(math.MaxInt64), 0
		for plies := 0; plies < hallPlies; stage.Wait(300 * time.Millisecond) {
			if len(stage.Show.Boards) > 0 {
				b := stage.Board(1)
				left := b.Left(b.Turn(), stage.Now)
				if left > shown {
					t.Fatalf("game %d, ply %d: the clock rose from %v to %v without an event", seed, plies, shown, left)
				}
				shown, looks = left, looks+1
			}
			text, n := h.text(stage.Now)
			if event := intake.Read(stage.Now, []byte(text)); n > plies || rnd.IntN(5) == 0 {
				stage.Apply(event)
			}
			if n > plies {
				plies, shown = n, math.MaxInt64
			}
		}
		if looks < 1000 {
			t.Errorf("game %d: looked only %d times", seed, looks)
		}
	}
}
