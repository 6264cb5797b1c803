package relay_test

import (
	"fmt"
	"slices"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/relaytest"
)

// allWell lets feeds agree and be well for a minute, and the producer give up what was
// entered. Then every board shows exactly what the primary says.
func (w *world) allWell() {
	for _, f := range w.feeds {
		f.faults, f.delay, f.order = faults{}, 0, []int{0, 1, 2}
	}
	w.remember()
	const longEnough = time.Minute
	w.wellFor(longEnough)
	for range 60 {
		entries := w.givenUp()
		if len(entries) == 0 {
			break
		}
		for _, e := range entries {
			w.watched(func() { w.enter(e) })
		}
		w.wellFor(3 * time.Second)
	}
	w.remember()
	w.wellFor(longEnough)
	for _, g := range w.games {
		w.shown(g)
	}
}

func (w *world) wellFor(d time.Duration) {
	for end := w.stage.Now.Add(d); w.stage.Now.Before(end) && !w.t.Failed(); {
		for range 5 {
			for _, f := range w.feeds {
				w.watched(func() { w.wellPoll(f) })
			}
		}
		w.compared()
	}
}

func (w *world) wellPoll(f *source) {
	text := f.whole(w.stage.Now)
	w.stage.TakeFrom(f.name, text)
	w.heard.take(f.name, text, w.stage.Now)
}

// shown holds the board of a game to what the arena has.
func (w *world) shown(g *truth) {
	i := slices.IndexFunc(w.stage.Show.Boards, func(b *relay.Board) bool { return b.Players[1].Name == g.Black })
	if i < 0 {
		w.fail("%s – %s is on no board: %v", g.White, g.Black, titles(w.stage.Show))
		return
	}
	b := w.stage.Show.Boards[i]
	var got []string
	for i := range b.Plies {
		got = append(got, b.Plies[i].SAN)
	}
	result := g.Result
	if result == "" {
		result = "*"
	}
	if !slices.Equal(got, g.sans) || b.Result != result || b.Players[0].Name != g.White || b.Fault != "" || b.Held() || b.Question != nil || b.Feed != relaytest.FeedName {
		w.fail("board %d, %s, shows %v %s, follows %s, fault %q, held %v, question %+v, entries %+v\nwant %v %s %s",
			b.Number, players(b), got, b.Result, b.Feed, b.Fault, b.Held(), b.Question, b.Hand, g.White, g.sans, result)
		return
	}
	for i, text := range g.clocks {
		entered := slices.ContainsFunc(b.Hand.Clocks, func(c relay.HandClock) bool { return c.Ply == i+1 })
		want, err := clock.ParseReading(text)
		if got := b.Plies[i].Reading.Left; err != nil || got.D != want && !entered {
			w.fail("board %d, ply %d: clock %v, want %s", b.Number, i+1, got, fmt.Sprint(want, err))
		}
	}
}
