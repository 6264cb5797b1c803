package main

import (
	"context"
	"fmt"
	"net/http"
	"os"
	"time"

	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/feed"
	"clocktell/relay/pgn"
)

// once is a sink that keeps the first thing heard and stops the source.
type once struct {
	stop   context.CancelFunc
	answer *feed.Answer
	fault  *feed.Fault
}

func (o *once) Answered(a feed.Answer) {
	if o.answer == nil && o.fault == nil {
		o.answer = &a
		o.stop()
	}
}

func (o *once) Failed(f feed.Fault) {
	if o.answer == nil && o.fault == nil {
		o.fault = &f
		o.stop()
	}
}

// checkFeed asks a feed once, and finds what is wrong with it, its games and its time.
func (k *checker) checkFeed(ctx context.Context, f config.Feed) {
	plan := feedPlan(f, relay.NewTimebase(1))
	checked := checkedFeed{Name: f.Name, Kind: plan.Kind, Address: plan.Address, Games: []checkedGame{}}
	defer func() { k.report.Feeds = append(k.report.Feeds, checked) }()
	switch plan.Kind {
	case config.KindPush:
		k.add(finding{Area: areaFeed, Feed: f.Name, State: stateFine, Text: fmt.Sprintf("is pushed to /push/%s while the show runs; nothing to ask now", f.Name)})
		return
	case config.KindStdin:
		k.add(finding{Area: areaFeed, Feed: f.Name, State: stateFine, Text: "standard input, read while the show runs"})
		return
	}
	checked.Asked = true
	heard, dates, err := k.ask(ctx, f)
	fails := finding{Area: areaFeed, Feed: f.Name, State: stateFails, Do: "without an answer the show has nothing to show of this feed: see that its address is right, and call whoever runs it"}
	switch {
	case err != nil:
		fails.Text, fails.Do = err.Error(), "correct the feed's keys in the configuration"
	case heard.fault != nil:
		fails.Text = heard.fault.Err.Error()
	case heard.answer == nil:
		fails.Text, fails.Do = "interrupted before an answer came", "check again"
	default:
		checked.Answered, checked.TookMs, checked.Bytes = true, heard.answer.Took.Milliseconds(), len(heard.answer.Body)
		k.checkGames(f, heard.answer, &checked)
		k.checkSkew(f.Name, dates, &checked)
		return
	}
	k.add(fails)
	k.checkSkew(f.Name, dates, &checked) // an error page has a date too
}

// ask waits for the first answer or fault of a feed.
func (k *checker) ask(ctx context.Context, f config.Feed) (*once, *dates, error) {
	tb, seen := relay.NewTimebase(1), &dates{now: k.now, next: http.DefaultTransport.(*http.Transport).Clone()}
	defer seen.next.CloseIdleConnections()
	var source feed.Source
	var err error
	options := httpOptions(f, tb, nil)
	options.Transport = seen
	switch f.Kind() {
	case config.KindHTTP:
		source, err = feed.NewHTTP(options)
	case config.KindGrowing:
		source, err = feed.NewGrowing(feed.GrowingOptions{HTTPOptions: options, QuietMost: f.MaxWait.Duration})
	default:
		source, err = newSource(f, tb, os.Stdin, nil)
	}
	if err != nil {
		return nil, seen, err
	}
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	heard := &once{stop: stop}
	return heard, seen, source.Run(ctx, heard)
}

// checkGames finds what is wrong with the games of an answer.
func (k *checker) checkGames(f config.Feed, a *feed.Answer, checked *checkedFeed) {
	games := pgn.Read(a.Body)
	told := finding{Area: areaFeed, Feed: f.Name, State: stateFine,
		Text: fmt.Sprintf("%s answered in %v with %d bytes, %d games", checked.Address, a.Took.Round(time.Millisecond), len(a.Body), len(games))}
	switch {
	case len(games) == 0:
		told.State, told.Do = stateFails, "there is no game in it: see that the address is that of the round"
	case len(games) > k.config.Show.MaxBoards:
		told.State, told.Do = stateWarning, fmt.Sprintf("only %d of them are shown: raise max_boards under [show]", k.config.Show.MaxBoards)
	}
	k.add(told)
	defaults := relay.Defaults{Control: controlOf(k.config), Clocks: clocksOf(f)}
	for i := range games {
		r := relay.Examine(&games[i], defaults)
		checked.Games = append(checked.Games, checkedGame{
			Number: i + 1, Good: r.Good(), White: r.White, Black: r.Black, Round: r.Round, Board: r.Table, Plies: r.Plies, Clocks: r.Clocks, TimeControl: r.Control,
			Faults: orEmpty(r.Faults), Doubts: orEmpty(r.Doubts), Notes: orEmpty(r.Notes), summary: r.Summary,
		})
		for _, fault := range r.Faults {
			k.add(finding{Area: areaGame, Feed: f.Name, Game: i + 1, State: stateFails, Text: fault, Do: "have the arena mend the game, or enter what is right by hand once the show runs"})
		}
		for _, doubt := range r.Doubts {
			k.add(finding{Area: areaGame, Feed: f.Name, Game: i + 1, State: stateWarning, Text: doubt, Do: "have the arena mend it, or say in the configuration how it is"})
		}
	}
}

// orEmpty lets JSON have a list where there is none.
func orEmpty(lines []string) []string { return append([]string{}, lines...) }
