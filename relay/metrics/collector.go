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
	clockError  = desc("clock_error_seconds", "By how much the next reading showed the running clock to be wrong, at least: what the receipts allow is no error.", "feed")
	feedLate    = desc("feed_usual_lateness_seconds", "How long after a move the feed usually tells of it, beyond its least delay, as learnt; 0 while it is not known.", "feed")
	textFaults  = desc("feed_text_faults", "What of the feed's games, as they stand now, could not be taken as it is.", "feed", "reason")
	olderStates = desc("feed_older_states_total", "Times that a feed jumped back to an older state of a game.")
	switches    = desc("feed_switches_total", "Times that a board turned to another feed.")
	byHand      = desc("entries_by_hand_total", "Entries of the producer that were taken.")
	atPanel     = desc("panel_acts_total", "Acts of co-hosts at the panel that were done.")
	atDesk      = desc("desk_acts_total", "Acts of commentators at the desk that were done.")
	questions   = desc("questions_open", "Boards where the feed and an entry differ, and the producer is asked.")
	jFailing    = desc("journal_failing", "1 while the journal cannot be written.")
	jBytes      = desc("journal_bytes", "Size of the journal's files.")
	jRecords    = desc("journal_records_total", "Records written to the journal.")
	jCommits    = desc("journal_commits_total", "Commits of the journal, each with a sync.")
	jCommit     = desc("journal_last_commit_seconds", "How long the last commit took.")
	jUnwritten  = desc("journal_unwritten", "Records that wait in memory because the journal cannot be written.")
	jDropped    = desc("journal_dropped_total", "Records dropped, the oldest first, to keep the journal's size.")
	hidden      = desc("games_hidden", "Games of the feed's last packet for which the show has no board.", "feed")
	boards      = desc("boards", "Boards of the show.")
	refGames    = desc("reference_games", "Games of the reference attached, 0 for none.")
	pagesNow    = desc("pages", "Pages connected.", "page")
	superseded  = desc("page_revisions_superseded_total", "Revisions that a slow page skipped because a newer one was there.")
	dropped     = desc("pages_dropped_total", "Pages dropped because they took a frame too slowly.")
	pagesFull   = desc("pages_refused_total", "Pages refused because too many were connected.")
	pastReach   = desc("past_seconds", "How far back the past reaches that scenes are shown which are held back, in show time.")
	pastStates  = desc("past_states", "States of boards kept of that past.")
	pastThinned = desc("past_thinned_total", "Shows left out of that past because there was more than is kept: scenes with a long hold are sent some states late.")
)

// Describe sends every description.
func (m *Metrics) Describe(out chan<- *prometheus.Desc) {
	for _, d := range []*prometheus.Desc{
		feedAnswer, feedNews, feedState, feedFaults, packets, plies, corrections, tellChanges, alerts, hidden, boards,
		clockError, feedLate, refGames,
		textFaults, olderStates, switches, byHand, atPanel, atDesk, questions, jFailing, jBytes, jRecords, jCommits, jCommit, jUnwritten, jDropped,
		pagesNow, superseded, dropped, pagesFull, pastReach, pastStates, pastThinned,
	} {
		out <- d
	}
}

// Collect reads the show as it is now.
func (m *Metrics) Collect(out chan<- prometheus.Metric) {
	show := m.Relay.Show()
	for _, f := range show.Feeds {
		m.collectFeed(out, f, show.Totals.Faults)
		collectText(out, f.Name, show.Unread(f.Name))
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
	out <- gauge(boards, float64(len(show.Boards)))
	out <- gauge(questions, float64(show.Questions()))
	out <- gauge(refGames, float64(show.Reference.Games))
	m.collectPages(out)
	past := m.Relay.History()
	out <- gauge(pastReach, past.Reach.Seconds())
	out <- gauge(pastStates, float64(past.States))
	out <- counter(pastThinned, past.Thinned)
	m.collectJournal(out, show.Journal != "")
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
	value := 0.0
	if failing {
		value = 1
	}
	out <- gauge(jFailing, value)
	out <- gauge(jBytes, float64(j.Bytes))
	out <- counter(jRecords, j.Records)
	out <- counter(jCommits, j.Commits)
	out <- gauge(jCommit, j.LastCommit.Seconds())
	out <- gauge(jUnwritten, float64(j.Unwritten))
	out <- counter(jDropped, j.Dropped)
}

func (m *Metrics) collectFeed(out chan<- prometheus.Metric, f *relay.Feed, faults map[relay.FaultKey]uint64) {
	out <- gauge(feedAnswer, unix(f.LastGood), f.Name)
	out <- gauge(feedNews, unix(f.LastNew), f.Name)
	out <- gauge(hidden, float64(f.Hidden), f.Name)
	out <- gauge(feedLate, f.Learnt.Late().Seconds(), f.Name)
	out <- errorsOf(f)
	for _, state := range []relay.FeedState{relay.FeedWaiting, relay.FeedOK, relay.FeedLate, relay.FeedStale} {
		value := 0.0
		if f.State == state {
			value = 1
		}
		out <- gauge(feedState, value, f.Name, string(state))
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

func unix(t time.Time) float64 {
	if t.IsZero() {
		return 0
	}
	return float64(t.UnixMilli()) / 1000
}
