// Package relaytest builds what tests of the relay need: games with clocks as
// PGN text, packets, and shows that have taken them.
package relaytest

import (
	"bytes"
	"strings"
	"time"

	"clocktell/relay"
	"clocktell/relay/pgn"
)

// Start is when test shows begin. The day means nothing.
var Start = time.Date(2026, 10, 17, 15, 0, 0, 0, time.UTC)

// Game describes a game. What is left out gets a value that does not matter.
type Game struct {
	White, Black, Round, Table string
	Control                    string   // TimeControl tag; "" none
	Moves                      string   // SAN, separated by spaces
	Clocks                     []string // clk of each ply; "" none for that ply
	Result                     string   // "" means "*"; "none" writes no result
}

// PGN returns the game as text.
func (g Game) PGN() string {
	game := pgn.Game{Result: orElse(g.Result, "*"), Tags: []pgn.Tag{
		{Name: "Event", Value: "Test"}, {Name: "Round", Value: orElse(g.Round, "1")},
		{Name: "White", Value: orElse(g.White, "Weiss, Wanda")}, {Name: "Black", Value: orElse(g.Black, "Noir, Noel")},
	}}
	if g.Table != "" {
		game.Tags = append(game.Tags, pgn.Tag{Name: "Board", Value: g.Table})
	}
	if g.Control != "" {
		game.Tags = append(game.Tags, pgn.Tag{Name: "TimeControl", Value: g.Control})
	}
	for i, san := range strings.Fields(g.Moves) {
		move := pgn.Move{SAN: san}
		if i < len(g.Clocks) && g.Clocks[i] != "" {
			command := pgn.Command{Name: "clk", Operands: []string{g.Clocks[i]}}
			move.Comments = []pgn.Comment{{Commands: []pgn.Command{command}}}
		}
		game.Moves = append(game.Moves, move)
	}
	var out bytes.Buffer
	if err := pgn.Write(&out, &game); err != nil {
		panic(err) // a buffer takes everything
	}
	if g.Result == "none" {
		return strings.TrimSuffix(strings.TrimRight(out.String(), "\n"), "*") + "\n"
	}
	return out.String()
}

func orElse(text, otherwise string) string {
	if text == "" || text == "none" {
		return otherwise
	}
	return text
}

// Packet joins games to the text of a packet.
func Packet(games ...Game) string {
	var out strings.Builder
	for _, g := range games {
		out.WriteString(g.PGN() + "\n")
	}
	return out.String()
}

// Stage is a show with one feed, led by hand through time.
type Stage struct {
	Show   *relay.Show
	Now    time.Time
	intake *relay.Intake
}

// FeedName is the name of the feed of a Stage.
const FeedName = "hall"

// Plan is the plan of a Stage: a feed late after 6 and stale after 15 seconds.
func Plan() relay.Plan {
	return relay.Plan{Title: "Test", MaxBoards: 8, Feeds: []relay.FeedPlan{{
		Name: FeedName, Kind: "http", Address: "http://127.0.0.1/", Every: time.Second, Late: 6 * time.Second, Stale: 15 * time.Second,
	}}}
}

// NewStage returns a stage at Start.
func NewStage() *Stage {
	return &Stage{Show: relay.NewShow(Plan(), Start), Now: Start, intake: relay.NewIntake(FeedName)}
}

// Wait lets time pass.
func (s *Stage) Wait(d time.Duration) {
	s.Now = s.Now.Add(d)
	s.Show = s.Show.AdvancedTo(s.Now)
}

// Take lets the feed answer with a text, after a second.
func (s *Stage) Take(text string) { s.Apply(s.Packet(text)) }

// Packet returns the event of an answer a second from now.
func (s *Stage) Packet(text string) relay.Event {
	s.Wait(time.Second)
	return s.intake.Read(s.Now, []byte(text))
}

// Same lets the feed answer that nothing is new, once a second for so long.
func (s *Stage) Same(d time.Duration) {
	for range d / time.Second {
		s.Wait(time.Second)
		s.Apply(relay.FeedAnswered{At: s.Now, Feed: FeedName})
	}
}

// Fail lets the feed fail, after a second.
func (s *Stage) Fail(reason string) {
	s.Wait(time.Second)
	s.Apply(relay.FeedFailed{At: s.Now, Feed: FeedName, Reason: reason, Text: "it is " + reason})
}

// Apply takes an event.
func (s *Stage) Apply(e relay.Event) { s.Show = s.Show.Apply(e) }

// Board returns board n as it is.
func (s *Stage) Board(n int) *relay.Board { return s.Show.Boards[n-1] }
