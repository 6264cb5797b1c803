package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
)

// configuration is that of a relay which the crowd may visit: its limits must not be met.
func configuration(o options, feedsAt, journal string) string {
	var b strings.Builder
	most := o.pagesMost()
	fmt.Fprintf(&b, "[show]\ntitle = \"Velmarin Halls\"\nmax_boards = %d\n\n", o.boards)
	fmt.Fprintf(&b, "[server]\nlisten = \"127.0.0.1:%d\"\nmax_pages = %d\nmax_connections = %d\nmax_connections_each = %d\n\n", o.port, most, 2*most, 2*most)
	fmt.Fprintf(&b, "[journal]\ndir = %q\n\n[log]\nlevel = \"warn\"\n", journal)
	for n := 1; n <= o.feeds; n++ {
		fmt.Fprintf(&b, "\n[[feed]]\nname = \"hall-%d\"\nurl = \"http://%s/%d.pgn\"\nevery = %q\n", n, feedsAt, n, o.every)
	}
	return b.String()
}

// pagesMost is how many pages a place must let in: those that are gone, and not missed yet, count
// as well.
func (o *options) pagesMost() int { return 2*o.pages + 100 }

// startRelay runs a clocktell binary on a configuration, with a journal, in a folder. If there
// are to be edges it serves a bus, whose URL is returned.
func startRelay(ctx context.Context, o options, feedsAt, dir string, stderr io.Writer) (c *child, address, bus string, err error) {
	file := filepath.Join(dir, "crowd.toml")
	if err := os.WriteFile(file, []byte(configuration(o, feedsAt, filepath.Join(dir, "journal"))), 0o600); err != nil {
		return nil, "", "", err
	}
	args, patterns := []string{"serve", "--config", file}, []*regexp.Regexp{pagesAt}
	if o.edges > 0 {
		args, patterns = append(args, "--embed-bus", "127.0.0.1:0"), append(patterns, busAt)
	}
	c, found, err := startChild(ctx, o.serve, args, stderr, patterns...)
	if err != nil {
		return nil, "", "", err
	}
	return c, found[0], found[len(found)-1], nil
}
