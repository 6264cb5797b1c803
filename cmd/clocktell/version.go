package main

import (
	"context"
	_ "embed" // the licences
	"flag"
	"fmt"
	"io"
	"runtime"
	"runtime/debug"

	"clocktell/overlay/wire"
)

// licences holds every module that is linked in, and what else of others is embedded, with
// its licence. TestLicences keeps it; with -update it writes it anew.
//
//go:generate go test . -run ^TestLicences$ -update
//go:embed licences.txt
var licences string

const versionHelp = `Usage: clocktell version [--licences]

Print the version, the protocol version and what it was built with; or the name, the
version and the licence of everything of others that is in this file.

Example:
  clocktell version --licences

Flags:
`

func runVersion(_ context.Context, args []string, stdout, stderr io.Writer) error {
	flags := flag.NewFlagSet("version", flag.ContinueOnError)
	all := flags.Bool("licences", false, "print what of others is in this file, each with its version and its licence")
	if err := parseFlags(flags, versionHelp, args, stdout, stderr); err != nil {
		return err
	}
	if *all {
		_, err := io.WriteString(stdout, licences)
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
