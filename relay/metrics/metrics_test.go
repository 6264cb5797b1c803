package metrics

import (
	"context"
	"fmt"
	"io"
	"net/http/httptest"
	"runtime"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/prometheus/client_golang/prometheus/testutil"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

func newMetrics(r *relay.Relay) *Metrics {
	pages := func() Pages {
		return Pages{Connected: map[string]int{"panel": 2, "health": 0}, Superseded: 7, Dropped: 1, Refused: 3}
	}
	journal := func() Journal {
		return Journal{Bytes: 4096, Limit: 1 << 30, Records: 9, Lost: 3, Dropped: 2, Unwritten: 1, DiskFree: 1 << 20}
	}
	engine := func() EngineFigures {
		return EngineFigures{Searches: 12, Restarts: 1, Faults: map[string]uint64{"crash": 1, "timeout": 0}, Queue: 2, Running: true}
	}
	shared := func() Bus {
		return Bus{Show: "show", Role: relay.BusStandsBy, Last: 812, Terms: 1, Appended: 400, Kept: 5, Dropped: 6, Cut: true}
	}
	return New(Sources{
		Relay: r, Pages: pages, Journal: journal, Engine: engine, Bus: shared, Reasons: []string{"timeout", "status"}, Version: "v9", Protocol: "6",
	})
}

// TestNamesAreGood runs the metrics through the linter of the reference library,
// which knows the naming rules of Prometheus.
func TestNamesAreGood(t *testing.T) {
	m := newMetrics(relay.New(relay.NewShow(relaytest.Plan(), time.Now()), relay.NewTimebase(1)))
	problems, err := testutil.GatherAndLint(m.registry)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range problems {
		t.Errorf("%s: %s", p.Metric, p.Text)
	}
}

func scrape(t *testing.T, m *Metrics) string {
	t.Helper()
	w := httptest.NewRecorder()
	m.Handler().ServeHTTP(w, httptest.NewRequest("GET", "/metrics", nil))
	body, err := io.ReadAll(w.Body)
	if err != nil {
		t.Fatal(err)
	}
	return string(body)
}

func wantLines(t *testing.T, text string, lines ...string) {
	t.Helper()
	for _, line := range lines {
		if !strings.Contains(text, "\n"+line+"\n") {
			t.Errorf("no line %q in\n%s", line, text)
		}
	}
}

// TestFigures scrapes before anything has happened and after a packet, a fault
// and a silence.
func TestFigures(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		tb := relay.NewTimebase(1)
		r := relay.New(relay.NewShow(relaytest.Plan(), tb.Now()), tb)
		m := newMetrics(r)
		m.Lookup(30 * time.Microsecond)
		m.Commit(2 * time.Millisecond)
		wantLines(t, scrape(t, m),
			`clocktell_reference_games 0`, `clocktell_reference_lookup_seconds_bucket{le="2.5e-05"} 0`,
			`clocktell_reference_lookup_seconds_bucket{le="5e-05"} 1`, `clocktell_reference_lookup_seconds_bucket{le="0.001"} 1`,
			`clocktell_feed_faults_total{feed="hall",reason="status"} 0`,
			`clocktell_feed_faults_total{feed="hall",reason="timeout"} 0`,
			`clocktell_feed_last_answer_timestamp_seconds{feed="hall"} 0`,
			`clocktell_feed_state{feed="hall",state="waiting"} 1`,
			`clocktell_boards 0`, `clocktell_plies_total 0`,
			`clocktell_pages{page="health"} 0`, `clocktell_pages{page="panel"} 2`,
			`clocktell_page_revisions_superseded_total 7`, `clocktell_pages_dropped_total 1`, `clocktell_pages_refused_total 3`,
			`clocktell_journal_bytes 4096`, `clocktell_journal_records_total 9`, `clocktell_journal_dropped_total 2`,
			`clocktell_journal_unwritten 1`, `clocktell_journal_failing 0`, `clocktell_journal_lost_total 3`,
			`clocktell_journal_limit_bytes 1.073741824e+09`, `clocktell_journal_disk_free_bytes 1.048576e+06`,
			`clocktell_journal_commit_seconds_bucket{le="0.001"} 0`, `clocktell_journal_commit_seconds_bucket{le="0.0025"} 1`,
			`clocktell_feed_poll_seconds_count{feed="hall"} 0`, `clocktell_feed_boards{feed="hall"} 0`,
			`clocktell_boards_playing 0`, `clocktell_boards_held 0`, `clocktell_boards_frozen 0`, `clocktell_boards_on_backup 0`,
			`clocktell_prompts_total{kind="feed",priority="now"} 0`, `clocktell_prompts_total{kind="match",priority="background"} 0`,
			`clocktell_engine_searches_total 12`, `clocktell_engine_restarts_total 1`, `clocktell_engine_running 1`, `clocktell_engine_queue_length 2`,
			`clocktell_engine_faults_total{reason="crash"} 1`, `clocktell_engine_faults_total{reason="timeout"} 0`,
			`clocktell_bus_role{role="standsBy",show="show"} 1`, `clocktell_bus_role{role="leads",show="show"} 0`, `clocktell_bus_role{role="follows",show="show"} 0`,
			`clocktell_bus_cut{show="show"} 1`, `clocktell_bus_last_message{show="show"} 812`, `clocktell_bus_appended_messages_total{show="show"} 400`,
			`clocktell_bus_terms_total{show="show"} 1`, `clocktell_bus_kept_messages{show="show"} 5`, `clocktell_bus_dropped_messages_total{show="show"} 6`,
			`clocktell_reference_failing 0`, `clocktell_build_info{goversion="`+runtime.Version()+`",protocol="6",version="v9"} 1`,
			`clocktell_feed_text_faults{feed="hall",reason="unplayable"} 0`,
			`clocktell_past_seconds 0`, `clocktell_past_states 1`, `clocktell_past_thinned_total 0`,
		)
		ctx, cancel := context.WithCancel(t.Context())
		events, done := make(chan relay.Event), make(chan error)
		go func() { done <- r.Run(ctx, events) }()
		events <- relay.NewIntake(relaytest.FeedName).Read(tb.Now(), []byte(relaytest.Packet(relaytest.Game{Moves: "e4 e5 Qxe5"})))
		events <- relay.FeedFailed{At: tb.Now(), Feed: relaytest.FeedName, Reason: "timeout"}
		time.Sleep(20 * time.Second)
		synctest.Wait()
		m.PacketToPage(30 * time.Millisecond)
		m.Poll(relaytest.FeedName, 30*time.Millisecond)
		// The bubble starts at midnight UTC 2000-01-01, Unix time 946684800.
		wantLines(t, scrape(t, m),
			`clocktell_feed_faults_total{feed="hall",reason="timeout"} 1`,
			`clocktell_feed_last_answer_timestamp_seconds{feed="hall"} 9.466848e+08`,
			`clocktell_feed_state{feed="hall",state="stale"} 1`, `clocktell_feed_state{feed="hall",state="waiting"} 0`,
			`clocktell_feed_text_faults{feed="hall",reason="unplayable"} 1`, `clocktell_questions_open 0`, `clocktell_feed_older_states_total 0`,
			// The show; its board with the packet, and when the feed fell silent.
			`clocktell_past_seconds 15.1`, `clocktell_past_states 3`, fmt.Sprintf("clocktell_past_bytes %d", r.History().Bytes),
			`clocktell_feed_poll_seconds_bucket{feed="hall",le="0.025"} 0`, `clocktell_feed_poll_seconds_bucket{feed="hall",le="0.05"} 1`,
			`clocktell_feed_boards{feed="hall"} 1`, `clocktell_boards_playing 1`, `clocktell_boards_held 1`,
			`clocktell_prompts_total{kind="feed",priority="now"} 1`,
			`clocktell_boards 1`, `clocktell_packets_total 1`, `clocktell_plies_total 2`, `clocktell_alerts_raised_total 1`,
			`clocktell_packet_to_page_seconds_bucket{le="0.025"} 0`, `clocktell_packet_to_page_seconds_bucket{le="0.05"} 1`,
		)
		cancel()
		if err := <-done; err != nil {
			t.Error(err)
		}
	})
}

// TestClockErrors plays moves whose clocks say five seconds and whose receipts say the
// same, then one whose clock says five and whose receipt says seventeen.
func TestClockErrors(t *testing.T) {
	s, clocks := relaytest.NewStage(), []string{"0:09:55", "0:09:55"}
	moves := []string{"e4", "e5", "Nf3", "Nc6", "Bb5", "a6"}
	for i := range moves {
		if i > 1 {
			clocks = append(clocks, []string{"", "", "0:09:50", "0:09:50", "0:09:45", "0:09:45"}[i])
		}
		if i == len(moves)-1 {
			s.Same(12 * time.Second)
		}
		s.Same(4 * time.Second)
		s.Take(relaytest.Packet(relaytest.Game{Control: "600", Moves: strings.Join(moves[:i+1], " "), Clocks: clocks[:min(i+1, len(clocks))]}))
	}
	// The last move was not there a second before, eleven seconds too late; the step of
	// the readings is forgiven.
	wantLines(t, scrape(t, newMetrics(relay.New(s.Show, relay.NewTimebase(1)))),
		`clocktell_clock_error_seconds_count{feed="hall"} 5`, `clocktell_clock_error_seconds_bucket{feed="hall",le="0.1"} 4`,
		`clocktell_clock_error_seconds_bucket{feed="hall",le="10"} 4`, `clocktell_clock_error_seconds_bucket{feed="hall",le="30"} 5`,
		`clocktell_feed_usual_lateness_seconds{feed="hall"} 0`,
	)
}
