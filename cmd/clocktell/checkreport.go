package main

import (
	"fmt"
	"io"
)

// checkFormat is the number of the JSON's shape. It grows when a field goes or changes
// its meaning, not when one is added.
const checkFormat = 1

// checkReport is what clocktell check tells. Its JSON is documented in the README.
type checkReport struct {
	Format   int           `json:"format"`
	Config   string        `json:"config"`   // the file
	Fine     bool          `json:"fine"`     // nothing would fail
	Failures int           `json:"failures"` // how many checks fail
	Warnings int           `json:"warnings"`
	Checks   []finding     `json:"checks"`
	Feeds    []checkedFeed `json:"feeds"` // those that were asked, or would have been
	Links    []checkedLink `json:"links"` // to open
}

// areas of findings.
const (
	areaConfig    = "configuration"
	areaPort      = "port"
	areaAccess    = "access" // tokens and certificate
	areaJournal   = "journal"
	areaDisk      = "disk"
	areaBus       = "bus"
	areaEngine    = "engine"
	areaReference = "reference"
	areaFeed      = "feed"
	areaGame      = "game"
	areaClock     = "clock" // of this machine against that of a feed's
)

// state says how a check went.
type state string

const (
	stateFine    state = "fine"
	stateWarning state = "warning" // viewers will see less than they could
	stateFails   state = "fails"   // the show would not start, or not show what it should
)

// finding is the outcome of one check.
type finding struct {
	Area  string `json:"area"`
	Feed  string `json:"feed"` // "" where it is of none
	Game  int    `json:"game"` // number in the feed's packet from 1; 0 where it is of none
	State state  `json:"state"`
	Text  string `json:"text"`
	Do    string `json:"do"` // what to do about it; "" when fine
}

// checkedFeed is what a feed answered.
type checkedFeed struct {
	Name     string        `json:"name"`
	Kind     string        `json:"kind"`    // as relay/config names them
	Address  string        `json:"address"` // without secrets
	Asked    bool          `json:"asked"`   // false: it comes by itself while the show runs
	Answered bool          `json:"answered"`
	TookMs   int64         `json:"took_ms"`
	Bytes    int           `json:"bytes"`
	Skew     *checkedSkew  `json:"skew"` // null where nothing tells the feed's time
	Games    []checkedGame `json:"games"`
}

// checkedGame is one game of a feed's answer.
type checkedGame struct {
	Number      int      `json:"number"`
	Good        bool     `json:"good"` // can be shown whole
	White       string   `json:"white"`
	Black       string   `json:"black"`
	Round       string   `json:"round"`
	Board       string   `json:"board"`
	Plies       int      `json:"plies"`
	Clocks      int      `json:"clocks"`       // plies with a clock
	TimeControl string   `json:"time_control"` // in words; "" unknown
	Faults      []string `json:"faults"`
	Doubts      []string `json:"doubts"`
	Notes       []string `json:"notes"`

	summary string
}

// checkedLink is a page to open.
type checkedLink struct {
	URL  string `json:"url"`
	Text string `json:"text"` // what it is for
}

func newCheckReport(file string) checkReport {
	return checkReport{Format: checkFormat, Config: file, Checks: []finding{}, Feeds: []checkedFeed{}, Links: []checkedLink{}}
}

// count sums up the findings.
func (r *checkReport) count() {
	for _, f := range r.Checks {
		switch f.State {
		case stateFails:
			r.Failures++
		case stateWarning:
			r.Warnings++
		}
	}
	r.Fine = r.Failures == 0
}

// stateWords begin the lines of the text.
var stateWords = map[state]string{stateFine: "ok     ", stateWarning: "WARNING", stateFails: "FAILS  "}

// print writes the report for people.
func (r *checkReport) print(w io.Writer) {
	for _, f := range r.Checks {
		if f.Area != areaGame {
			f.print(w)
		}
		if f.Area == areaFeed {
			r.printGames(w, f.Feed)
		}
	}
	if len(r.Links) > 0 {
		fmt.Fprintln(w, "Links, once the show runs:")
	}
	for _, link := range r.Links {
		fmt.Fprintf(w, "  %-40s %s\n", link.URL, link.Text)
	}
	switch {
	case r.Failures > 0:
		fmt.Fprintf(w, "%s would fail; %s\n", howMany(r.Failures, "thing"), howMany(r.Warnings, "warning"))
	default:
		fmt.Fprintf(w, "Nothing would fail; %s\n", howMany(r.Warnings, "warning"))
	}
}

func (f finding) print(w io.Writer) {
	where := f.Area
	if f.Feed != "" {
		where += " " + f.Feed
	}
	if f.Area == areaClock {
		where = "clock"
	}
	fmt.Fprintf(w, "%s %s: %s\n", stateWords[f.State], where, f.Text)
	if f.Do != "" {
		fmt.Fprintf(w, "          %s\n", f.Do)
	}
}

func (r *checkReport) printGames(w io.Writer, feed string) {
	for i := range r.Feeds {
		if r.Feeds[i].Name != feed || !r.Feeds[i].Answered {
			continue
		}
		good, games := 0, r.Feeds[i].Games
		for _, g := range games {
			g.print(w)
			if g.Good {
				good++
			}
		}
		fmt.Fprintf(w, "  %d good, %d broken\n", good, len(games)-good)
	}
}

func (g *checkedGame) print(w io.Writer) {
	word := "good  "
	if !g.Good {
		word = "BROKEN"
	}
	fmt.Fprintf(w, "  %2d %s %s\n", g.Number, word, g.summary)
	for _, part := range []struct {
		before string
		lines  []string
	}{{"", g.Faults}, {"WARNING: ", g.Doubts}, {"note: ", g.Notes}} {
		for _, line := range part.lines {
			fmt.Fprintf(w, "            %s%s\n", part.before, line)
		}
	}
}

// howMany says a number of things.
func howMany(n int, what string) string {
	switch n {
	case 0:
		return "no " + what + "s"
	case 1:
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
