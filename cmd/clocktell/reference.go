package main

import (
	"context"
	"fmt"
	"io"
)

const referenceHelp = `Usage: clocktell reference build --out FILE [flags] GAMES.pgn ...
       clocktell reference show FILE [FEN]

A reference tells of a position who has reached it and what was played, from your own
collection of games.

  build  make a reference from PGN files
  show   tell what a reference holds, and what it knows of a position

clocktell reference build -h and clocktell reference show -h tell more.
`

func runReference(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	if len(args) == 0 {
		fmt.Fprint(stderr, referenceHelp)
		return errUsage
	}
	switch args[0] {
	case "build":
		return runReferenceBuild(ctx, args[1:], stdout, stderr)
	case "show":
		return runReferenceShow(args[1:], stdout, stderr)
	case "-h", "--help", "-help", "help":
		fmt.Fprint(stdout, referenceHelp)
		return nil
	}
	fmt.Fprintf(stderr, "clocktell reference: there is no %q; clocktell reference -h tells what there is\n", args[0])
	return errUsage
}
