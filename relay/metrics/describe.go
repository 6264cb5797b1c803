package metrics

import "github.com/prometheus/client_golang/prometheus"

// described is every description made by desc.
var described []*prometheus.Desc

// desc describes a metric. Values of labels come from fixed lists and from the
// configuration, never from what a feed or a person writes: their number is bounded.
func desc(name, help string, labels ...string) *prometheus.Desc {
	d := prometheus.NewDesc("clocktell_"+name, help, labels, nil)
	described = append(described, d)
	return d
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
	jUnwritten  = desc("journal_unwritten", "Records that wait in memory because the journal cannot be written.")
	jLost       = desc("journal_lost_total", "Records that were never written: no room in memory either, or a broken file.")
	jDropped    = desc("journal_dropped_total", "Records dropped, the oldest first, to keep the journal's size.")
	jLimit      = desc("journal_limit_bytes", "Size below which the journal keeps its files.")
	jFree       = desc("journal_disk_free_bytes", "Room left on the disk of the journal.")
	hidden      = desc("games_hidden", "Games of the feed's last packet for which the show has no board.", "feed")
	boards      = desc("boards", "Boards of the show.")
	playing     = desc("boards_playing", "Boards whose game is on.")
	held        = desc("boards_held", "Boards whose clocks are held because nobody knows whose clock runs.")
	frozen      = desc("boards_frozen", "Boards that the producer has frozen.")
	onBackup    = desc("boards_on_backup", "Boards that follow a feed which stands in for another.")
	feedBoards  = desc("feed_boards", "Boards that follow the feed.", "feed")
	prompts     = desc("prompts_total", "Prompts that the panel was offered.", "kind", "priority")
	build       = desc("build_info", "1, labelled with what runs.", "version", "protocol", "goversion")
	refGames    = desc("reference_games", "Games of the reference attached, 0 for none.")
	refFailing  = desc("reference_failing", "1 while the reference that the configuration names cannot be used.")
	pagesNow    = desc("pages", "Pages connected.", "page")
	superseded  = desc("page_revisions_superseded_total", "Revisions that a slow page skipped because a newer one was there.")
	dropped     = desc("pages_dropped_total", "Pages dropped because they took nothing for a while, though there was something for them.")
	pagesFull   = desc("pages_refused_total", "Pages refused because too many were connected.")
	pastReach   = desc("past_seconds", "How far back the past reaches that scenes are shown which are held back, in show time.")
	pastStates  = desc("past_states", "States kept of that past: of each board, and of what is shown of all together.")
	pastBytes   = desc("past_bytes", "Memory that these take, about.")
	pastThinned = desc("past_thinned_total", "States left out of that past because there was more than is kept: scenes with a long hold are sent some states late.")
)

// Describe sends every description.
func (m *Metrics) Describe(out chan<- *prometheus.Desc) {
	for _, d := range described {
		out <- d
	}
	m.polls.Describe(out)
}
