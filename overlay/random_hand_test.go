package overlay

import (
	"fmt"
	"os"
	"reflect"
	"slices"
	"testing"
	"time"

	"github.com/notnil/chess"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// TestRandomHands holds the invariants of TestRandomFeeds, with a backup that answers
// now and then and a producer who enters things, and more of them: what was entered
// stands or is asked about, and the producer's page is told of every change.
func TestRandomHands(t *testing.T) {
	const steps = 80
	asked, anew, taken := 0, 0, make(map[relay.Act]int)
	for _, seed := range worldsAsked(t) {
		w := newWorld(seed, true)
		t.Run(fmt.Sprint(seed), func(t *testing.T) { w.run(t, seed, steps, (*world).checkHands) })
		asked += w.asked
		anew += w.anew
		for act, n := range w.taken {
			taken[act] += n
		}
	}
	if asked < 30 || anew < 200 {
		t.Errorf("only %d questions and %d shows were seen: the check sees too little", asked, anew)
	}
	for _, act := range relay.Acts {
		if taken[act] < 10 {
			t.Errorf("%q was taken %d times only: the check sees too little", act, taken[act])
		}
	}
}

// worldsFound have each shown a fault, since mended, that the first hundred do not.
var worldsFound = []uint64{1470, 5795, 6994, 7163}

// worldsAsked returns which worlds to make: those of CLOCKTELL_WORLDS, as in "1000 500"
// for five hundred from the thousandth on, or the usual ones.
func worldsAsked(t *testing.T) []uint64 {
	t.Helper()
	first, worlds, found := uint64(0), 100, worldsFound
	if text := os.Getenv("CLOCKTELL_WORLDS"); text != "" {
		found = nil
		if _, err := fmt.Sscan(text, &first, &worlds); err != nil {
			t.Fatalf("CLOCKTELL_WORLDS=%q: %v", text, err)
		}
	}
	seeds := slices.Clone(found)
	for i := range worlds {
		seeds = append(seeds, first+uint64(i))
	}
	return seeds
}

func (w *world) checkHands(before *relay.Show, b *relay.Board) string {
	for _, look := range []func() string{
		func() string { return w.check(before, b) },
		func() string { return w.entriesStand(b) },
		func() string { return w.staysInQuestion(before, b) },
		w.sourcesFollow,
		func() string { return w.producer.feeds.look(w.ledgers.feeds, w.stage.Show) },
		w.headFollows,
	} {
		if problem := look(); problem != "" {
			return problem
		}
	}
	return ""
}

// sourcesFollow reports that the producer's page, which holds the sources of one
// revision, would not be told that they are others now, or would not hold them then.
func (w *world) sourcesFollow() string {
	held, now := w.producer.sources.holds, sourcesFrame(w.stage.Show)
	switch {
	case now.Rev < held.Rev:
		return "the revision of the sources went back"
	case now.Rev > held.Rev:
		return w.producer.sources.look(w.ledgers.sources, w.stage.Show)
	case !reflect.DeepEqual(now.Items, held.Items) || !reflect.DeepEqual(now.Errors, held.Errors):
		return fmt.Sprintf("the producer's page is not told of new sources, revision %d:\n%+v\nit holds\n%+v", now.Rev, now.Items, held.Items)
	}
	return ""
}

// headFollows reports that pages would not be told of what is another now for all boards
// together, or would be told the same again.
func (w *world) headFollows() string {
	held, now := w.head, showFrame(w.stage.Show)
	w.head = now
	rev := now.Rev
	now.Rev = held.Rev
	same := reflect.DeepEqual(now, held)
	if !same {
		w.anew++
	}
	switch {
	case rev < held.Rev:
		return "the revision of the show went back"
	case same != (rev == held.Rev):
		return fmt.Sprintf("every page is told, revision %d after %d:\n%+v, %+v\nit holds\n%+v, %+v", rev, held.Rev, now, now.Match, held, held.Match)
	}
	return ""
}

// enterAnything lets the producer do something, sensible or not.
func (w *world) enterAnything() string {
	boards := w.stage.Show.Boards
	if len(boards) == 0 || w.random.IntN(60) == 0 {
		return w.enter(relay.ByHand{Board: len(boards) + 1, Act: relay.ActName, Side: "white", Text: "Hand, H"})
	}
	b := boards[w.random.IntN(len(boards))]
	if q := b.Question; q != nil {
		w.asked++
		if w.random.IntN(2) == 0 {
			return w.enter(relay.ByHand{Board: b.Number, Act: relay.ActAnswer, Asked: q.ID, Keep: w.one("feed", "hand")})
		}
	}
	e := relay.ByHand{Board: b.Number, Act: relay.ActMove, Ply: len(b.Plies) + 1}
	switch w.random.IntN(15) {
	case 0:
		e.Act, e.Text = relay.ActResult, w.one("*", "1-0", "0-1")
	case 1:
		e.Act, e.Side, e.Text = relay.ActName, w.one("white", "black"), w.one("Hand, H", "Noir, Noel", "White0, W")
	case 2:
		e.Act = relay.ActFreeze
	case 3, 4:
		e.Act = relay.ActThaw
		if b.Frozen.IsZero() { // nothing to thaw
			e.Act, e.Text = relay.ActQuiet, []string{"on", "off"}[len(b.Plies)%2]
		}
	case 5:
		e.Act, e.Feed = relay.ActPin, w.one("", "", relaytest.FeedName, relaytest.BackupName)
	case 6, 7:
		e.Act, e.Ply = relay.ActClock, len(b.Plies)-w.random.IntN(3)
		e.Left = time.Duration(w.random.IntN(660)) * time.Second
	case 14:
		e.Act, e.Text, e.For = relay.ActHold, w.one("air", "booth"), time.Duration(w.random.IntN(60))*time.Second
		if len(b.Plies)%4 == 3 {
			e.Act, e.For = relay.ActRecording, 0
		}
	case 8, 9:
		e.Act, e.Ply = relay.ActCorrect, len(b.Plies)
		e.SAN = w.one("", w.moveAt(b, e.Ply))
	default:
		e.SAN = w.moveAt(b, e.Ply)
	}
	return w.enter(e)
}

func (w *world) one(words ...string) string { return words[w.random.IntN(len(words))] }

// moveAt returns a legal move at a ply, half the time the one that was really played.
func (w *world) moveAt(b *relay.Board, ply int) string {
	if ply < 1 {
		return "e4"
	}
	position, err := positionAfter(sansOf(b, ply-1))
	if err != nil {
		panic(err)
	}
	legal := position.ValidMoves()
	if len(legal) == 0 {
		return "e4"
	}
	encode := chess.AlgebraicNotation{}.Encode
	for _, g := range w.games {
		if played := g.moves[:min(ply-1, len(g.moves))]; len(g.moves) >= ply && slices.Equal(played, sansOf(b, ply-1)) && w.random.IntN(2) == 0 {
			return g.moves[ply-1]
		}
	}
	return encode(position, legal[w.random.IntN(len(legal))])
}

func sansOf(b *relay.Board, n int) []string {
	var sans []string
	for i := range n {
		sans = append(sans, b.Plies[i].SAN)
	}
	return sans
}

func (w *world) enter(e relay.ByHand) string { return w.does(deed{entry: e}) }

// take makes an entry, and remembers it if it was taken.
func (w *world) take(e relay.ByHand) string {
	var before *relay.Board
	if e.Board <= len(w.stage.Show.Boards) {
		before = w.stage.Board(e.Board)
	}
	refused := w.stage.Enter(e)
	if refused != "" {
		return refused
	}
	w.taken[e.Act]++
	entry := standing{ByHand: e}
	if before != nil {
		entry.game = before.Game
		if e.Ply > 0 && e.Ply <= len(before.Plies) {
			entry.was = before.Plies[e.Ply-1].SAN
		}
		if e.Act == relay.ActAnswer && e.Keep == "feed" && before.Question != nil { // it may have come since
			w.forget(e.Board, before.Question)
		}
	}
	w.replace(entry)
	return ""
}

// replace takes an entry in place of those that it makes void.
func (w *world) replace(entry standing) {
	plays := func(e relay.ByHand) bool { return e.Act == relay.ActMove || e.Act == relay.ActCorrect }
	w.standing[entry.Board] = slices.DeleteFunc(w.standing[entry.Board], func(s standing) bool {
		switch {
		case plays(entry.ByHand):
			return s.Ply >= entry.Ply // also the clock of a ply that is another now
		case entry.Act == relay.ActClock:
			return s.Act == relay.ActClock && s.Ply == entry.Ply
		}
		return s.Act == entry.Act && s.Side == entry.Side
	})
	switch entry.Act {
	case relay.ActMove, relay.ActCorrect, relay.ActClock, relay.ActResult, relay.ActName:
		w.standing[entry.Board] = append(w.standing[entry.Board], entry)
	}
}

// forget drops what the producer has given up by answering for the feed.
func (w *world) forget(board int, q *relay.Question) {
	w.standing[board] = slices.DeleteFunc(w.standing[board], func(s standing) bool {
		switch q.Kind {
		case relay.AsksMove:
			return s.Ply >= q.Ply
		case relay.AsksClock:
			return s.Act == relay.ActClock && s.Ply == q.Ply
		case relay.AsksResult:
			return s.Act == relay.ActResult
		}
		return s.Act == relay.ActName && s.Side == q.Side.String()
	})
}
