package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"net"
	"os"

	"clocktell/overlay"
	"clocktell/overlay/access"
	"clocktell/relay"
	"clocktell/relay/config"
)

const serveHelp = `Usage: clocktell serve --config FILE [flags]

Read the feeds of a configuration and serve the show until interrupted.

Example:
  clocktell serve --config configs/clocktell.toml

Flags:
`

func runServe(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	flags := flag.NewFlagSet("serve", flag.ContinueOnError)
	file := flags.String("config", "", "configuration `FILE`; configs/clocktell.toml explains every key")
	address := flags.String("listen", "", "serve pages at this `HOST:PORT` instead of the configured one")
	shared := busFlags(flags)
	if err := parseFlags(flags, serveHelp, args, stdout, stderr); err != nil {
		return err
	}
	c, err := loadConfig(*file, "serve", stderr)
	if err != nil {
		return err
	}
	if *address != "" {
		c.Server.Listen = *address
	}
	if err := shared.into(&c); err != nil {
		fmt.Fprintf(stderr, "clocktell serve: %v\n", err)
		return errUsage
	}
	log, err := newLog(stderr, c.Log.Level)
	if err != nil {
		return err
	}
	l, err := listen(ctx, c.Server.Listen)
	if err != nil {
		return err
	}
	if !overlay.OnlyHere(l.Addr()) && c.Access.Dir == "" {
		return errors.Join(fmt.Errorf("serve pages at %s: %w", l.Addr(), overlay.MayServe(l.Addr(), nil)), l.Close())
	}
	way, err := openEntrance(c)
	if err != nil {
		return errors.Join(err, l.Close())
	}
	keepSmall()
	tell := func(st *station, l net.Listener) {
		fmt.Fprintf(stdout, "%s, %d feed(s). Open:\n", c.Show.Title, len(c.Feeds))
		way.printLinks(stdout, l)
		way.printPushes(stdout, l, c.Feeds)
		st.sharing.print(stdout)
	}
	return runStations(ctx, l, log, tell, func(ctx context.Context) (*station, error) {
		return newStationWith(ctx, c, relay.NewTimebase(1), log, way)
	})
}

// loadConfig reads the file that --config names.
func loadConfig(file, verb string, stderr io.Writer) (config.Config, error) {
	if file == "" {
		fmt.Fprintf(stderr, "clocktell %s needs --config FILE; start from configs/clocktell.toml\n", verb)
		return config.Config{}, errUsage
	}
	return config.Load(file, os.LookupEnv)
}

func newLog(w io.Writer, level string) (*slog.Logger, error) {
	var l slog.Level
	if err := l.UnmarshalText([]byte(level)); err != nil {
		return nil, fmt.Errorf("level %q is none of debug, info, warn, error", level)
	}
	return slog.New(slog.NewTextHandler(w, &slog.HandlerOptions{Level: l, ReplaceAttr: withoutTokens})), nil
}

// withoutTokens takes out of what is logged whatever looks like a token: people paste them
// into the wrong places, and errors say what was wrong there.
func withoutTokens(_ []string, a slog.Attr) slog.Attr {
	switch err, isError := a.Value.Any().(error); {
	case isError:
		a.Value = slog.StringValue(access.Redact(err.Error()))
	case a.Value.Kind() == slog.KindString:
		a.Value = slog.StringValue(access.Redact(a.Value.String()))
	}
	return a
}
