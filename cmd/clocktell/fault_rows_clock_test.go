package main

import (
	"fmt"
	"regexp"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
)

var clkCommand = regexp.MustCompile(` \{\[%clk [^]]*\]\}`)

var clkAndMove = regexp.MustCompile(`([A-Za-z][\w-]*) (\{\[%clk [^]]*\]\})`)

// clkBefore moves every clock from behind its move to before it.
func clkBefore(text string) string { return clkAndMove.ReplaceAllString(text, "$2 $1") }

// fifth and sixth are the clocks that come with the fault.
var fifth, sixth = clk(5), clk(6)

// left looks for the reading of a ply of the board that suffers.
func left(ply int, want time.Duration) func(*faultScene, *relay.Show) string {
	return func(s *faultScene, show *relay.Show) string {
		if got := s.bad(show).Plies[ply-1].Reading.Left; got != (clock.Value{D: want, OK: true}) {
			return fmt.Sprintf("clock %v after ply %d, want %v", got, ply, want)
		}
		return ""
	}
}

// timeRows are clocks that are written oddly, and right.
var timeRows = []faultRow{
	{name: "a clock before the first move", basis: "PGN supplement 4.1: a comment speaks of the move before it", game: instead("\n1. e4", "\n{[%clk 0:10:00]} 1. e4")},
	{name: "tenths", basis: "common practice, as in 0:09:39.8",
		game: instead(fifth, "{[%clk 0:09:39.8]}"),
		want: faultWant{odd: []int{5}, also: left(5, 579*time.Second+800*time.Millisecond)}},
	{name: "hours of three digits", basis: "PGN supplement 4.3: the hours may have any length", game: instead("clk 0:09:39", "clk 000:09:39", "clk 0:06:33", "clk 000:06:33")},
	{name: "minutes without hours", game: instead("clk 0:09:39", "clk 9:39")},
	{name: "a clock beside other commands", basis: "PGN supplement 3.2", game: instead(fifth, "{[%eval 0.31,22] [%clk 0:09:39] solid}")},
	{name: "two comments, one clock", basis: "PGN 5", game: instead(fifth, "{solid} "+fifth)},
	{name: "no clocks", game: func(text string) string { return clkCommand.ReplaceAllString(text, "") },
		want: faultWant{odd: []int{1, 2, 3, 4, 5, 6}, notes: noted(relay.NoteClock)}},
}

// clockRows are clocks that cannot be right.
var clockRows = []faultRow{
	{name: "every clock before its move", basis: "PGN supplement 4.1", game: clkBefore,
		want: faultWant{odd: []int{1, 2, 3, 4, 5, 6}, notes: noted(relay.NoteClock)}},
	{name: "clocks swapped between the sides", game: instead(fifth, "{[%clk 0:06:33;]}", sixth, fifth, "{[%clk 0:06:33;]}", sixth),
		want: faultWant{odd: []int{5, 6}, reading: []string{"3...Bc5: clock rose by 2:52 more than its increment"}, unread: map[string]int{"clock": 1}}},
	{name: "a clock that goes up", basis: "FIDE Laws 6.10.2: an arbiter may set a clock; nobody else", game: instead(fifth, "{[%clk 0:11:00]}"),
		want: faultWant{odd: []int{5}, reading: []string{"3.Bc4: clock rose by 1:09 more than its increment"}, unread: map[string]int{"clock": 1}}},
	{name: "a negative clock", basis: "PGN supplement 4.3", game: instead(sixth, "{[%clk -0:00:12]}"),
		want: faultWant{odd: []int{6}, reading: []string{"3...Bc5: clk: clock reading \"-0:00:12\": is negative"}, unread: map[string]int{"clock": 1}}},
	{name: "a clock of a hundred hours", game: instead(sixth, "{[%clk 100:06:33]}"),
		want: faultWant{odd: []int{6}, reading: []string{"3...Bc5: clock rose by"}, unread: map[string]int{"clock": 1}}},
	{name: "a clock of garbage", basis: "PGN supplement 4.3: h:mm:ss", game: instead(sixth, "{[%clk 0:0x:33]}"),
		want: faultWant{odd: []int{6}, reading: []string{`3...Bc5: clk: clock reading "0:0x:33": field 2`}, unread: map[string]int{"clock": 1}}},
	{name: "seconds beyond sixty", basis: "PGN supplement 4.3", game: instead(sixth, "{[%clk 0:06:93]}"),
		want: faultWant{odd: []int{6}, reading: []string{`3...Bc5: clk: clock reading "0:06:93": field 3`}, unread: map[string]int{"clock": 1}}},
	{name: "a clock without a value", basis: "PGN supplement 4.3", game: instead(sixth, "{[%clk ]}"),
		want: faultWant{odd: []int{6}, reading: []string{"3...Bc5: clk: clock reading \"\""}, unread: map[string]int{"clock": 1}}},
	{name: "a clock that fell too far", basis: "nobody can use more than was there", game: instead(sixth, "{[%clk 0:00:01]}"),
		want: faultWant{odd: []int{6}, reading: []string{"3...Bc5: clock fell by 6:46 with its increment, but only 6:42 was left"}, unread: map[string]int{"clock": 1}}},
}
