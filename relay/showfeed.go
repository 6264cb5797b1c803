package relay

import "clocktell/relay/prompt"

func (s *Show) onFeed(name string, step func(*Feed) *Feed) {
	for i, f := range s.Feeds {
		if f.Name == name {
			s.setFeed(i, step(f))
		}
	}
}

// feed returns the feed of that name as it is. One that the plan no longer has is
// silent; a board that has none, because it was begun by hand, waits for nobody.
func (s *Show) feed(name string) *Feed {
	for _, f := range s.Feeds {
		if f.Name == name {
			return f
		}
	}
	if name == "" {
		return &Feed{State: FeedOK}
	}
	return &Feed{State: FeedStale, Started: s.Began}
}

// setFeed puts a feed's next state in its place, with what follows from it: its
// boards may have to follow another, and its alert becomes a prompt.
func (s *Show) setFeed(i int, next *Feed) {
	was := s.Feeds[i]
	s.Feeds[i] = next
	s.FeedsRev++
	if was.State != next.State {
		s.SourcesRev++ // what is thought of its offers
	}
	if was.State != next.State && was.State != FeedWaiting {
		s.note(Noted{Kind: NoteFeedState, Was: string(was.State), Is: string(next.State), Text: next.Name})
	}
	s.raise(s.alertsOf(was), s.alertsOf(next), juncture{})
	s.followAll(next.Name)
}

// followAll lets every board that a feed has a game of follow what it should.
func (s *Show) followAll(feed string) {
	f := s.feed(feed)
	for i, b := range s.Boards {
		if b.offer(feed) != nil && !b.upToDate(f) {
			s.follow(i)
		}
	}
}

// alertsOf returns what a feed raises. A feed that never had a board is the
// producer's affair: nobody on the air sees anything of it.
func (s *Show) alertsOf(f *Feed) []Alert {
	if f.Alert == nil {
		return nil
	}
	alert := *f.Alert
	if len(s.followersOf(f.Name)) == 0 {
		alert.Say.Priority = prompt.Silent
	}
	return []Alert{alert}
}
