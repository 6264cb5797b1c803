package metrics

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// hostile are texts that a feed may have where names, rounds and results stand.
var hostile = []string{
	`Mallory"} 1`, "Mallory\nclocktell_plies_total 99", `Mallory\`, "Mallory{feed=hall}", strings.Repeat("Mallory", 4000), "Mallory\x00", "Mállory…", "",
}

// TestSeriesAreBounded: whatever a feed writes, and whatever reason a fault claims, there
// are the same series as before, and none has a word of it.
func TestSeriesAreBounded(t *testing.T) {
	s := relaytest.NewStage()
	m := newMetrics(relay.New(s.Show, relay.NewTimebase(1)))
	before := names(scrape(t, m))
	random := rand.New(rand.NewPCG(1, 2))
	word := func() string { return hostile[random.IntN(len(hostile))] }
	for range 100 {
		var packet strings.Builder
		for i := range 5 {
			fmt.Fprintf(&packet, "[Event %q]\n[Round \"%d\"]\n[White %q]\n[Black \"B%d\"]\n[TimeControl %q]\n\n1. e4 {[%%clk %s]} %s *\n\n", word(), i, word(), i, word(), word(), word())
		}
		s.Same(time.Second)
		s.Take(packet.String())
		s.Apply(relay.FeedFailed{At: s.Now, Feed: relaytest.FeedName, Reason: word(), Text: word()})
		s.Apply(relay.FeedFailed{At: s.Now, Feed: relaytest.FeedName + word(), Reason: "timeout", Text: word()})
	}
	m = newMetrics(relay.New(s.Show, relay.NewTimebase(1)))
	text := scrape(t, m)
	if after := names(text); strings.Join(after, "\n") != strings.Join(before, "\n") {
		t.Errorf("other series than before:\n%s", strings.Join(after, "\n"))
	}
	if strings.Contains(text, "llory") {
		t.Errorf("a text of the feed in\n%s", text)
	}
	if len(s.Show.Boards) < 3 {
		t.Errorf("%d boards: hardly anything was read", len(s.Show.Boards))
	}
}

// names returns every series of the show's, without its value.
func names(text string) []string {
	var out []string
	for line := range strings.Lines(text) {
		if name, _, found := strings.Cut(line, " "); found && strings.HasPrefix(name, "clocktell_") {
			out = append(out, name)
		}
	}
	return out
}
