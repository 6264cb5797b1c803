package relay

import (
	"fmt"
	"strings"
)

// Verdict says in one sentence whether the viewers see what they should, and
// whether nothing needs doing. The worst comes first.
func (s *Show) Verdict() (string, bool) {
	for _, say := range []func() string{s.nothingYet, s.silentFeeds, s.brokenBoards, s.failingFeeds, s.hiddenGames} {
		if text := say(); text != "" {
			return text, false
		}
	}
	if names := s.feedsThat(func(f *Feed) bool { return f.State == FeedWaiting }); len(names) > 0 {
		return fmt.Sprintf("Waiting for the first answer of %s.", feedWords(names)), true
	}
	return "Viewers are fine: every feed answers.", true
}

func (s *Show) nothingYet() string {
	names := s.feedsThat(func(f *Feed) bool { return f.State == FeedStale && f.LastGood.IsZero() })
	switch {
	case len(names) == 0:
		return ""
	case len(s.Boards) == 0:
		return fmt.Sprintf("Nothing to show yet: %s never answered.", feedWords(names))
	}
	return fmt.Sprintf("Viewers see the other boards, but %s never answered.", feedWords(names))
}

func (s *Show) silentFeeds() string {
	names := s.feedsThat(func(f *Feed) bool { return f.State == FeedStale })
	if len(names) == 0 {
		return ""
	}
	return fmt.Sprintf("Viewers see the last good position: nothing from %s, clocks are held.", feedWords(names))
}

func (s *Show) brokenBoards() string {
	var numbers []string
	for _, b := range s.Boards {
		if b.Fault != "" {
			numbers = append(numbers, fmt.Sprint(b.Number))
		}
	}
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
