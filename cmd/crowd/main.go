// Command crowd puts a relay under load and judges it: an arena plays invented games on
// as many boards and feeds as asked for, pages by the thousand watch over real sockets,
// and each verifies that what it is sent is whole, in order, true, and not too new.
//
// It is a tool for those who develop clocktell, and no part of its binary. Read crowd.go
// for how it goes, verify.go for what a page is promised, page.go and hostile.go for how
// pages behave, gauge.go for what a relay costs.
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

const (
	exitFine   = 0
	exitFailed = 1 // the relay broke its word, or nothing came of it
	exitUsage  = 2
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	os.Exit(run(ctx, os.Args[1:], os.Stdout, os.Stderr))
}

// run does what args ask for and returns the exit code.
func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	o, err := parse(args, stdout, stderr)
	switch {
	case errors.Is(err, flag.ErrHelp):
		return exitFine
	case err != nil:
		return exitUsage
	}
	if o.write != "" {
		err := os.WriteFile(o.write, []byte(configuration(o, o.feedsAt, "")), 0o600)
		return failure(stderr, err)
	}
	if o.units || o.plan != "" {
		return failure(stderr, reckon(ctx, o, stdout, stderr))
	}
	c := newCrowd(o, stdout)
	if err := c.run(ctx, stderr); err != nil {
		return failure(stderr, err)
	}
	if !c.report() {
		return exitFailed
	}
	return exitFine
}

func failure(stderr io.Writer, err error) int {
	if err == nil {
		return exitFine
	}
	fmt.Fprintf(stderr, "crowd: %v\n", err)
	return exitFailed
}
