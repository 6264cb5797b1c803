package metrics

import (
	"time"

	"github.com/prometheus/client_golang/prometheus"

	"clocktell/relay"
)

var _ prometheus.Collector = (*Metrics)(nil)

func desc(name, help string, labels ...string) *prometheus.Desc {
	return prometheus.NewDesc("clocktell_"+name, help, labels, nil)
}

var (
	feedAnswer  = desc("feed_last_answer_timestamp_seconds", "Unix time of the feed's last good answer, 0 before the first.", "feed")
	feedNews    = desc("feed_last_news_timestamp_seconds", "Unix time of the feed's last answer with something new, 0 before the first.", "feed")
	feedState   = desc("feed_state", "1 for the state the feed is in.", "feed", "state")
	feedFaults  = desc("feed_faults_total", "Failed attempts to hear from the feed.", "feed", "reason")
	packets     = desc("packets_total", "Packets with something new.")
	plies       = desc("plies_total", "Plies added to boards.")
	corrections = desc("corrections_total", "Moves that a feed took back or replaced.")
	tellChanges = desc("tell_changes_total", "Changes of the verdict on a side.")
	alerts      = desc("alerts_raised_total", "Alerts raised.")
	hidden      = desc("games_hidden", "Games of the feed's last packet for which the show has no board.", "feed")
	boards      = desc("boards", "Boards of the show.")
	pagesNow    = desc("pages", "Pages connected.", "page")
	superseded  = desc("page_revisions_superseded_total", "Revisions that a slow page skipped because a newer one was there.")
	dropped     = desc("pages_dropped_total", "Pages dropped because they took a frame too slowly.")
	pagesFull   = desc("pages_refused_total", "Pages refused because too many were connected.")
)

// Describe sends every description.
func (m *Metrics) Describe(out chan<- *prometheus.Desc) {
	for _, d := range []*prometheus.Desc{
		feedAnswer, feedNews, feedState, feedFaults, packets, plies, corrections, tellChanges, alerts, hidden, boards,
		pagesNow, superseded, dropped, pagesFull,
	} {
		out <- d
	}
}

// Collect reads the show as it is now.
func (m *Metrics) Collect(out chan<- prometheus.Metric) {
	show := m.relay.Show()
	for _, f := range show.Feeds {
		m.collectFeed(out, f, show.Totals.Faults)
	}
	t := show.Totals
	for _, c := range []struct {
		desc  *prometheus.Desc
		value uint64
	}{
		{packets, t.Packets}, {plies, t.Plies}, {corrections, t.Corrections},
		{tellChanges, t.TellChanges}, {alerts, t.AlertsRaised},
	} {
		out <- counter(c.desc, c.value)
	}
	out <- gauge(boards, float64(len(show.Boards)))
	m.collectPages(out)
}

func (m *Metrics) collectFeed(out chan<- prometheus.Metric, f *relay.Feed, faults map[relay.FaultKey]uint64) {
	out <- gauge(feedAnswer, unix(f.LastGood), f.Name)
	out <- gauge(feedNews, unix(f.LastNew), f.Name)
	out <- gauge(hidden, float64(f.Hidden), f.Name)
	for _, state := range []relay.FeedState{relay.FeedWaiting, relay.FeedOK, relay.FeedLate, relay.FeedStale} {
		value := 0.0
		if f.State == state {
			value = 1
		}
		out <- gauge(feedState, value, f.Name, string(state))
	}
	for _, reason := range m.reasons {
		out <- counter(feedFaults, faults[relay.FaultKey{Feed: f.Name, Reason: reason}], f.Name, reason)
	}
}

func (m *Metrics) collectPages(out chan<- prometheus.Metric) {
	pages := m.pages()
	for page, n := range pages.Connected {
		out <- gauge(pagesNow, float64(n), page)
	}
	out <- counter(superseded, pages.Superseded)
	out <- counter(dropped, pages.Dropped)
	out <- counter(pagesFull, pages.Refused)
}

func gauge(d *prometheus.Desc, value float64, labels ...string) prometheus.Metric {
	return prometheus.MustNewConstMetric(d, prometheus.GaugeValue, value, labels...)
}

func counter(d *prometheus.Desc, value uint64, labels ...string) prometheus.Metric {
	return prometheus.MustNewConstMetric(d, prometheus.CounterValue, float64(value), labels...)
}

func unix(t time.Time) float64 {
	if t.IsZero() {
		return 0
	}
	return float64(t.UnixMilli()) / 1000
}
