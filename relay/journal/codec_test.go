package journal

import (
	"context"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/bitboard"
	"clocktell/relay/opinion"
)

// random makes events.
type random struct{ *rand.Rand }

// bytes returns a text that need not be UTF-8.
func (r random) bytes(most int) string {
	b := make([]byte, r.IntN(most+1))
	for i := range b {
		b[i] = byte(r.Uint32())
	}
	return string(b)
}

func (r random) word() string {
	return []string{"", "hall", "hall B", "Brücke ♞", "a<b>&\"c\"", "x\x00y"}[r.IntN(6)]
}

// time returns one of the times that fit: 1678 to 2262, to the ns, and zero.
func (r random) time() time.Time {
	switch r.IntN(9) {
	case 0:
		return time.Time{}
	case 1:
		return time.Unix(0, []int64{math.MinInt64 + 1, math.MaxInt64, 0, -1}[r.IntN(4)]).UTC()
	}
	return start.Add(time.Duration(r.Int64N(int64(48 * time.Hour)))).Add(time.Duration(r.IntN(1000)))
}

func (r random) parts() []relay.Part {
	var parts []relay.Part
	for range r.IntN(6) {
		p := relay.Part{From: r.IntN(300), Count: r.IntN(3), Head: r.IntN(100_000), Tail: r.IntN(200), Text: r.bytes(40)}
		switch r.IntN(6) {
		case 0:
			p.Text = strings.Repeat("1. e4 {[%clk 1:40:00]} ", r.IntN(300))
		case 1:
			p.From, p.Count, p.Head, p.Tail = -r.IntN(9), math.MaxInt, math.MinInt, -1 // the journal does not judge
		}
		parts = append(parts, p)
	}
	return parts
}

func (r random) event() relay.Event {
	switch r.IntN(10) {
	case 0, 1:
		return relay.PacketRead{At: r.time(), Feed: r.word(), Parts: r.parts()}
	case 2:
		return relay.FeedFailed{At: r.time(), Feed: r.word(), Reason: r.word(), Text: r.bytes(100)}
	case 3:
		return relay.ByHand{
			At: r.time(), ID: r.word(), Board: r.IntN(9), Act: relay.ActMove, Ply: r.IntN(300), SAN: "Nf3", Side: r.word(),
			Left: time.Duration(r.Int64()), Text: r.word(), Feed: r.word(), Keep: r.word(), Asked: r.word(),
		}
	case 4:
		return relay.AtPanel{
			At: r.time(), ID: r.word(), Who: r.word(), Act: relay.PanelTake, Prompt: r.word(), Over: r.IntN(2) == 0, Text: r.word(), Note: r.word(),
		}
	case 5:
		on := r.IntN(2) == 0
		return relay.AtDesk{
			At: r.time(), ID: r.word(), Who: r.word(), Action: r.word(), Over: on, Board: r.IntN(9), Ply: r.IntN(300), Move: r.IntN(99), SAN: r.word(),
			From: r.word(), To: r.word(), Text: r.word(), On: &on, Seconds: r.IntN(600), Hints: []string{r.word(), r.word()}, Prompt: r.word(),
		}
	case 6:
		return relay.EngineAnswered{At: r.time(), Board: r.IntN(9), Game: r.IntN(3), Second: r.IntN(2) == 0, Answers: []relay.Judged{
			{Ply: r.IntN(300), Place: r.Uint64(), Opinion: r.opinion()}, {Ply: relay.OffGame},
		}}
	}
	return relay.FeedAnswered{At: r.time(), Feed: r.word()}
}

func (r random) opinion() opinion.Opinion {
	score := opinion.Score{Centipawns: r.IntN(2000) - 1000, Mate: r.IntN(9) - 4, Bound: opinion.Bound(r.IntN(3))}
	moves := []bitboard.Move{bitboard.Move(r.Uint32()), bitboard.Move(r.Uint32())}
	return opinion.Opinion{
		Engine: r.word(), Depth: r.IntN(99), Nodes: r.Uint64(), Given: time.Duration(r.Int64()), Took: time.Duration(r.Int64()), Final: r.IntN(2) == 0,
		Lines: []opinion.Line{{Score: score, Chances: &opinion.Chances{Win: 1, Draw: 2, Loss: 997}, Depth: 3, Moves: moves}, {Moves: moves[:1]}},
		Steps: []opinion.Step{{Depth: 1, First: moves[0], Score: score}},
	}
}

func (r random) events(n int) []relay.Event {
	events := make([]relay.Event, n)
	for i := range events {
		events[i] = r.event()
	}
	return events
}

// TestRoundTrip writes random events and reads them again from the file.
func TestRoundTrip(t *testing.T) {
	for seed := range uint64(20) {
		r := random{rand.New(rand.NewPCG(seed, 1))}
		dir := t.TempDir()
		j := mustOpen(t, options(dir))
		want := r.events(400)
		wantEvents(t, through(t, j, want...), want)
		wantEvents(t, read(t, j.Records()), want)
		mustClose(t, j)
	}
}

// TestTimesAreUTC gives a time of another zone with a monotonic part.
func TestTimesAreUTC(t *testing.T) {
	j := mustOpen(t, options(t.TempDir()))
	now := time.Now().In(time.FixedZone("hall", 3600))
	through(t, j, relay.FeedFailed{At: now, Feed: "hall"}, relay.FeedAnswered{At: now, Feed: "hall"})
	for _, e := range read(t, j.Records()) {
		if got := e.When(); !got.Equal(now) || got != now.UTC().Round(0) {
			t.Errorf("%v comes back as %v", now, got)
		}
	}
}

// TestLargePacket holds that a large packet is packed, and a small one is not.
func TestLargePacket(t *testing.T) {
	game := strings.Repeat("12. Nf3 {[%clk 1:10:00]} Nc6 {[%clk 1:09:30]} ", 5000)
	var p packer
	var u unpacker
	for _, text := range []string{"", game[:packedFrom/2], game, game + "!"} {
		parts := []relay.Part{{Text: text}}
		body := p.pack(parts)
		if packed := body[0] == formDeflated; packed != (len(text) > packedFrom) || packed && len(body) > len(text)/10 {
			t.Errorf("%d bytes become %d, packed %t", len(text), len(body), packed)
		}
		got, err := u.unpack(body)
		if err != nil || len(got) != 1 || got[0] != parts[0] {
			t.Errorf("%d bytes do not come back: %v", len(text), err)
		}
	}
}

// TestInflatesWithinLimits gives a body that grows beyond what is allowed.
func TestInflatesWithinLimits(t *testing.T) {
	var p packer
	var u unpacker
	body := p.deflated(append([]byte{formPlain}, make([]byte, 10_000)...))
	for most, want := range map[uint64]int{10_000: 10_000, 9999: 0} {
		if plain, err := u.inflated(&reader{rest: body[1:]}, most); len(plain) != want || (err == nil) != (want > 0) {
			t.Errorf("at most %d: %d bytes, %v", most, len(plain), err)
		}
	}
}

// TestBodiesThatLie gives bodies which promise more than they hold. They must be
// refused, at no cost.
func TestBodiesThatLie(t *testing.T) {
	huge := "\xff\xff\xff\xff\xff\xff\xff\xff\xff\x01"
	var u unpacker
	for _, r := range []row{
		{kind: kindPacket}, {kind: kindPacket, body: []byte{7}},
		{kind: kindPacket, body: []byte("\x00" + huge)}, {kind: kindPacket, body: []byte("\x01" + huge)},
		{kind: kindPacket, body: []byte("\x01\x05garbage")}, {kind: kindPacket, body: []byte("\x00\x01\x00\x00\x00\x00" + huge)},
		{kind: kindPacket, body: []byte("\x00\x00left over")},
		{kind: kindAnswers, n: 1 << 40, body: []byte("\x01\x00\x00")}, {kind: kindAnswers, n: 1, body: []byte(huge)},
		{kind: kindAnswers, n: 1, body: []byte("\x00\x00")}, {kind: kindAnswers, n: 1, body: []byte("\x02\x01a\x01b\x02\x00")},
		{kind: kindFailed, body: []byte(huge)}, {kind: kindHand, body: []byte("{")}, {kind: kindHand},
	} {
		if events, err := u.eventsOf(&r); err == nil {
			t.Errorf("%s %q gives %v", r.kind, r.body, events)
		}
	}
}

func FuzzBody(f *testing.F) {
	var p packer
	f.Add("packet", 1, p.pack([]relay.Part{{From: 1, Head: 2, Text: "x"}}))
	f.Add("answers", 2, []byte("\x02\x01a\x01b\x01\x00\x00\x05"))
	f.Fuzz(func(t *testing.T, kind string, n int, body []byte) {
		var u unpacker
		events, err := u.eventsOf(&row{kind: kind, n: n, body: body})
		if err == nil && kind == kindAnswers && len(events) != n {
			t.Errorf("%d events", len(events))
		}
	})
}

// TestUnknownKind writes a record as a later version might.
func TestUnknownKind(t *testing.T) {
	dir := t.TempDir()
	j := mustOpen(t, options(dir))
	through(t, j, failure(1))
	j.commit([]row{{kind: "later", at: stamp(start), n: 3, body: []byte("?")}})
	through(t, j, failure(2))
	mustClose(t, j)
	j = mustOpen(t, options(dir))
	wantEvents(t, read(t, j.Records()), failures(1, 3))
	if cut := j.Cut(); !strings.Contains(cut, `left out: 1 of kind "later"`) {
		t.Errorf("cut says %q", cut)
	}
	r, err := Read(context.Background(), dir)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	wantEvents(t, read(t, r.Records()), failures(1, 3))
	if r.Unknown() == "" {
		t.Error("the recording does not say what it left out")
	}
}
