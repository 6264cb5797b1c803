package main

import (
	"fmt"
	"strings"

	"clocktell/relay"
	"clocktell/relay/config"
)

// cutBefore serves a packet whose last game, the one that suffers, ends before a text.
func cutBefore(what string) func(faultGames) []string {
	return whole(func(packet string) string {
		i := strings.LastIndex(packet, what)
		if i < 0 {
			panic("no " + what) // the row would show nothing
		}
		return packet[:i]
	})
}

// many are two games and so many others behind them.
func many(games int) func(faultGames) []string {
	return func(g faultGames) []string {
		var b strings.Builder
		b.WriteString(g.bad(duringPlies) + g.good(duringPlies))
		for i := 2; i < games; i++ {
			b.WriteString(strings.Replace(gameText(fmt.Sprintf("Player %d", i), "Other", goodLine[:2]), "[Round \"1\"]", fmt.Sprintf("[Round \"1.%d\"]", i), 1))
		}
		return []string{b.String()}
	}
}

func twoBoards(c *config.Config) { c.Show.MaxBoards = 2 }

// gamesRows are packets whose games are not those of the packet before.
var gamesRows = []faultRow{
	{name: "the same game twice", packets: func(g faultGames) []string {
		return []string{g.bad(duringPlies) + g.bad(duringPlies) + g.good(duringPlies)}
	}, want: faultWant{notes: noted(relay.NotePlace), reading: []string{"on no board: 1 (listed twice)"}, unread: map[string]int{"left_out": 1}}},
	{name: "games in another order", packets: func(g faultGames) []string { return []string{g.good(duringPlies) + g.bad(duringPlies)} },
		want: faultWant{notes: noted(relay.NotePlace)}},
	{name: "a missing game", packets: func(g faultGames) []string { return []string{g.good(duringPlies)} },
		want: faultWant{notes: noted(relay.NoteVanished, relay.NotePlace), shows: "e4 e5 Nf3 Nc6"}},
	{name: "a game that goes and comes", packets: func(g faultGames) []string {
		return []string{g.good(5), g.bad(5) + g.good(5), g.good(6), g.bad(6) + g.good(6)}
	}, want: faultWant{notes: noted(relay.NoteVanished, relay.NotePlace, relay.NoteReturned)}},
	{name: "3,000 games", basis: "the program's own limits, 2,000 games and max_boards", packets: many(3000), adjust: twoBoards,
		want: faultWant{verdict: "games of feed arena are not shown", reading: []string{"more games than are read from one packet"}, unread: map[string]int{"limit_games": 1}}},
	{name: "cut inside a move", last: true, basis: "RFC 9112 §6.3: without a length a cut answer looks complete", packets: cutBefore("c5 {"),
		want: faultWant{shows: "e4 e5 Nf3 Nc6 Bc4"}},
	{name: "cut inside a move already shown", last: true, basis: "RFC 9112 §6.3", packets: cutBefore("c6 {"),
		want: faultWant{shows: "e4 e5 Nf3 Nc6"}},
	{name: "cut inside a clock", last: true, basis: "RFC 9112 §6.3", packets: cutBefore("6:33]"),
		want: faultWant{odd: []int{6}, reading: []string{"a comment is not closed", "an embedded command that is not complete"},
			unread: map[string]int{"unclosed_comment": 1, "bad_command": 1}}},
	{name: "cut inside a tag", last: true, basis: "RFC 9112 §6.3", packets: cutBefore(", Anna"),
		want: faultWant{shows: "e4 e5 Nf3 Nc6"}},
	{name: "length too short", last: true, basis: "RFC 9112 §6.3: a body ends where its Content-Length says",
		serve: wired(func(s *faultScene) string {
			text := s.packet(duringPlies, duringPlies)
			return header(strings.LastIndex(text, "c5 {")) + text
		}, hangUp), want: faultWant{shows: "e4 e5 Nf3 Nc6 Bc4"}},
	{name: "an older state for a moment", basis: "RFC 9111 §4.2.4: a cache may serve a stale answer",
		packets: func(g faultGames) []string {
			return []string{g.bad(5) + g.good(5), g.bad(6) + g.good(6), g.bad(5) + g.good(6)}
		}, want: faultWant{notes: noted(relay.NoteOlder), older: 1}},
	{name: "older states of all games", basis: "RFC 9111 §4.2.4",
		packets: func(g faultGames) []string { return []string{g.bad(6) + g.good(6), g.bad(4) + g.good(4)} },
		want:    faultWant{notes: noted(relay.NoteOlder), older: 2}},
	{name: "older states again and again", basis: "RFC 9111 §4.2.4: two caches, one of them late",
		packets: func(g faultGames) []string {
			old, now := g.bad(4)+g.good(6), g.bad(6)+g.good(6)
			return []string{now, old, now, old, now}
		}, want: faultWant{notes: noted(relay.NoteOlder, relay.NoteOlderOver), older: 2}},
	{name: "a takeback that stays", rate: 60, packets: func(g faultGames) []string {
		return []string{g.bad(5) + g.good(5), g.bad(6) + g.good(6), g.bad(5) + g.good(6)}
	}, want: faultWant{
		notes: noted(relay.NoteOlder, relay.NoteOlderOver, relay.NoteTakenBack), older: 1, taken: 1, shows: "e4 e5 Nf3 Nc6 Bc4",
		until: func(show *relay.Show) bool { return len(show.Boards[0].Plies) == 5 && show.Totals.Corrections == 1 },
		also: func(s *faultScene, show *relay.Show) string {
			if c := show.Boards[0].Correction; c == nil || c.Ply != 6 || c.Was != "Bc5" || c.Is != "" {
				return fmt.Sprintf("correction %+v, want that Bc5 was taken back", c)
			}
			return ""
		}}},
}
