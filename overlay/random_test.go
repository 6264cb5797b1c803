package overlay

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"sync/atomic"
	"testing"
	"time"

	"github.com/notnil/chess"

	"clocktell/overlay/wire"
	"clocktell/relay"
	"clocktell/relay/match"
	"clocktell/relay/relaytest"
)

// world is a feed of two games that does whatever feeds do, at random.
type world struct {
	busy    bool // with a backup, a match, and a producer who enters what comes to mind
	random  *rand.Rand
	stage   *relaytest.Stage
	games   [2]randomGame
	held    map[int]wire.Board // what a page that missed nothing holds
	merged  int                // updates put onto a held board
	ledgers struct {
		sources *sourcesLedger
		feeds   *feedsLedger
	}
	producer struct { // the page
		sources sourcesPage
		feeds   feedsPage
	}
	head     wire.Show          // as every page holds it
	anew     int                // how often it was told anew
	standing map[int][]standing // entries that were taken, by board
	taken    map[relay.Act]int  // entries taken, of each act
	asked    int                // questions seen
	done     []deed
	missed   string // what was wrong before the last deed, when the time up to it had passed
}

type randomGame struct {
	table  string
	white  string
	moves  []string
	clocks []string
	result string
}

func newWorld(seed uint64, busy bool) *world {
	plan := relaytest.PlanWithBackup()
	if busy {
		plan.Match = &match.Match{Names: [2]string{"White0, W", "Noir, Noel"}, Stages: []match.Stage{{Games: 4}}}
	}
	w := &world{
		busy: busy, random: rand.New(rand.NewPCG(seed, 1)), held: make(map[int]wire.Board),
		stage:    relaytest.NewStageOf(plan),
		standing: make(map[int][]standing), taken: make(map[relay.Act]int),
	}
	w.ledgers.sources, w.ledgers.feeds = newSourcesLedger(new(atomic.Uint64)), newFeedsLedger(new(atomic.Uint64), "", nil)
	for i := range w.games {
		w.games[i] = randomGame{table: fmt.Sprint(i + 1), white: fmt.Sprintf("White%d, W", i), result: "*"}
	}
	if busy {
		w.stage.Before = w.passed
	}
	return w
}

// step lets one thing happen and returns what it was.
func (w *world) step() string {
	if w.busy && w.random.IntN(3) == 0 {
		return w.enterAnything()
	}
	g := &w.games[w.random.IntN(2)]
	deeds := 12
	if w.busy {
		deeds = 15
	}
	switch w.random.IntN(deeds) {
	case 0:
		return w.does(deed{wait: time.Duration(w.random.IntN(90)) * time.Second})
	case 1:
		return w.does(deed{fault: "timeout"})
	case 2:
		g.moves = g.moves[:max(0, len(g.moves)-1)]
		return w.publish()
	case 3:
		g.white += "x"
		return w.publish()
	case 4:
		g.result = []string{"*", "1-0", "1/2-1/2"}[w.random.IntN(3)]
		return w.publish()
	case 5:
		return w.cut()
	case 6:
		g.moves = append(g.moves, "Ra1a1")
		what := w.publish()
		g.moves = g.moves[:len(g.moves)-1]
		return what
	case 12:
		g.play(w.random) // told later
		return "played, not told"
	case 13, 14:
		return w.does(deed{feed: relaytest.BackupName, games: w.told(), cut: whole})
	}
	for range 1 + w.random.IntN(2) {
		g.play(w.random)
	}
	return w.publish()
}

// positionAfter plays moves. The library's Game would count repetitions, which takes
// most of the time of such a test.
func positionAfter(sans []string) (*chess.Position, error) {
	position := chess.StartingPosition()
	for _, san := range sans {
		move, err := chess.AlgebraicNotation{}.Decode(position, san)
		if err != nil {
			return nil, err
		}
		position = position.Update(move)
	}
	return position, nil
}

// play appends a random legal move, with a clock more often than not.
func (g *randomGame) play(random *rand.Rand) {
	position, err := positionAfter(g.moves)
	if err != nil {
		panic(err)
	}
	legal := position.ValidMoves()
	if len(legal) == 0 {
		return
	}
	g.clocks = append(g.clocks[:len(g.moves):len(g.moves)], "")
	if random.IntN(4) > 0 {
		g.clocks[len(g.moves)] = fmt.Sprintf("0:%02d:%02d", random.IntN(11), random.IntN(60))
	}
	g.moves = append(g.moves, chess.AlgebraicNotation{}.Encode(position, legal[random.IntN(len(legal))]))
}

func (w *world) publish() string {
	return w.does(deed{feed: relaytest.FeedName, games: w.told(), cut: whole})
}

func (w *world) cut() string {
	d := deed{feed: relaytest.FeedName, games: w.told(), cut: whole}
	d.cut = w.random.IntN(len(d.packet()))
	return w.does(d)
}

// TestRandomFeeds holds invariants over feeds that misbehave at random: positions
// are what the moves say, revisions follow one another, an update brings a page to
// exactly what a whole frame says, and no clock runs that should stand.
func TestRandomFeeds(t *testing.T) {
	const worlds, steps = 12, 60
	updates := 0
	for seed := range uint64(worlds) {
		w := newWorld(seed, false)
		w.run(t, seed, steps, (*world).check)
		updates += w.merged
	}
	if updates < 100 {
		t.Errorf("only %d updates were put together: the check sees too little", updates)
	}
}

// run lets things happen, and looks at every board after each. Of a world that fails
// it tells the least that must happen for it.
func (w *world) run(t *testing.T, seed uint64, steps int, look looker) {
	t.Helper()
	for range steps {
		before := w.stage.Show
		w.step()
		if problem := w.looked(before, look); problem != "" {
			deeds := shrunk(w.done, w.busy, look)
			_, again := happens(deeds, w.busy, look)
			t.Fatalf("world %d, %s, after %d deeds; of these it takes\n%s%s", seed, problem, len(w.done), storyOf(deeds), again)
		}
	}
}

// looked returns what is wrong with any board.
func (w *world) looked(before *relay.Show, look looker) string {
	for _, b := range w.stage.Show.Boards {
		if problem := cmp.Or(w.missed, look(w, before, b)); problem != "" {
			return fmt.Sprintf("board %d: %s", b.Number, problem)
		}
	}
	return ""
}

func (w *world) check(before *relay.Show, b *relay.Board) string {
	position, err := positionAfter(sansOf(b, len(b.Plies)))
	if err != nil {
		return err.Error()
	}
	if position.String() != b.FEN {
		return "position " + b.FEN + ", the moves give " + position.String()
	}
	full := boardFrame(b, 0)
	for _, clock := range []wire.Clock{full.White.Clock, full.Black.Clock} {
		if clock.State == "running" && (b.Held() || b.Over()) || clock.LeftMs < 0 {
			return fmt.Sprintf("clock %+v on a board held %v, over %v", clock, b.Held(), b.Over())
		}
	}
	return w.merge(before, b, full)
}

// merge brings a page's board forward by an update where one follows, and compares.
func (w *world) merge(before *relay.Show, b *relay.Board, whole wire.Board) string {
	held, known := w.held[b.Number]
	if b.Number <= len(before.Boards) && b.Rev < before.Boards[b.Number-1].Rev {
		return "the revision went back"
	}
	merged := whole
	switch {
	case known && held.Rev == b.Rev:
		merged = held
	case known && held.Rev+1 == b.Rev:
		w.merged++
		merged = boardFrame(b, held.Rev)
		merged.Plies = append(append([]wire.Ply{}, held.Plies[:merged.Keep]...), merged.Plies...)
		merged.Base, merged.Keep = 0, 0
	}
	w.held[b.Number] = whole
	x, _ := json.Marshal(merged)
	y, _ := json.Marshal(whole)
	if !bytes.Equal(x, y) {
		return fmt.Sprintf("a page holds\n%s\nthe whole is\n%s", x, y)
	}
	return ""
}
