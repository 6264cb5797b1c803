package main

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"clocktell/relay"
	"clocktell/relay/clock"
)

// checkDuring holds the show against what the row wants while the fault lasts.
func (s *faultScene) checkDuring(show *relay.Show) {
	s.t.Helper()
	row, want := s.row, &s.row.want
	good, bad := duringPlies, s.during()
	if want.reason != "" {
		good, bad = beforePlies, s.before()
	}
	s.checkBoard(s.good(show), goodWhite, goodBlack, goodLine[:good], nil)
	shows := s.moves()[:bad]
	if want.shows != "" {
		shows = strings.Fields(want.shows)
	}
	s.checkBoard(s.bad(show), badWhite, badBlack, shows, want.odd)
	if got, result := s.bad(show).Result, orElse(want.result, "*"); got != result {
		s.t.Errorf("result %s, want %s", got, result)
	}
	if len(show.Boards) != 2 {
		s.t.Errorf("%d boards, want 2: %s", len(show.Boards), told(show))
	}
	s.checkFault(show)
	s.checkReading(show)
	s.checkNotes(show, want.notes)
	if verdict, _ := show.Verdict(); !strings.Contains(verdict, want.verdict) {
		s.t.Errorf("health says %q, want %q", verdict, want.verdict)
	}
	if !want.loose {
		s.checkMetrics(want.unread)
	}
	if row.want.also != nil {
		if wrong := row.want.also(s, show); wrong != "" {
			s.t.Error(wrong)
		}
	}
}

func orElse(text, otherwise string) string {
	if text == "" {
		return otherwise
	}
	return text
}

// checkAfter looks whether anything is left of the fault.
func (s *faultScene) checkAfter(show *relay.Show) {
	s.t.Helper()
	s.checkBoard(s.bad(show), badWhite, badBlack, s.moves(), nil)
	s.checkBoard(s.good(show), goodWhite, goodBlack, goodLine, nil)
	for _, b := range show.Boards {
		if b.Correction != nil || b.Held() || b.Fault != "" {
			s.t.Errorf("afterwards board %d: correction %+v, held %v, fault %q", b.Number, b.Correction, b.Held(), b.Fault)
		}
	}
	if f := show.Feeds[0]; f.State != relay.FeedOK || f.Alert != nil || f.Faults != 0 || len(f.Reading) != 0 || f.Games != 2 || f.Hidden != 0 {
		s.t.Errorf("afterwards the feed: %s", feedTold(f))
	}
	if len(show.Boards) != 2 {
		s.t.Errorf("afterwards %d boards, want 2: %s", len(show.Boards), told(show))
	}
	if hasPrompt(show, relay.AlertFeedStale) {
		s.t.Error("afterwards a prompt still says that the feed is stale")
	}
	if verdict, _ := show.Verdict(); verdict != "Viewers are fine: every feed answers." {
		s.t.Errorf("afterwards health says %q", verdict)
	}
	s.checkNotes(show, s.row.want.notes, s.closingNotes()...)
	s.checkMetrics(nil)
	if s.row.want.late != nil {
		if wrong := s.row.want.late(s, show); wrong != "" {
			s.t.Error(wrong)
		}
	}
}

// checkBoard looks for players, moves, position, and clocks; those at odd plies must
// not be the right ones.
func (s *faultScene) checkBoard(b *relay.Board, white, black string, moves []string, odd []int) {
	s.t.Helper()
	if got := b.Players[0].Name + " – " + b.Players[1].Name; got != white+" – "+black {
		s.t.Errorf("board %d shows %q, want %q", b.Number, got, white+" – "+black)
	}
	var sans []string
	for i := range b.Plies {
		sans = append(sans, b.Plies[i].SAN)
	}
	if !slices.Equal(sans, moves) {
		s.t.Errorf("board %d shows %v, want %v", b.Number, sans, moves)
		return
	}
	if got, want := threeFields(b.FEN), fenAfter(s.t, moves); got != want {
		s.t.Errorf("board %d: position %s, want %s", b.Number, got, want)
	}
	for i := range b.Plies {
		want := clock.Value{D: leftAfter(i + 1), OK: true}
		right := b.Plies[i].Reading.Left == want && b.Plies[i].Misread == "" && b.Plies[i].Timed.Doubt == ""
		if right == slices.Contains(odd, i+1) {
			s.t.Errorf("board %d, ply %d: clock %+v (%s, %s), want %v; it should be odd: %v", b.Number, i+1,
				b.Plies[i].Reading.Left, b.Plies[i].Misread, b.Plies[i].Timed.Doubt, want.D, !right)
		}
	}
	if wanted := s.row.want.taken > 0; (b.Correction != nil) && !wanted {
		s.t.Errorf("board %d shows a correction that did not happen: %+v", b.Number, b.Correction)
	}
}

// checkFault looks whether health names what is wrong with the feed's answers.
func (s *faultScene) checkFault(show *relay.Show) {
	s.t.Helper()
	fault, want := show.Feeds[0].LastFault, &s.row.want
	if want.reason == "" {
		if fault != nil {
			s.t.Errorf("a fault is named: %+v", fault)
		}
		return
	}
	if fault == nil || fault.Reason != string(want.reason) || !strings.Contains(fault.Text, want.says) || want.says == "" {
		s.t.Errorf("fault %+v, want %s that says %q", fault, want.reason, want.says)
	}
}

// checkReading looks whether health names what could not be read, and nothing else.
func (s *faultScene) checkReading(show *relay.Show) {
	s.t.Helper()
	got, want := show.Feeds[0].Reading, s.row.want.reading
	if s.row.want.loose {
		if len(got) == 0 || len(show.Unread(arenaFeed)) == 0 {
			s.t.Error("nothing is named")
		}
		return
	}
	if !slices.EqualFunc(got, want, strings.Contains) {
		s.t.Errorf("health could not read %q, want %q", got, want)
	}
}

// ordinaryNotes are lines of the show log that mean nothing unusual.
var ordinaryNotes = []relay.NoteKind{
	relay.NoteGame, relay.NoteMoves, relay.NoteRaised, relay.NoteCleared, relay.NoteTell,
}

// closingNotes are lines that the recovery may add.
func (s *faultScene) closingNotes() []relay.NoteKind {
	closing := []relay.NoteKind{relay.NoteReturned, relay.NoteOlderOver}
	if len(s.row.want.odd) > 0 {
		closing = append(closing, relay.NoteClock) // of the clock that was odd
	}
	return closing
}

// checkNotes holds the kinds of the show log's unusual lines against those that there
// must be, and those that there may be besides.
func (s *faultScene) checkNotes(show *relay.Show, want []relay.NoteKind, may ...relay.NoteKind) {
	s.t.Helper()
	got := make(map[relay.NoteKind]string)
	for _, n := range show.Log.After(0) {
		if !slices.Contains(ordinaryNotes, n.Kind) {
			got[n.Kind] += fmt.Sprintf("board %d: %q, %q %s; ", n.Board, n.Was, n.Is, n.Text)
		}
	}
	for _, kind := range want {
		if got[kind] == "" {
			s.t.Errorf("the show log has no line %q", kind)
		}
		delete(got, kind)
	}
	for _, kind := range may {
		delete(got, kind)
	}
	for _, kind := range slices.Sorted(maps.Keys(got)) {
		s.t.Errorf("the show log tells %q: %s", kind, got[kind])
	}
}

// checkMetrics scrapes, and holds every fault that a feed can have against the row.
func (s *faultScene) checkMetrics(unread map[string]int) {
	s.t.Helper()
	series, want := s.metrics(), &s.row.want
	equal := func(name string, value int) {
		if got, found := series[name]; !found || got != fmt.Sprint(value) {
			s.t.Errorf("metric %s is %q, want %d", name, got, value)
		}
	}
	for _, reason := range reasons() {
		name := fmt.Sprintf("clocktell_feed_faults_total{feed=%q,reason=%q}", arenaFeed, reason)
		if reason != string(want.reason) {
			equal(name, 0)
		} else if got, found := series[name]; !found || got == "0" {
			s.t.Errorf("metric %s is %q, want more", name, got)
		}
	}
	for _, reason := range relay.FaultReasons {
		equal(fmt.Sprintf("clocktell_feed_text_faults{feed=%q,reason=%q}", arenaFeed, reason), unread[reason])
	}
	equal("clocktell_feed_older_states_total", want.older)
	equal("clocktell_corrections_total", want.taken)
}

func told(show *relay.Show) string {
	text := feedTold(show.Feeds[0])
	for _, b := range show.Boards {
		text += fmt.Sprintf("; board %d %s %s", b.Number, b.Players[0].Name, b.Result)
		for i := range b.Plies {
			text += " " + b.Plies[i].SAN
		}
		text += " " + b.Fault
	}
	return text
}

func feedTold(f *relay.Feed) string {
	return fmt.Sprintf("%s, %d faults in a row, last %+v, could not read %q, %d games, %d hidden", f.State, f.Faults, f.LastFault, f.Reading, f.Games, f.Hidden)
}
