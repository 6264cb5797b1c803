package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"runtime"
	"runtime/debug"

	"clocktell/overlay/wire"
)

const versionHelp = `Usage: clocktell version

Print the version, the protocol version and what it was built with.

Example:
  clocktell version

`

func runVersion(_ context.Context, args []string, stdout, stderr io.Writer) error {
	if err := parseFlags(flag.NewFlagSet("version", flag.ContinueOnError), versionHelp, args, stdout, stderr); err != nil {
		return err
	}
	fmt.Fprintf(stdout, "clocktell %s, protocol %d, %s %s/%s\n", version(), wire.Version, runtime.Version(), runtime.GOOS, runtime.GOARCH)
	return nil
}

// version is what the Go tool wrote into the binary: a module version, or the
// commit it was built from.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	text := info.Main.Version
	for _, setting := range info.Settings {
		if setting.Key == "vcs.revision" && (text == "" || text == "(devel)") {
			return setting.Value[:min(12, len(setting.Value))]
		}
	}
	return text
}
