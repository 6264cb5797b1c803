package pgn

import (
	"fmt"
	"strings"
)

// dump shows games on one line for comparison: tags, comments, moves with their
// notes, the result behind "=", faults as !reason@line; games split by " | ".
func dump(games []Game) string {
	var all []string
	for _, g := range games {
		var b strings.Builder
		for _, t := range g.Tags {
			fmt.Fprintf(&b, " %s:%s", t.Name, t.Value)
		}
		dumpComments(&b, g.Comments)
		dumpMoves(&b, g.Moves)
		if g.Result != "" {
			b.WriteString(" =" + g.Result)
		}
		for _, f := range g.Faults {
			fmt.Fprintf(&b, " !%s@%d", f.Reason, f.Line)
		}
		all = append(all, strings.TrimSpace(b.String()))
	}
	return strings.Join(all, " | ")
}

func dumpMoves(b *strings.Builder, moves []Move) {
	for _, m := range moves {
		b.WriteString(" " + m.SAN)
		notes := m.notes()
		for _, n := range notes.NAGs {
			fmt.Fprintf(b, " $%d", n)
		}
		dumpComments(b, notes.Comments)
		for _, v := range notes.Variations {
			b.WriteString(" (")
			dumpComments(b, v.Comments)
			dumpMoves(b, v.Moves)
			b.WriteString(" )")
		}
	}
}

func dumpComments(b *strings.Builder, comments []Comment) {
	for _, c := range comments {
		b.WriteString(" {")
		for _, cmd := range c.Commands {
			fmt.Fprintf(b, "%s%q", cmd.Name, cmd.Operands)
		}
		b.WriteString(c.Text + "}")
	}
}
