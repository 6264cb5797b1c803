package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"clocktell/relay/reference/build"
	"clocktell/testdata/demo"
)

// demoReference builds the demo's reference in a folder that is gone once forget is
// called, the way anybody would build theirs. It returns the file.
func demoReference(ctx context.Context) (file string, forget func() error, err error) {
	dir, err := os.MkdirTemp("", "clocktell-demo-")
	if err != nil {
		return "", nil, fmt.Errorf("the demo's reference: %w", err)
	}
	forget = func() error { return os.RemoveAll(dir) }
	games, file := filepath.Join(dir, "games.pgn"), filepath.Join(dir, "games.ref")
	err = os.WriteFile(games, demo.Reference(), 0o600)
	if err == nil {
		_, err = build.Run(ctx, build.Options{Out: file, Inputs: []string{games}, Depth: build.DepthDefault})
	}
	if err != nil {
		return "", nil, fmt.Errorf("the demo's reference: %w", err)
	}
	return file, forget, nil
}
