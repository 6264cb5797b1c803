package metrics

import (
	"runtime"
	"time"

	"github.com/prometheus/client_golang/prometheus"

	"clocktell/relay"
	"clocktell/relay/prompt"
)

var _ prometheus.Collector = (*Metrics)(nil)

// Collect reads the show as it is now.
func (m *Metrics) Collect(out chan<- prometheus.Metric) {
	show := m.Relay.Show()
	for _, f := range show.Feeds {
		m.collectFeed(out, f, show.Totals.Faults)
		collectText(out, f.Name, show.Unread(f.Name))
		m.polls.WithLabelValues(f.Name) // is there before the first poll
	}
	t := show.Totals
	for _, c := range []struct {
		desc  *prometheus.Desc
		value uint64
	}{
		{packets, t.Packets}, {plies, t.Plies}, {corrections, t.Corrections},
		{tellChanges, t.TellChanges}, {alerts, t.AlertsRaised},
		{olderStates, t.OlderStates}, {switches, t.FeedSwitches}, {byHand, t.ByHand}, {atPanel, t.AtPanel}, {atDesk, t.AtDesk},
	} {
		out <- counter(c.desc, c.value)
	}
	out <- gauge(questions, float64(show.Questions()))
	out <- gauge(refGames, float64(show.Reference.Games))
	out <- gauge(refFailing, truth(show.Reference.Fault != ""))
	m.collectPages(out)
	m.collectConns(out)
	past := m.Relay.History()
	out <- gauge(pastReach, past.Reach.Seconds())
	out <- gauge(pastStates, float64(past.States))
	out <- gauge(pastBytes, float64(past.Bytes))
	out <- counter(pastThinned, past.Thinned)
	m.collectBoards(out, show)
	m.collectPrompts(out, show.Said.Shown)
	m.collectJournal(out, show.Journal != "")
	m.collectEngine(out)
	m.collectBus(out)
	out <- gauge(build, 1, m.Version, m.Protocol, runtime.Version())
	m.polls.Collect(out)
}

// collectBoards counts boards by what the producer has to know of them.
func (m *Metrics) collectBoards(out chan<- prometheus.Metric, show *relay.Show) {
	of, on := make(map[string]int), make(map[*prometheus.Desc]int)
	backups := make(map[string]bool)
	for _, f := range show.Feeds {
		backups[f.Name] = f.BackupOf != ""
	}
	for _, b := range show.Boards {
		of[b.Feed]++
		for d, holds := range map[*prometheus.Desc]bool{
			boards: true, playing: !b.Over(), held: b.Held(), frozen: !b.Frozen.IsZero(), onBackup: backups[b.Feed],
		} {
			if holds {
				on[d]++
			}
		}
	}
	for _, d := range []*prometheus.Desc{boards, playing, held, frozen, onBackup} {
		out <- gauge(d, float64(on[d]))
	}
	for _, f := range show.Feeds {
		out <- gauge(feedBoards, float64(of[f.Name]), f.Name)
	}
}

func (m *Metrics) collectPrompts(out chan<- prometheus.Metric, shown map[relay.PromptKey]uint64) {
	for _, kind := range prompt.Kinds {
		for _, priority := range prompt.Priorities {
			out <- counter(prompts, shown[relay.PromptKey{Kind: kind, Priority: priority}], string(kind), string(priority))
		}
	}
}

func collectText(out chan<- prometheus.Metric, feed string, counts map[string]int) {
	for _, reason := range relay.FaultReasons {
		out <- gauge(textFaults, float64(counts[reason]), feed, reason)
	}
}

func (m *Metrics) collectJournal(out chan<- prometheus.Metric, failing bool) {
	if m.Journal == nil {
		return
	}
	j := m.Journal()
	out <- gauge(jFailing, truth(failing))
	out <- gauge(jBytes, float64(j.Bytes))
	out <- counter(jRecords, j.Records)
	out <- gauge(jUnwritten, float64(j.Unwritten))
	out <- counter(jLost, j.Lost)
	out <- counter(jDropped, j.Dropped)
	out <- gauge(jLimit, float64(j.Limit))
	if j.DiskFree >= 0 {
		out <- gauge(jFree, float64(j.DiskFree))
	}
}

func (m *Metrics) collectFeed(out chan<- prometheus.Metric, f *relay.Feed, faults map[relay.FaultKey]uint64) {
	out <- gauge(feedAnswer, unix(f.LastGood), f.Name)
	out <- gauge(feedNews, unix(f.LastNew), f.Name)
	out <- gauge(hidden, float64(f.Hidden), f.Name)
	out <- gauge(feedLate, f.Learnt.Late().Seconds(), f.Name)
	out <- errorsOf(f)
	for _, state := range []relay.FeedState{relay.FeedWaiting, relay.FeedOK, relay.FeedLate, relay.FeedStale} {
		out <- gauge(feedState, truth(f.State == state), f.Name, string(state))
	}
	for _, reason := range m.Reasons {
		out <- counter(feedFaults, faults[relay.FaultKey{Feed: f.Name, Reason: reason}], f.Name, reason)
	}
}

func errorsOf(f *relay.Feed) prometheus.Metric {
	e, buckets := f.Learnt.Errors, make(map[float64]uint64, len(relay.ErrorBounds))
	for i, bound := range relay.ErrorBounds {
		buckets[bound.Seconds()] = e.Buckets[i]
	}
	return prometheus.MustNewConstHistogram(clockError, e.Count, e.Sum.Seconds(), buckets, f.Name)
}

func (m *Metrics) collectPages(out chan<- prometheus.Metric) {
	if m.Pages == nil {
		return
	}
	pages := m.Pages()
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

// truth is how a condition is exported.
func truth(holds bool) float64 {
	if holds {
		return 1
	}
	return 0
}

func unix(t time.Time) float64 {
	if t.IsZero() {
		return 0
	}
	return float64(t.UnixMilli()) / 1000
}
