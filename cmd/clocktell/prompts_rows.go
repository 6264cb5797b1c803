package main

import (
	"encoding/csv"
	"fmt"
	"io"
	"strings"
	"time"
	"unicode"

	"clocktell/relay/clock"
)

// promptRows writes the list: fields between tabs, quoted where they must be, and lines
// for people that begin with #.
type promptRows struct {
	out  io.Writer
	rows *csv.Writer
	kind string // of prompts that are written; "" all
}

// promptFields are the names of the fields.
var promptFields = []string{"game", "move", "later", "kind", "priority", "sentence", "evidence", "withdrawn", "fen"}

func newPromptRows(out io.Writer) *promptRows {
	r := &promptRows{out: out, rows: csv.NewWriter(out)}
	r.rows.Comma = '\t'
	r.rows.Write(promptFields)
	return r
}

// game writes the block of a game.
func (r *promptRows) game(number int, g *playedGame) error {
	r.rows.Flush()
	fmt.Fprintf(r.out, "\n# Game %d: %s, %s: %s\n", number, oneLine(g.Who), g.Result, counted(len(g.Said), "prompt"))
	for _, s := range g.Said {
		if r.kind != "" && r.kind != string(s.Kind) {
			continue
		}
		later := ""
		if s.Later >= time.Second {
			later = clock.Format(s.Later)
		}
		r.rows.Write([]string{
			fmt.Sprint(number), s.Move, later, string(s.Kind), string(s.Priority), s.Text, s.Evidence, s.Until, s.FEN,
		})
	}
	r.rows.Flush()
	return r.rows.Error()
}

// oneLine returns a text without what would end its line.
func oneLine(text string) string {
	return strings.Map(func(c rune) rune {
		if unicode.IsControl(c) {
			return ' '
		}
		return c
	}, text)
}

// counted says how many of something there are.
func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return thousands(n) + " " + what + "s"
}
