package main

import (
	"context"
	"fmt"
	"io"
	"os/exec"

	"clocktell/relay/config"
	"clocktell/relay/engine"
)

// usualEngines are where a free engine stands that Debian packages: on the path, or where
// Debian puts games, which not every path has.
var usualEngines = []string{"stockfish", "/usr/games/stockfish"}

// usualEngine returns the first of them that look finds, "" for none.
func usualEngine(look func(string) (string, error)) string {
	for _, name := range usualEngines {
		if path, err := look(name); err == nil {
			return path
		}
	}
	return ""
}

// checkEngines starts each engine of the configuration and has it say its name. It
// returns whether all was well; no engine is well, too.
func checkEngines(ctx context.Context, w io.Writer, c config.Config) bool {
	fine := true
	for _, e := range []struct {
		table  string
		engine config.Engine
	}{{"engine", c.Engine}, {"second_engine", c.Second}} {
		if e.engine.Command == "" {
			continue
		}
		name, err := engine.Greet(ctx, engineOptions(e.engine))
		if err != nil {
			fmt.Fprintf(w, "%s: %s: %v\n", e.table, e.engine.Command, err)
			fine = false
			continue
		}
		fmt.Fprintf(w, "%s: %s calls itself %q and is ready, with %d thread(s) and %d MB\n",
			e.table, e.engine.Command, name, e.engine.Threads, e.engine.Memory)
	}
	if c.Engine.Command != "" {
		return fine
	}
	if path := usualEngine(exec.LookPath); path != "" {
		fmt.Fprintf(w, "engine: none is set; there is one on this machine, set command = %q under [engine] for second opinions\n", path)
	} else {
		fmt.Fprintln(w, "engine: none, and none found on the path; install one that speaks UCI and set its command under [engine] for second opinions")
	}
	return fine
}
