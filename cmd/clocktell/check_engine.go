package main

import (
	"context"
	"fmt"
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

// checkEngines starts each engine of the configuration and has it say its name. None is
// well, too.
func (k *checker) checkEngines(ctx context.Context) {
	for _, e := range []struct {
		table  string
		engine config.Engine
	}{{"engine", k.config.Engine}, {"second_engine", k.config.Second}} {
		if e.engine.Command == "" {
			continue
		}
		name, err := engine.Greet(ctx, engineOptions(e.engine))
		if err != nil {
			k.add(finding{Area: areaEngine, State: stateFails, Text: fmt.Sprintf("%s: %v", e.engine.Command, err),
				Do: fmt.Sprintf("correct the keys under [%s], or leave its command empty for a show without second opinions", e.table)})
			continue
		}
		k.add(finding{Area: areaEngine, State: stateFine, Text: fmt.Sprintf("%s calls itself %q and is ready, with %d thread(s) and %d MB",
			e.engine.Command, name, e.engine.Threads, e.engine.Memory)})
	}
	if k.config.Engine.Command != "" {
		return
	}
	k.add(noEngine(usualEngine(exec.LookPath)))
}

// noEngine tells that none is set, and what to do about it; path is one that is there, ""
// for none.
func noEngine(path string) finding {
	none := finding{Area: areaEngine, State: stateFine, Text: "none, and none found on the path; install one that speaks UCI and set its command under [engine] for second opinions"}
	if path != "" {
		none.Text = fmt.Sprintf("none is set; there is one on this machine, set command = %q under [engine] for second opinions", path)
	}
	return none
}
