package relay

import (
	"fmt"
	"strings"
)

// Verdict says in one sentence whether the viewers see what they should, and
// whether nothing needs doing. The worst comes first.
func (s *Show) Verdict() (string, bool) {
	for _, say := range []func() string{
		s.nothingYet, s.silentFeeds, s.brokenBoards, s.openQuestions, s.failingBus, s.failingJournal, s.backupsFollowed, s.failingFeeds, s.hiddenGames, s.frozenBoards,
	} {
		if text := say(); text != "" {
			return text, false
		}
	}
	if names := s.feedsThat(func(f *Feed) bool { return f.State == FeedWaiting }); len(names) > 0 {
		return fmt.Sprintf("Waiting for the first answer of %s.", feedWords(names)), true
	}
	return "Viewers are fine: every feed answers.", true
}

// followed reports whether viewers see anything of a feed: boards that follow it, or
// nothing because it never had any.
func (s *Show) followed(f *Feed) bool {
	return f.LastGood.IsZero() && len(s.Boards) == 0 || len(s.followersOf(f.Name)) > 0 || s.line(f.Name) == f.Name && !s.backedUp(f.Name)
}

// backedUp reports whether the boards that have a feed's games all follow another.
func (s *Show) backedUp(feed string) bool {
	for _, f := range s.Feeds {
		if f.Name != feed && s.line(f.Name) == s.line(feed) && f.State == FeedOK {
			return true
		}
	}
	return false
}

func (s *Show) nothingYet() string {
	names := s.feedsThat(func(f *Feed) bool { return f.State == FeedStale && f.LastGood.IsZero() && s.followed(f) })
	switch {
	case len(names) == 0:
		return ""
	case len(s.Boards) == 0:
		return fmt.Sprintf("Nothing to show yet: %s never answered.", feedWords(names))
	}
	return fmt.Sprintf("Viewers see the other boards, but %s never answered.", feedWords(names))
}

func (s *Show) silentFeeds() string {
	names := s.feedsThat(func(f *Feed) bool { return f.State == FeedStale && s.followed(f) })
	if len(names) == 0 {
		return ""
	}
	return fmt.Sprintf("Viewers see the last good position: nothing from %s, clocks are held.", feedWords(names))
}

// backupsFollowed says that a silent feed costs the viewers nothing.
func (s *Show) backupsFollowed() string {
	if names := s.feedsThat(func(f *Feed) bool { return f.State == FeedStale && f.BackupOf == "" }); len(names) > 0 {
		return fmt.Sprintf("Viewers are fine: a backup is followed, but nothing comes from %s.", feedWords(names))
	}
	if names := s.feedsThat(func(f *Feed) bool { return f.State == FeedStale }); len(names) > 0 {
		return fmt.Sprintf("Viewers are fine, but nothing comes from the backup, %s.", feedWords(names))
	}
	return ""
}

func (s *Show) openQuestions() string {
	if numbers := s.boardsThat(func(b *Board) bool { return b.Question != nil }); len(numbers) > 0 {
		return fmt.Sprintf("Board %s: the feed and an entry by hand differ; say who is right.", strings.Join(numbers, ", "))
	}
	return ""
}

func (s *Show) failingJournal() string {
	if s.Journal != "" {
		return "Viewers are fine, but nothing is being kept: " + s.Journal
	}
	return ""
}

func (s *Show) failingBus() string {
	if s.Bus.Wrong != "" {
		return "The show is not shared as it should be: " + s.Bus.Wrong
	}
	return ""
}

func (s *Show) frozenBoards() string {
	if numbers := s.boardsThat(func(b *Board) bool { return !b.Frozen.IsZero() }); len(numbers) > 0 {
		return fmt.Sprintf("Board %s is frozen: only what you enter is shown until you let it go on.", strings.Join(numbers, ", "))
	}
	return ""
}

func (s *Show) boardsThat(hold func(*Board) bool) []string {
	var numbers []string
	for _, b := range s.Boards {
		if hold(b) {
			numbers = append(numbers, fmt.Sprint(b.Number))
		}
	}
	return numbers
}

func (s *Show) brokenBoards() string {
	numbers := s.boardsThat(func(b *Board) bool { return b.Fault != "" && !b.gone() })
	switch len(numbers) {
	case 0:
		return ""
	case 1:
		return fmt.Sprintf("Board %s stands still: its feed has something that cannot be played.", numbers[0])
	}
	return fmt.Sprintf("Boards %s stand still: their feeds have something that cannot be played.", strings.Join(numbers, ", "))
}

func (s *Show) failingFeeds() string {
	if names := s.feedsThat(func(f *Feed) bool { return f.State == FeedLate }); len(names) > 0 {
		return fmt.Sprintf("Viewers are fine so far, but nothing new is heard of %s.", feedWords(names))
	}
	if names := s.feedsThat(func(f *Feed) bool { return f.State == FeedWaiting && f.Faults > 0 }); len(names) > 0 {
		return fmt.Sprintf("No answer yet of %s: see its last fault.", feedWords(names))
	}
	return ""
}

func (s *Show) hiddenGames() string {
	for _, f := range s.Feeds {
		if f.Hidden > 0 {
			return fmt.Sprintf("%d games of feed %s are not shown: max_boards allows %d boards.", f.Hidden, f.Name, s.plan.MaxBoards)
		}
	}
	return ""
}

func (s *Show) feedsThat(holds func(*Feed) bool) []string {
	var names []string
	for _, f := range s.Feeds {
		if holds(f) {
			names = append(names, f.Name)
		}
	}
	return names
}

// feedWords says which feeds: "feed arena", "feeds arena and hall".
func feedWords(names []string) string {
	if len(names) == 1 {
		return "feed " + names[0]
	}
	last := len(names) - 1
	return "feeds " + strings.Join(names[:last], ", ") + " and " + names[last]
}
