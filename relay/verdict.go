package relay

import "fmt"

// Verdict says in one sentence whether the viewers see what they should, and
// whether nothing needs doing.
func (s *Show) Verdict() (string, bool) {
	var worst *Feed
	for _, f := range s.Feeds {
		if worst == nil || rank(f.State) > rank(worst.State) {
			worst = f
		}
	}
	switch {
	case worst == nil:
		return "No feed is planned.", false
	case worst.State == FeedStale && worst.LastGood.IsZero():
		return fmt.Sprintf("Nothing to show yet: feed %s has never answered.", worst.Name), false
	case worst.State == FeedStale:
		return fmt.Sprintf("Viewers see the last good position: feed %s is silent, clocks are held.", worst.Name), false
	case worst.State == FeedLate:
		return fmt.Sprintf("Viewers are fine so far, but feed %s is late.", worst.Name), false
	case worst.State == FeedWaiting:
		return fmt.Sprintf("Waiting for the first answer of feed %s.", worst.Name), true
	}
	for _, f := range s.Feeds {
		if f.Hidden > 0 {
			return fmt.Sprintf("%d games of feed %s are not shown: max_boards allows %d boards.", f.Hidden, f.Name, s.plan.MaxBoards), false
		}
	}
	for _, b := range s.Boards {
		if b.Fault != "" {
			return fmt.Sprintf("Board %d stands still: its feed has a move that cannot be played.", b.Number), false
		}
	}
	return "Viewers are fine: every feed answers.", true
}

func rank(state FeedState) int {
	switch state {
	case FeedWaiting:
		return 1
	case FeedLate:
		return 2
	case FeedStale:
		return 3
	}
	return 0
}
