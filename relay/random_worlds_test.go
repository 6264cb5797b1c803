package relay_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// traits are what sets one world apart from another.
type traits struct {
	backup   bool // there is one
	swaps    bool // games change places in packets
	renames  bool
	tables   bool // games have Board tags
	stubborn bool // the producer keeps to entered moves that the feed denies
	rounds   bool // the arena pairs again
}

// world is an arena, its feeds, a producer, and what the show makes of it.
type world struct {
	t     *testing.T
	seed  uint64
	r     *rand.Rand
	is    traits
	games []*truth
	pairs int // games there have been
	feeds []*source
	stage *relaytest.Stage
	heard *hearing
	again *twin // made of the parts alone
	often *twin // and of time that passes in other steps
	older []dumped
	acted int // board of the entry of this step; 0 none
	step  int
}

func newWorld(t *testing.T, seed uint64) *world {
	r := rand.New(rand.NewPCG(seed, 1))
	coin := func() bool { return r.IntN(2) == 0 }
	w := &world{t: t, seed: seed, r: r, heard: newHearing()}
	w.is = traits{backup: r.IntN(4) > 0, swaps: coin(), tables: coin()}
	w.is.stubborn = r.IntN(4) == 0
	w.is.renames = coin()
	w.is.rounds = w.is.tables && r.IntN(3) == 0
	for i := range 3 {
		w.pair(i)
	}
	plan := relaytest.Plan()
	if w.is.backup {
		plan = relaytest.PlanWithBackup()
	}
	for i, f := range plan.Feeds {
		w.feeds = append(w.feeds, &source{name: f.Name, order: []int{0, 1, 2}, plain: i > 0 && coin()})
	}
	w.stage = relaytest.NewStageOf(plan)
	w.stage.Record = true
	w.again, w.often = newTwin(plan), newTwin(plan)
	return w
}

// pair begins a game at a table.
func (w *world) pair(i int) {
	families, table := []string{"Alba", "Basil", "Cedar", "Dorn", "Elm", "Fenn", "Gorse"}, 0
	if w.is.tables {
		table = i + 1
	}
	g := newTruth(families[w.pairs%len(families)]+fmt.Sprint(w.pairs), fmt.Sprintf("Noir%d, N", w.pairs), table)
	g.Round = fmt.Sprint(1 + w.pairs/3)
	if i == len(w.games) {
		w.games = append(w.games, nil)
	}
	w.games[i] = g
	w.pairs++
}

// run lets so many things happen, and then all be well.
func (w *world) run(steps int) {
	for w.step = range steps {
		w.watched(func() { w.stage.Wait(time.Duration(w.r.IntN(1500)) * time.Millisecond) })
		w.goOn()
		w.watched(func() {
			switch n := w.r.IntN(10); {
			case n == 0 && len(w.stage.Show.Boards) > 0:
				w.produce()
			case n < 6 || !w.is.backup:
				w.poll(w.feeds[0])
			default:
				w.poll(w.feeds[1])
			}
		})
		w.compared()
		if w.t.Failed() {
			return
		}
	}
	w.allWell()
	w.fromTheBeginning()
}

// goOn lets the arena go on.
func (w *world) goOn() {
	if w.r.IntN(3) == 0 {
		w.games[w.r.IntN(3)].change(w.r, w.is.renames)
	}
	if w.is.rounds && w.r.IntN(200) == 0 {
		for i := range w.games {
			w.pair(i)
		}
	}
	w.remember()
}

// remember keeps what can be told of the arena.
func (w *world) remember() {
	m := moment{at: w.stage.Now}
	for _, g := range w.games {
		m.games = append(m.games, *g)
	}
	for _, f := range w.feeds {
		f.past = append(f.past, m)
	}
}

// poll lets a feed answer, or fail to.
func (w *world) poll(f *source) {
	f.trouble(w.r, w.stage.Now, &w.is)
	text := f.packet(w.r, w.stage.Now.Add(time.Second))
	if text == "" || relay.HoldsGames([]byte(text)) != nil {
		w.stage.Wait(time.Second)
		w.stage.Apply(relay.FeedFailed{At: w.stage.Now, Feed: f.name, Reason: "connect", Text: "no answer"})
		return
	}
	w.stage.TakeFrom(f.name, text)
	w.heard.take(f.name, text, w.stage.Now)
}

// TestRandomWorlds holds the show to what must be true whatever happens.
func TestRandomWorlds(t *testing.T) {
	const worlds, steps = 8, 250
	for seed := range uint64(worlds) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) { newWorld(t, seed).run(steps) })
	}
}
