package main

import (
	"bufio"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"slices"
	"time"

	"clocktell/relay/config"
)

const promptsHelp = `Usage: clocktell prompts FILE.pgn [flags]

Play games through the whole show and list every prompt that the panel would have put
up: before a show you can read what would be said over games of your own. FILE "-" is
standard input.

Moves come when the clocks of their game say, or --every so often where it has none,
and between them time passes as it does on the air; all of it goes as fast as the
machine does. Each game has a show of its own. The result comes with the last move.

The list has one line for each prompt, its fields separated by tabs, below a line with
their names. Lines that begin with # tell of the game whose prompts follow and, at the
end, of all games. A field that holds a tab, a quote or a line end is put between double
quotes, quotes in it doubled, as RFC 4180 has it for commas. The fields:

  game       number in the file
  move       that the prompt came with, or start
  later      how long after that move it came, where it was not at once
  kind, priority, sentence, evidence
  withdrawn  the last move when it was withdrawn; empty if it still stood at the end
  fen        the position when it came

With an engine, of the configuration or of --engine, each position is judged before the
game goes on, and what the engine has to say is listed as kind engine; its evidence has
scores, depths and lines. It takes one thread and visits --nodes positions each time, so
that the list is the same whenever it is made.

Games that cannot be shown whole are named with their line and left out; the others are
listed, and the exit code is 1.

Examples:
  clocktell prompts games.pgn
  clocktell prompts season.pgn --config my-show.toml --games 50 --spread --out prompts.tsv
  clocktell prompts season.pgn --games 30 --spread --engine stockfish --kind engine

Flags:
`

// promptsOptions are the flags of prompts.
type promptsOptions struct {
	file, config, out string
	games             int
	spread            bool
	every             time.Duration
	engine, kind      string
	nodes             uint64
}

// everyLeast is the shortest pace for moves without clocks: the show looks at its clocks
// once a second.
const everyLeast = time.Second

// nodesLeast is how many positions an engine needs for any opinion.
const nodesLeast = 1000

func runPrompts(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	o, err := parsePrompts(args, stdout, stderr)
	if err != nil {
		return err
	}
	c := config.Default()
	if o.config != "" {
		if c, err = loadConfig(o.config, "prompts", stderr); err != nil {
			return err
		}
	}
	if err := o.keeps(c.Reference.File); err != nil {
		return fmt.Errorf("prompts: %w", err)
	}
	games, err := openGamesFile(o.file, os.Stdin)
	if err != nil {
		return fmt.Errorf("prompts: %w", err)
	}
	r, err := newRehearsal(c, o.every)
	if err != nil {
		return fmt.Errorf("prompts: %w", err)
	}
	r.kind = o.kind
	if o.engine != "" {
		c.Engine.Command = o.engine
	}
	err = r.withEngine(ctx, c.Engine, o.nodes, func() error { return o.list(ctx, r, games.chosen(o.games, o.spread), stdout, stderr) })
	if err != nil && !errors.Is(err, errTold) {
		err = fmt.Errorf("prompts: %w", err)
	}
	return errors.Join(err, r.close())
}

// list plays games and writes the list to where it is wanted.
func (o promptsOptions) list(ctx context.Context, r *rehearsal, games []placedGame, stdout, stderr io.Writer) error {
	if o.out == "" {
		return rehearse(ctx, r, games, stdout, stdout, stderr)
	}
	list, err := os.Create(o.out)
	if err != nil {
		return err
	}
	return errors.Join(rehearse(ctx, r, games, list, stdout, stderr), list.Close())
}

func parsePrompts(args []string, stdout, stderr io.Writer) (promptsOptions, error) {
	var o promptsOptions
	flags := flag.NewFlagSet("prompts", flag.ContinueOnError)
	flags.StringVar(&o.config, "config", "", "take the reference, the time control and the way clocks are read from this configuration `FILE`; of its feeds, the first counts")
	flags.StringVar(&o.out, "out", "", "write the list to this `FILE` instead of standard output, where the summary still goes")
	flags.IntVar(&o.games, "games", 0, "take so many games at most; 0 all")
	flags.BoolVar(&o.spread, "spread", false, "take the games of --games evenly over the file, not the first ones")
	flags.DurationVar(&o.every, "every", 20*time.Second, "the time of a move that has no clock, 1s to "+thinkMost.String())
	flags.StringVar(&o.engine, "engine", "", "judge each position with the engine at this `PATH`, or of this name on the PATH, that speaks UCI")
	flags.Uint64Var(&o.nodes, "nodes", judgeNodes, "the positions that the engine visits for each one of a game")
	flags.StringVar(&o.kind, "kind", "", "list prompts of this `KIND` only: tell, clock, reference, facts, match or engine")
	plain, err := parseMixed(flags, promptsHelp, args, stdout, stderr)
	if err != nil {
		return o, err
	}
	switch {
	case len(plain) != 1:
		fmt.Fprintln(stderr, "clocktell prompts needs one FILE with games, or - for standard input")
		return o, errUsage
	case o.games < 0:
		fmt.Fprintf(stderr, "clocktell prompts: --games %d is less than none\n", o.games)
		return o, errUsage
	case o.every < everyLeast || o.every > thinkMost:
		fmt.Fprintf(stderr, "clocktell prompts: --every %v is out of range, %v to %v\n", o.every, everyLeast, thinkMost)
		return o, errUsage
	case o.nodes < nodesLeast:
		fmt.Fprintf(stderr, "clocktell prompts: --nodes %d is out of range, %d or more\n", o.nodes, nodesLeast)
		return o, errUsage
	}
	o.file = plain[0]
	return o, nil
}

// keeps refuses to write the list over what is read.
func (o promptsOptions) keeps(reference string) error {
	if o.out == "" {
		return nil
	}
	out, err := os.Stat(o.out)
	if err != nil {
		return nil // there is nothing yet, or creating it will tell
	}
	if slices.ContainsFunc([]string{o.file, o.config, reference}, func(path string) bool {
		read, err := os.Stat(path)
		return err == nil && os.SameFile(out, read)
	}) {
		return fmt.Errorf("--out %s is a file that is read: name another one", o.out)
	}
	return nil
}

// rehearse plays games and writes the list and, at its end, the summary; broken games are
// told to stderr.
func rehearse(ctx context.Context, r *rehearsal, games []placedGame, list, stdout, stderr io.Writer) error {
	out := bufio.NewWriter(list)
	rows, sum := newPromptRows(out), new(promptSummary)
	rows.kind = r.kind
	var err error
	for i := 0; i < len(games) && err == nil; i++ {
		if err = r.list(ctx, &games[i], rows, sum, stderr); err == nil {
			err = out.Flush()
		}
		if r.judge != nil && err == nil {
			fmt.Fprintf(stderr, "%d of %s judged\n", i+1, counted(len(games), "game"))
		}
	}
	sum.write(stdout)
	switch {
	case ctx.Err() != nil:
		fmt.Fprintf(stderr, "interrupted: %d games of %d were played\n", sum.games+sum.leftOut, len(games))
		return errTold
	case err != nil:
		return err
	case r.failed() != nil:
		return fmt.Errorf("the reference fails: %w", r.failed())
	case sum.leftOut > 0:
		return errTold
	}
	return nil
}

// list plays a game and writes what was said of it, or that it is left out.
func (r *rehearsal) list(ctx context.Context, game *placedGame, rows *promptRows, sum *promptSummary, stderr io.Writer) error {
	played, err := r.play(ctx, game.read())
	if broken := (brokenGame{}); errors.As(err, &broken) {
		sum.leftOut++
		fmt.Fprintf(stderr, "%s, game %d, line %d, left out: %s\n", game.file, game.number, broken.line, broken.why)
		return nil
	}
	if err != nil {
		return fmt.Errorf("game %d: %w", game.number, err)
	}
	sum.add(game.number, played)
	return rows.game(game.number, played)
}
