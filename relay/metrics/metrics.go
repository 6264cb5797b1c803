// Package metrics offers the relay's figures to Prometheus. Its collector reads
// them when it is scraped; nothing is counted twice.
package metrics

import (
	"net/http"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/collectors"
	"github.com/prometheus/client_golang/prometheus/promhttp"

	"clocktell/relay"
)

// Pages is what is known of the connected pages.
type Pages struct {
	Connected                    map[string]int // by kind of page
	Superseded, Dropped, Refused uint64
}

// Journal is what is known of the journal.
type Journal struct {
	Bytes, Limit     int64  // of its files; what they are kept below
	Records, Dropped uint64 // written since the start; the oldest, deleted for want of room
	Lost             uint64 // never written
	Unwritten        int    // waiting in memory because it cannot be written
	DiskFree         int64  // bytes; -1 unknown
}

// Conns is what is known of the connections, and of who knocks with wrong tokens.
type Conns struct {
	Open                           int
	RefusedAll, RefusedOfOne       uint64 // too many were open in all, or from one address
	WrongTokens, WrongTokensOfPush uint64
}

// Sources are asked at every scrape.
type Sources struct {
	Relay   *relay.Relay
	Pages   func() Pages         // nil: none are served
	Conns   func() Conns         // nil: nothing is told of them
	Journal func() Journal       // nil: there is none
	Engine  func() EngineFigures // nil: there is none
	Bus     func() Bus           // nil: nobody else has the show
	Reasons []string             // the words a feed's fault may have, so that each is there from the start

	Version, Protocol string // what runs
}

// latenessBounds are the buckets of the time from packet to page, in seconds.
// 0.25 is the limit drawn on the health page.
var latenessBounds = []float64{0.001, 0.002, 0.003, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5}

// lookupBounds are the buckets of the time of a lookup, in seconds; a millisecond is the
// most it should take.
var lookupBounds = []float64{0.000_01, 0.000_025, 0.000_05, 0.000_1, 0.000_25, 0.000_5, 0.001, 0.002_5, 0.01, 0.1}

// pollBounds are the buckets of the time of a poll, in seconds; the last is the time
// limit that a configuration has unless it says otherwise.
var pollBounds = []float64{0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 10}

// commitBounds are the buckets of the time of a commit, in seconds. A move waits for its
// commit, so 0.25 is late as it is for pages.
var commitBounds = []float64{0.000_5, 0.001, 0.002_5, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5}

// Metrics collects the figures of one relay.
type Metrics struct {
	Sources
	lateness prometheus.Histogram
	lookups  prometheus.Histogram
	commits  prometheus.Histogram
	polls    *prometheus.HistogramVec
	registry *prometheus.Registry
}

// New returns the metrics of a show. Sources may be set until the first scrape.
func New(from Sources) *Metrics {
	m := &Metrics{
		Sources: from, registry: prometheus.NewRegistry(),
		lateness: histogram("packet_to_page_seconds", "Time from the receipt of a packet to the moment a page has drawn it, as the pages report it.", latenessBounds),
		lookups:  histogram("reference_lookup_seconds", "Time to look one position up in the reference and say what it knows.", lookupBounds),
		commits:  histogram("journal_commit_seconds", "Time of a commit of the journal, with its sync.", commitBounds),
		polls: prometheus.NewHistogramVec(histogramOpts("feed_poll_seconds",
			"Time from a request to the end of its answer, or to the fault; of a stream, from the first new byte.", pollBounds), []string{"feed"}),
	}
	m.registry.MustRegister(m, m.lateness, m.lookups, m.commits, collectors.NewGoCollector(),
		collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}))
	return m
}

func histogram(name, help string, bounds []float64) prometheus.Histogram {
	return prometheus.NewHistogram(histogramOpts(name, help, bounds))
}

func histogramOpts(name, help string, bounds []float64) prometheus.HistogramOpts {
	return prometheus.HistogramOpts{Namespace: "clocktell", Name: name, Help: help, Buckets: bounds}
}

// scrapesMost is how many scrapes are answered at the same time. Whoever scrapes gives up
// what takes too long and comes again: without a limit, a busy machine would be kept busy.
const scrapesMost = 4

// Handler serves the metrics in the text format 0.0.4 alone: in others the bounds of
// buckets are written otherwise, and the alert rules name some.
func (m *Metrics) Handler() http.Handler {
	return promhttp.HandlerFor(m.registry, promhttp.HandlerOpts{MaxRequestsInFlight: scrapesMost})
}

// PacketToPage notes how long one packet took to reach one page.
func (m *Metrics) PacketToPage(wall time.Duration) { m.lateness.Observe(wall.Seconds()) }

// Lookup notes how long it took to look up one position.
func (m *Metrics) Lookup(wall time.Duration) { m.lookups.Observe(wall.Seconds()) }

// Commit notes how long one commit of the journal took.
func (m *Metrics) Commit(wall time.Duration) { m.commits.Observe(wall.Seconds()) }

// Poll notes how long a feed took to answer, or to fail. The feed is one of the show's.
func (m *Metrics) Poll(feed string, wall time.Duration) {
	m.polls.WithLabelValues(feed).Observe(wall.Seconds())
}
