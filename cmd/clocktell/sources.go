package main

import (
	"fmt"
	"io"
	"net/http"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/config"
	"clocktell/relay/feed"
)

// planOf says what the show is to be, its times in show time.
func planOf(c config.Config, tb relay.Timebase) relay.Plan {
	plan := relay.Plan{
		Title: c.Show.Title, MaxBoards: c.Show.MaxBoards, Control: controlOf(c), Language: c.Show.Language, CaptionFor: inShow(c.Show.Caption, tb),
		Match: c.Match.Plan(),
	}
	for _, f := range c.Feeds {
		plan.Feeds = append(plan.Feeds, feedPlan(f, tb))
	}
	return plan
}

func controlOf(c config.Config) clock.Control {
	control, err := clock.ParseControl(c.Show.TimeControl)
	if err != nil {
		return clock.Control{} // "" is no control; the configuration has checked the rest
	}
	return control
}

// clocksOf says what is known of a feed's clocks. The configuration has been checked, so
// an error means that a key is empty.
func clocksOf(f config.Feed) relay.ClockPlan {
	var plan relay.ClockPlan
	plan.Control, _ = clock.ParseControl(f.TimeControl)
	plan.Delay, _ = clock.ParseDelay(f.DelayKind, f.Delay.Duration)
	for side, text := range []string{f.WhiteClock, f.BlackClock} {
		if d, err := clock.ParseReading(text); err == nil {
			plan.Starts[side] = clock.Value{D: d, OK: true}
		}
	}
	switch f.ClockRead {
	case config.ReadBefore:
		plan.Reads = relay.ReadsBefore
	case config.ReadAfter:
		plan.Reads = relay.ReadsAfter
	}
	return plan
}

// feedPlan says a feed's times in show time.
func feedPlan(f config.Feed, tb relay.Timebase) relay.FeedPlan {
	plan := relay.FeedPlan{
		Name: f.Name, Kind: f.Kind(), BackupOf: f.BackupOf,
		Every: inShow(f.Every, tb), Late: inShow(f.LateAfter, tb), Stale: inShow(f.StaleAfter, tb), Clocks: clocksOf(f),
	}
	switch plan.Kind {
	case config.KindHTTP, config.KindGrowing:
		plan.Address = feed.Shown(f.URL)
	case config.KindFile, config.KindFolder:
		plan.Address = f.File + f.Folder // one of them is empty
		plan.Every = inShow(config.Duration{Duration: time.Second}, tb)
	case config.KindPush:
		plan.Address = "/push/" + f.Name
	case config.KindStdin:
		plan.Address = "standard input"
	}
	return plan
}

func inShow(d config.Duration, tb relay.Timebase) time.Duration {
	return time.Duration(float64(d.Duration) * tb.Rate)
}

// addSource makes the source of a feed.
func (st *station) addSource(f config.Feed, stdin io.ReadCloser) error {
	source, err := st.sources.add(f, func() (feed.Source, error) {
		return newSource(f, st.time, stdin, func() bool { return st.relay.Show().Playing(f.Name) })
	})
	if err != nil {
		return err
	}
	if push, ok := source.(http.Handler); ok {
		st.push[f.Name] = push
	}
	return nil
}

// newSource returns the source of a feed; busy tells whether one of its games is on.
func newSource(f config.Feed, tb relay.Timebase, stdin io.ReadCloser, busy func() bool) (feed.Source, error) {
	switch f.Kind() {
	case config.KindFile:
		return feed.NewFile(feed.FileOptions{Path: f.File, MaxBytes: f.MaxBytes, Check: relay.HoldsGames, Now: tb.Now})
	case config.KindFolder:
		return feed.NewFolder(feed.FolderOptions{Path: f.Folder, MaxBytes: f.MaxBytes, Check: relay.HoldsGames, Now: tb.Now})
	case config.KindPush:
		return feed.NewPush(feed.PushOptions{
			Name: f.Name, Token: f.Token, MaxBytes: f.MaxBytes, Timeout: f.Timeout.Duration, Check: relay.HoldsGames, Now: tb.Now,
		})
	case config.KindStdin:
		return feed.NewReader(feed.ReaderOptions{From: stdin, Every: f.Every.Duration, MaxBytes: f.MaxBytes, Check: relay.HoldsGames, Now: tb.Now})
	case config.KindGrowing:
		return feed.NewGrowing(feed.GrowingOptions{HTTPOptions: httpOptions(f, tb, nil), QuietMost: f.MaxWait.Duration})
	case config.KindHTTP:
		return feed.NewHTTP(httpOptions(f, tb, busy))
	}
	return nil, fmt.Errorf("no kind of source") // the configuration has been checked
}

func httpOptions(f config.Feed, tb relay.Timebase, busy func() bool) feed.HTTPOptions {
	return feed.HTTPOptions{
		URL: f.URL, Every: f.Every.Duration, Idle: f.EveryIdle.Duration, Timeout: f.Timeout.Duration, MaxBytes: f.MaxBytes,
		MaxWait: f.MaxWait.Duration, Bearer: f.Token, User: f.User, Password: f.Password, Check: relay.HoldsGames, Now: tb.Now, Busy: busy,
	}
}

// note tells how a feed is watched, "" where there is nothing to tell.
func (st *station) note(name string) string {
	if watched, ok := st.sources.of(name).(interface{ Note() string }); ok {
		return watched.Note()
	}
	return ""
}

func reasons() []string {
	words := make([]string, len(feed.Reasons))
	for i, reason := range feed.Reasons {
		words[i] = string(reason)
	}
	return words
}
