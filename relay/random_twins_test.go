package relay_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// twin is another show of the same events.
type twin struct {
	show    *relay.Show
	intakes map[string]*relay.Intake
	events  int // taken
}

func newTwin(plan relay.Plan) *twin {
	t := &twin{show: relay.NewShow(plan, relaytest.Start), intakes: make(map[string]*relay.Intake)}
	for _, f := range plan.Feeds {
		t.intakes[f.Name] = relay.NewIntake(f.Name)
	}
	return t
}

// follow takes the events that the stage has taken since, and returns what became of
// them. With r time passes in other steps as well.
func (t *twin) follow(stage *relaytest.Stage, r *rand.Rand) string {
	for ; t.events < len(stage.Events); t.events++ {
		e := stage.Events[t.events]
		for r != nil && r.IntN(3) > 0 {
			if d := e.When().Sub(t.show.At); d > 0 {
				t.show = t.show.AdvancedTo(t.show.At.Add(time.Duration(r.Int64N(int64(d)))))
			}
		}
		t.show = t.show.After(t.bare(e))
	}
	t.show = t.show.AdvancedTo(stage.Now)
	return dump(t.show)
}

// bare returns an event as a journal gives it back: of a packet only its parts.
func (t *twin) bare(e relay.Event) relay.Event {
	packet, ok := e.(relay.PacketRead)
	if !ok {
		return e
	}
	again, err := t.intakes[packet.Feed].Again(relay.PacketRead{At: packet.At, Feed: packet.Feed, Parts: packet.Parts})
	if err != nil {
		panic(err) // a test that fails here says enough
	}
	return again
}

// fromTheBeginning makes the whole show once more.
func (w *world) fromTheBeginning() {
	plan := relaytest.Plan()
	if w.is.backup {
		plan = relaytest.PlanWithBackup()
	}
	fresh := newTwin(plan)
	w.same("from the beginning", dump(w.stage.Show), fresh.follow(w.stage, nil))
}

// dump writes down all of a show that anybody can see, one thing a line.
func dump(s *relay.Show) string {
	var out strings.Builder
	line := func(format string, values ...any) { fmt.Fprintf(&out, format+"\n", values...) }
	verdict, fine := s.Verdict()
	line("%v began %v, due %v, %s %v, revisions %d %d %d", s.At, s.Began, s.Due(), verdict, fine, s.HeadRev, s.FeedsRev, s.SourcesRev)
	line("totals %+v", s.Totals)
	for _, b := range s.Boards {
		dumpBoard(line, s, b)
	}
	for _, f := range s.Feeds {
		fault, alert := "", ""
		if f.LastFault != nil {
			fault = fmt.Sprintf("%+v", *f.LastFault)
		}
		if f.Alert != nil {
			alert = fmt.Sprintf("%+v", *f.Alert)
		}
		line("feed %s %s, good %v, new %v, fault %s, %d, games %d, hidden %d, left out %+v, %q, %d beats, alert %s, unread %v, playing %v",
			f.Name, f.State, f.LastGood, f.LastNew, fault, f.Faults, f.Games, f.Hidden, f.LeftOut, f.Reading, len(f.Rhythm()), alert, s.Unread(f.Name), s.Playing(f.Name))
	}
	line("said %d", s.Said.Rev)
	for _, item := range s.Said.Items {
		line("said %+v", item)
	}
	const lines, entries = 40, 10 // the newest
	for _, n := range s.Log.After(max(s.Log.Total, lines) - lines) {
		line("noted %+v", n)
	}
	line("entries %d %v", len(s.Entries), s.Entries[max(0, len(s.Entries)-entries):])
	return out.String()
}

func dumpBoard(line func(string, ...any), s *relay.Show, b *relay.Board) {
	line("board %d game %d rev %d since %v news %v keep %d due %v, key %q, %q", b.Number, b.Game, b.Rev, b.Since, b.News, b.Keep, b.Due(), b.Key, b.Players)
	line("follows %s, pinned %q, frozen %v, result %s, control %v, opening %v, fault %q, FEN %s", b.Feed, b.Pinned, b.Frozen, b.Result, b.Control, b.Opening, b.Fault, b.FEN)
	line("anchor %v, silent %v, ended %v, held %v, seen %v", b.Anchor, b.Silent, b.EndedAt, b.HeldAt, b.Seen)
	line("calls %+v", b.Calls)
	line("levels %+v", b.Levels)
	line("alerts %+v", b.Alerts)
	if b.Correction != nil {
		line("correction %+v", *b.Correction)
	}
	if b.Question != nil {
		line("question %+v", *b.Question)
	}
	line("hand %+v %+v", b.Hand.Moves, b.Hand.Clocks)
	for _, word := range []*relay.HandWord{b.Hand.Result, b.Hand.Names[0], b.Hand.Names[1]} {
		if word != nil {
			line("word %q", *word)
		}
	}
	for _, o := range b.Offers {
		line("offer %s %q place %d, %d plies, %v, gone %v, broken %q, doubt %q, differs %v", o.Feed, o.Key, o.Place, o.Plies(), o.Receipt, o.Gone, o.Broken, s.OfferDoubt(o), b.Differs(o))
		if o.Older != nil {
			line("older %v %v %d", o.Older.Since, o.Older.Due, o.Older.Plies)
		}
	}
	for i := range b.Plies {
		p := &b.Plies[i]
		line("%d %s %s %v %v %q %v %s %d %d %v %v %v %v", i, p.Text, p.SAN, p.Move, p.Reading, p.Misread, p.Timed, p.Look, p.Reply, p.Legal, p.Seen, p.Within, p.Alone, p.ByHand)
	}
}
