// Command clocktell helps people comment on chess while it is played. Every
// verb has a file of its own here; this package is the only one that sees all
// the others, and wires them together.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"
)

// Exit codes.
const (
	exitFine   = 0
	exitFailed = 1 // it was asked right and did not work
	exitUsage  = 2 // it was asked wrong
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	os.Exit(run(ctx, os.Args[1:], os.Stdout, os.Stderr))
}

// verb is one command of clocktell.
type verb struct {
	name, short string
	run         func(ctx context.Context, args []string, stdout, stderr io.Writer) error
}

func verbs() []verb {
	return []verb{
		{"demo", "play an invented match through the whole of clocktell", runDemo},
		{"serve", "run a show from a configuration", runServe},
		{"edge", "serve the pages of a show that another process leads", runEdge},
		{"replay", "play a recorded show again", runReplay},
		{"recap", "write pages, annotated PGN and pictures of a recorded show", runRecap},
		{"check", "look whether a configuration and its feeds are in order", runCheck},
		{"prompts", "list what the panel would have said of the games of a PGN file", runPrompts},
		{"reference", "make a reference from your collection of games, or look into one", runReference},
		{"cues", "write chapters and cue lists of a recorded show, for an editor", runCues},
		{"tokens", "list the tokens that let people in, or make new ones", runTokens},
		{"completion", "print what lets a shell complete verbs and flags", runCompletion},
		{"version", "print the version, or the licences of what is in it", runVersion},
	}
}

const usageHead = `clocktell tells what the clocks of a chess game say, while it is played.

Usage: clocktell VERB [flags]

`

const usageFoot = `
Example:
  clocktell demo

clocktell VERB -h tells more of a verb.
`

func usage(w io.Writer) {
	fmt.Fprint(w, usageHead)
	for _, v := range verbs() {
		fmt.Fprintf(w, "  %-10s %s\n", v.name, v.short)
	}
	fmt.Fprint(w, usageFoot)
}

// run does what args ask for and returns the exit code.
func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	if len(args) == 0 {
		usage(stderr)
		return exitUsage
	}
	switch args[0] {
	case "-h", "--help", "-help", "help":
		usage(stdout)
		return exitFine
	case "--version", "-version":
		args = []string{"version"}
	}
	for _, v := range verbs() {
		if v.name == args[0] {
			return exitCode(v.run(ctx, args[1:], stdout, stderr), stderr)
		}
	}
	fmt.Fprintf(stderr, "clocktell: there is no verb %q; clocktell -h lists them\n", args[0])
	return exitUsage
}

// errUsage marks an error as wrong use; the flag package has told it already.
var errUsage = errors.New("wrong use")

func exitCode(err error, stderr io.Writer) int {
	switch {
	case err == nil, errors.Is(err, flag.ErrHelp):
		return exitFine
	case errors.Is(err, errUsage):
		return exitUsage
	case errors.Is(err, errTold):
		return exitFailed
	}
	fmt.Fprintf(stderr, "clocktell: %v\n", err)
	return exitFailed
}

// errTold marks a failure whose report has been printed.
var errTold = errors.New("told already")

// parseFlags parses the flags of a verb. Help goes to standard output, what is
// wrong to standard error.
func parseFlags(flags *flag.FlagSet, text string, args []string, stdout, stderr io.Writer) error {
	flags.SetOutput(stderr)
	flags.Usage = func() {}
	err := flags.Parse(args)
	if err == nil && flags.NArg() > 0 {
		err = fmt.Errorf("unexpected argument %q", flags.Arg(0))
		fmt.Fprintf(stderr, "%v\n", err)
	}
	switch {
	case err == nil:
		return nil
	case errors.Is(err, flag.ErrHelp):
		if asked, ok := stdout.(*flagsAsked); ok {
			asked.flags = flags
			return err
		}
		fmt.Fprint(stdout, text)
		flags.SetOutput(stdout)
		flags.PrintDefaults()
		return err
	}
	fmt.Fprintf(stderr, "clocktell %s -h tells how it is used\n", flags.Name())
	return errUsage
}
