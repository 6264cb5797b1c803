package main

import (
	"flag"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"clocktell/relay/bitboard"
	"clocktell/relay/clock"
	"clocktell/relay/reference"
)

const referenceShowHelp = `Usage: clocktell reference show FILE [FEN]

Tell what a reference holds, look whether it is as it was written, and tell what it knows
of a position: the start if no FEN is given.

Examples:
  clocktell reference show games.ref
  clocktell reference show games.ref "rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq - 0 1"

`

func runReferenceShow(args []string, stdout, stderr io.Writer) error {
	flags := flag.NewFlagSet("reference show", flag.ContinueOnError)
	plain, err := parseMixed(flags, referenceShowHelp, args, stdout, stderr)
	if err != nil {
		return err
	}
	if len(plain) == 0 {
		fmt.Fprintln(stderr, "clocktell reference show needs the FILE of a reference")
		return errUsage
	}
	fen := bitboard.StartFEN
	if len(plain) > 1 {
		fen = strings.Join(plain[1:], " ") // quoted or not
	}
	position, err := bitboard.ParseFEN(fen)
	if err != nil {
		return fmt.Errorf("reference show: %w", err)
	}
	index, err := openIndex(plain[0])
	if err != nil {
		return fmt.Errorf("reference show: %w", err)
	}
	defer index.Close()
	showHead(stdout, plain[0], index)
	if err := index.Verify(); err != nil {
		return fmt.Errorf("reference show: %w", err)
	}
	fmt.Fprintln(stdout, "  it is as it was written")
	return showPosition(stdout, index, &position)
}

func showHead(w io.Writer, path string, index *reference.Index) {
	fmt.Fprintf(w, "%s: %s games, followed for %d plies, %s positions, %s bytes\n", path,
		thousands(index.Games()), index.Depth(), thousands(index.Positions()), thousands(index.Size()))
	if words := filterWords(index.Head().Filter); words != "" {
		fmt.Fprintf(w, "  only games %s\n", words)
	}
}

// filterWords says which games a filter lets pass.
func filterWords(f reference.Filter) string {
	var words []string
	if f.MinRating > 0 {
		words = append(words, fmt.Sprintf("with both players rated %d or more", f.MinRating))
	}
	if f.FromYear > 0 {
		words = append(words, fmt.Sprintf("from %d", f.FromYear))
	}
	if f.ToYear > 0 {
		words = append(words, fmt.Sprintf("to %d", f.ToYear))
	}
	if f.OnlyOverTheBoard {
		words = append(words, "played at a board")
	}
	if f.Class != clock.ClassUnknown {
		words = append(words, "at "+f.Class.String()+" pace")
	}
	return strings.Join(words, ", ")
}

func showPosition(w io.Writer, index *reference.Index, position *bitboard.Position) error {
	var answer reference.Answer
	if err := index.Lookup(position.Hash(), reference.Filter{}, &answer); err != nil {
		return fmt.Errorf("reference show: %w", err)
	}
	fmt.Fprintf(w, "\n%s\n", position.FEN())
	if answer.Games == 0 {
		fmt.Fprintln(w, "no game has reached this position")
		return nil
	}
	last, err := index.Game(answer.Last)
	if err != nil {
		return fmt.Errorf("reference show: %w", err)
	}
	fmt.Fprintf(w, "%s games: White won %s, drawn %s, Black won %s; the latest: %s\n\n", thousands(answer.Games),
		thousands(answer.White), thousands(answer.Draws), thousands(answer.Black), gameWords(last))
	return showMoves(w, index, position, &answer)
}

// showMoves writes a line for each move, and what it was played in.
func showMoves(w io.Writer, index *reference.Index, position *bitboard.Position, answer *reference.Answer) error {
	table := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(table, "move\tgames\tWhite\tdrawn\tBlack\tbest\tmean\tlast\tsuch as")
	for _, m := range answer.Moves {
		game := ""
		if len(m.Examples) > 0 {
			g, err := index.Game(m.Examples[0])
			if err != nil {
				return fmt.Errorf("reference show: %w", err)
			}
			game = gameWords(g)
		}
		fmt.Fprintf(table, "%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\n", position.SAN(bitboard.Move(m.Move)), thousands(m.Games),
			share(m.White, m.Games), share(m.Draws, m.Games), share(m.Black, m.Games),
			known(m.BestRating), known(m.MeanRating), known(m.LastYear), game)
	}
	return table.Flush()
}

func share(part, of int) string { return fmt.Sprintf("%.0f%%", 100*float64(part)/float64(max(1, of))) }

func known(n int) string {
	if n == 0 {
		return "?"
	}
	return fmt.Sprint(n)
}

// gameWords names a game.
func gameWords(g reference.Game) string {
	words := fmt.Sprintf("%s – %s", orUnknown(g.White), orUnknown(g.Black))
	for _, more := range []string{g.Event, known(g.Year)} {
		if more != "" && more != "?" {
			words += ", " + more
		}
	}
	return words
}

func orUnknown(name string) string {
	if name == "" {
		return "?"
	}
	return name
}
