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
	Bytes                     int64  // of its files
	Records, Commits, Dropped uint64 // written since the start; dropped by age or for want of room
	Unwritten                 int    // waiting in memory because it cannot be written
	LastCommit                time.Duration
}

// Sources are asked at every scrape.
type Sources struct {
	Relay   *relay.Relay
	Pages   func() Pages
	Journal func() Journal // nil: there is none
	Reasons []string       // the words a feed's fault may have, so that each is there from the start
}

// latenessBounds are the buckets of the time from packet to page, in seconds.
// 0.25 is the limit drawn on the health page.
var latenessBounds = []float64{0.001, 0.002, 0.003, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5}

// lookupBounds are the buckets of the time of a lookup, in seconds; a millisecond is the
// most it should take.
var lookupBounds = []float64{0.000_01, 0.000_025, 0.000_05, 0.000_1, 0.000_25, 0.000_5, 0.001, 0.002_5, 0.01, 0.1}

// Metrics collects the figures of one relay.
type Metrics struct {
	Sources
	lateness prometheus.Histogram
	lookups  prometheus.Histogram
	registry *prometheus.Registry
}

// New returns the metrics of a show.
func New(from Sources) *Metrics {
	m := &Metrics{Sources: from, registry: prometheus.NewRegistry()}
	m.lateness = prometheus.NewHistogram(prometheus.HistogramOpts{
		Name:    "clocktell_packet_to_page_seconds",
		Help:    "Time from the receipt of a packet to the moment a page has drawn it, as the pages report it.",
		Buckets: latenessBounds,
	})
	m.lookups = prometheus.NewHistogram(prometheus.HistogramOpts{
		Name:    "clocktell_reference_lookup_seconds",
		Help:    "Time to look one position up in the reference and say what it knows.",
		Buckets: lookupBounds,
	})
	m.registry.MustRegister(m, m.lateness, m.lookups, collectors.NewGoCollector(),
		collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}))
	return m
}

// Handler serves the metrics.
func (m *Metrics) Handler() http.Handler {
	return promhttp.HandlerFor(m.registry, promhttp.HandlerOpts{})
}

// PacketToPage notes how long one packet took to reach one page.
func (m *Metrics) PacketToPage(wall time.Duration) { m.lateness.Observe(wall.Seconds()) }

// Lookup notes how long it took to look up one position.
func (m *Metrics) Lookup(wall time.Duration) { m.lookups.Observe(wall.Seconds()) }
