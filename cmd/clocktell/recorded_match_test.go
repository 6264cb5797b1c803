package main

import (
	"context"
	"fmt"
	"io"
	"maps"
	"math/rand/v2"
	"net/http/httptest"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/feed"
	"clocktell/relay/metrics"
)

// How long the recorded matches go on, and how often they are scraped: as in
// configs/prometheus.yml.
const (
	matchLong   = 26 * time.Minute
	matchScrape = 5 * time.Second
	matchFault  = 12 * time.Minute // when a fault begins
	pliesMost   = 88               // as long as leftAfter has time
)

// recordedMatch is a match played in a bubble, with the silences and spans of a real one.
type recordedMatch struct {
	alert  string                         // that fires at its end; "": none ever
	silent func(since time.Duration) bool // after matchFault: no answer comes
	begin  *relay.ByHand                  // at matchFault
	late   time.Duration                  // of every page, from then on
}

// recordedMatches are a normal match, and faults whose alerts take minutes.
var recordedMatches = []recordedMatch{
	{},
	{alert: "FeedSilent", silent: func(time.Duration) bool { return true }},
	{alert: "FeedOftenLate", silent: func(since time.Duration) bool { return since%(20*time.Second) < 13*time.Second }},
	{alert: "FreezeForgotten", begin: &relay.ByHand{Act: relay.ActFreeze}},
	{alert: "FramesLate", late: 400 * time.Millisecond},
}

// TestRecordedMatches plays matches in a bubble, records what the relay's metrics were at
// every scrape, and lets promtool hold the rules, as they are shipped, to that.
func TestRecordedMatches(t *testing.T) {
	program(t, "promtool")
	rules, err := filepath.Abs("../../configs/clocktell.rules.yml")
	if err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	fmt.Fprintf(&out, "rule_files: [%q]\nevaluation_interval: %v\ntests:\n  - interval: %v\n    input_series:\n", rules, matchScrape, matchScrape)
	for i, m := range recordedMatches {
		m.record(t, fmt.Sprintf("hall-%d", i), &out)
	}
	out.WriteString("    promql_expr_test:\n")
	firing := `count by (alertname, instance) (count_over_time(ALERTS{alertstate="firing"}[1h]))`
	fmt.Fprintf(&out, "      - {expr: '%s', eval_time: %v, exp_samples: []}\n", firing, matchFault)
	fmt.Fprintf(&out, "      - {expr: '%s', eval_time: %v, exp_samples: [", firing, matchLong-matchScrape)
	for i, m := range recordedMatches {
		if m.alert != "" {
			fmt.Fprintf(&out, "{labels: '{alertname=%q, instance=\"hall-%d\"}', value: 1}, ", m.alert, i)
		}
	}
	out.WriteString("]}\n")
	promtool(t, "", "test", "rules", write(t, "recorded.yml", out.String()))
}

// record plays the match and writes its series as promtool takes them.
func (m recordedMatch) record(t *testing.T, instance string, out io.Writer) {
	values, scrapes, rules := make(map[string][]string), 0, shipped(t, "clocktell.rules.yml")
	synctest.Test(t, func(t *testing.T) {
		p := newPlayed(m)
		ctx, cancel := context.WithCancel(t.Context())
		done := make(chan error)
		go func() { done <- p.relay.Run(ctx, p.events) }()
		for began := time.Now(); time.Since(began) < matchLong; time.Sleep(time.Second) {
			p.second(time.Since(began))
			if time.Since(began) < time.Duration(scrapes)*matchScrape {
				continue
			}
			synctest.Wait()
			for name, value := range p.scrape(instance, rules) {
				for len(values[name]) < scrapes {
					values[name] = append(values[name], "_")
				}
				values[name] = append(values[name], value)
			}
			scrapes++
		}
		if show := p.relay.Show(); len(show.Boards) != 2 || show.Totals.Plies < 80 {
			t.Errorf("hardly a match: %s", told(show))
		}
		cancel()
		if err := <-done; err != nil {
			t.Error(err)
		}
	})
	for _, name := range slices.Sorted(maps.Keys(values)) {
		fmt.Fprintf(out, "      - {series: '%s', values: '%s'}\n", name, strings.Join(values[name], " "))
	}
}

// played is a relay whose feed and pages a test plays.
type played struct {
	recordedMatch
	relay   *relay.Relay
	figures *metrics.Metrics
	intake  *relay.Intake
	events  chan relay.Event
	random  *rand.Rand
	time    relay.Timebase
	due     []time.Duration // when each ply of both games is told
	plies   int             // told
}

func newPlayed(m recordedMatch) *played {
	c := config.Default()
	c.Feeds = []config.Feed{config.DefaultFeed()}
	c.Feeds[0].Name, c.Feeds[0].URL = arenaFeed, "http://arena.example/"
	p := &played{
		recordedMatch: m, figures: newFigures(), intake: relay.NewIntake(arenaFeed), events: make(chan relay.Event),
		random: rand.New(rand.NewPCG(3, 4)), time: relay.NewTimebase(1),
	}
	p.relay = relay.New(relay.NewShow(planOf(c, p.time), p.time.Now()), p.time)
	p.figures.Relay = p.relay
	p.figures.Pages = func() metrics.Pages {
		return metrics.Pages{Connected: map[string]int{"scene/board": 1, "scene/wall": 1, "desk": 1, "panel": 2, "health": 1}, Superseded: uint64(p.plies / 10)}
	}
	p.figures.Journal = func() metrics.Journal {
		return metrics.Journal{Bytes: int64(p.plies) << 12, Limit: 1 << 30, Records: uint64(p.plies), DiskFree: 20 << 30}
	}
	for at, ply := time.Duration(0), 1; ply <= pliesMost; ply++ {
		at += spent(ply)
		p.due = append(p.due, at+time.Second+time.Duration(p.random.IntN(600))*time.Millisecond)
	}
	return p
}

// spent is how long a ply took by leftAfter.
func spent(ply int) time.Duration {
	before := 600 * time.Second
	if ply > 2 {
		before = leftAfter(ply - 2)
	}
	return before + 5*time.Second - leftAfter(ply)
}

// second is one poll of the feed, and what follows from it.
func (p *played) second(since time.Duration) {
	fault := since - matchFault
	if p.begin != nil && fault == 0 {
		entry := *p.begin
		entry.At, entry.ID, entry.Board = p.time.Now(), "by-hand", 1
		p.events <- entry
	}
	if p.silent != nil && fault >= 0 && p.silent(fault) {
		return
	}
	p.figures.Poll(arenaFeed, time.Duration(20+p.random.IntN(80))*time.Millisecond)
	if since%(5*time.Minute) == 4*time.Minute { // even a good arena fails now and then
		p.events <- relay.FeedFailed{At: p.time.Now(), Feed: arenaFeed, Reason: string(feed.ReasonTimeout), Text: "no answer"}
		return
	}
	told, _ := slices.BinarySearch(p.due, since)
	if told == p.plies {
		p.events <- relay.FeedAnswered{At: p.time.Now(), Feed: arenaFeed}
		return
	}
	p.plies = told
	var moves []string
	for i := range told {
		moves = append(moves, there[i%len(there)])
	}
	p.events <- p.intake.Read(p.time.Now(), []byte(gameText(badWhite, badBlack, moves)+gameText(goodWhite, goodBlack, moves)))
	p.figures.Commit(time.Duration(1+p.random.IntN(9)) * time.Millisecond)
	for range 5 {
		late := time.Duration(15+p.random.IntN(100)) * time.Millisecond
		if fault >= 0 {
			late += p.late
		}
		p.figures.PacketToPage(late)
	}
}

// scrape returns the value of each series that the rules name, as Prometheus would store it.
func (p *played) scrape(instance, rules string) map[string]string {
	w := httptest.NewRecorder()
	p.figures.Handler().ServeHTTP(w, httptest.NewRequest("GET", "/metrics", nil))
	external := fmt.Sprintf("job=\"clocktell\",instance=%q", instance)
	out := map[string]string{"up{" + external + "}": "1"}
	for _, line := range seriesLine.FindAllStringSubmatch(w.Body.String(), -1) {
		if name, labels := line[1], line[2]; strings.HasPrefix(name, "clocktell_") && strings.Contains(rules, name) {
			out[name+"{"+strings.TrimPrefix(labels+","+external, ",")+"}"] = line[0][strings.LastIndex(line[0], " ")+1:]
		}
	}
	return out
}
