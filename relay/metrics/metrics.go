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

// latenessBounds are the buckets of the time from packet to page, in seconds.
// 0.25 is the limit drawn on the health page.
var latenessBounds = []float64{0.001, 0.002, 0.003, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5}

// Metrics collects the figures of one relay.
type Metrics struct {
	relay    *relay.Relay
	pages    func() Pages
	reasons  []string
	lateness prometheus.Histogram
	registry *prometheus.Registry
}

// New returns the metrics of a relay. pages is asked at every scrape; reasons
// are the words a fault may have, so that each is there from the start.
func New(r *relay.Relay, pages func() Pages, reasons []string) *Metrics {
	m := &Metrics{relay: r, pages: pages, reasons: reasons, registry: prometheus.NewRegistry()}
	m.lateness = prometheus.NewHistogram(prometheus.HistogramOpts{
		Name:    "clocktell_packet_to_page_seconds",
		Help:    "Time from the receipt of a packet to the moment a page has drawn it, as the pages report it.",
		Buckets: latenessBounds,
	})
	m.registry.MustRegister(m, m.lateness, collectors.NewGoCollector(),
		collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}))
	return m
}

// Handler serves the metrics.
func (m *Metrics) Handler() http.Handler {
	return promhttp.HandlerFor(m.registry, promhttp.HandlerOpts{})
}

// PacketToPage notes how long one packet took to reach one page.
func (m *Metrics) PacketToPage(wall time.Duration) { m.lateness.Observe(wall.Seconds()) }
