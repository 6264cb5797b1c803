// Package relaytest builds what tests of the relay need: games with clocks as
// PGN text, packets, and shows that have taken them.
package relaytest

import (
	"bytes"
	"strings"

	"clocktell/relay/pgn"
)

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
			move.Notes = &pgn.Notes{Comments: []pgn.Comment{{Commands: []pgn.Command{command}}}}
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
