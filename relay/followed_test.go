package relay_test

import (
	"slices"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// feedOf returns a feed as it is.
func feedOf(t *testing.T, s *relaytest.Stage, name string) *relay.Feed {
	t.Helper()
	i := slices.IndexFunc(s.Show.Feeds, func(f *relay.Feed) bool { return f.Name == name })
	if i < 0 {
		t.Fatalf("there is no feed %s", name)
	}
	return s.Show.Feeds[i]
}

// TestFollowed: the producer sees from when to when each feed was followed, over a
// failover and back.
func TestFollowed(t *testing.T) {
	s := withBackup(t)
	began := s.Show.At
	s.SameFrom(10*time.Second, relaytest.BackupName)
	s.TakeFrom(relaytest.BackupName, at(11))
	s.Take(at(11))
	s.SameFrom(25*time.Second, relaytest.FeedName, relaytest.BackupName)
	primary, backup := feedOf(t, s, relaytest.FeedName).Followed, feedOf(t, s, relaytest.BackupName).Followed
	if len(primary) != 2 || len(backup) != 1 {
		t.Fatalf("the primary was followed %d times, the backup %d; want twice and once", len(primary), len(backup))
	}
	if primary[0].From.After(began) || !primary[0].To.Equal(backup[0].From) || !backup[0].To.Equal(primary[1].From) || !primary[1].To.IsZero() {
		t.Errorf("followed %v, the backup %v: one should end where the other begins, and the last not at all", primary, backup)
	}
}

// TestFollowedForgets: what is over for more than ten minutes is no longer told when
// the next change comes.
func TestFollowedForgets(t *testing.T) {
	s := withBackup(t)
	for range 3 {
		s.SameFrom(10*time.Second, relaytest.BackupName)
		s.SameFrom(25*time.Second, relaytest.FeedName, relaytest.BackupName)
	}
	if got := len(feedOf(t, s, relaytest.BackupName).Followed); got != 3 {
		t.Fatalf("the backup was followed %d times, want 3", got)
	}
	s.SameFrom(15*time.Minute, relaytest.FeedName, relaytest.BackupName)
	s.SameFrom(10*time.Second, relaytest.BackupName)
	if got := len(feedOf(t, s, relaytest.BackupName).Followed); got != 1 {
		t.Errorf("%d times are told after a quarter of an hour, want the newest alone", got)
	}
}

// TestClockErrorsAreKept: every reading that tells of the running clock leaves a figure,
// for ten minutes.
func TestClockErrorsAreKept(t *testing.T) {
	s := relaytest.NewStage()
	for n := 1; n <= 14; n++ {
		s.Take(at(n))
		s.Same(time.Second)
	}
	told := s.Board(1).Errors.Count
	if told == 0 || len(s.Show.ClockErrors) != told {
		t.Fatalf("%d errors are kept of %d readings that told", len(s.Show.ClockErrors), told)
	}
	for _, e := range s.Show.ClockErrors {
		if e.Board != 1 || e.At.Before(s.Show.Began) || e.By < 0 {
			t.Errorf("kept %+v", e)
		}
	}
	s.Same(15 * time.Minute)
	s.Take(at(15))
	if got, told := len(s.Show.ClockErrors), s.Board(1).Errors.Count-told; got != told {
		t.Errorf("%d errors are kept after a quarter of an hour, want the %d since", got, told)
	}
}
