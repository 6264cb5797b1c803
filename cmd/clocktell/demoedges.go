package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"os"
	"strconv"

	"clocktell/relay/config"
)

// edgesMost is how many edges a demo has at most.
const edgesMost = 8

// demoEdge is an edge in the demo's own process, which comes to the show over the bus as any other.
type demoEdge struct {
	l       net.Listener
	options edgeOptions
	way     entrance
	log     *slog.Logger
}

// demoBus lets the demo serve a bus, if it has edges. What that keeps is deleted by forget.
func demoBus(c *config.Config, edges int) (forget func() error, err error) {
	if edges == 0 {
		return func() error { return nil }, nil
	}
	dir, err := os.MkdirTemp("", "clocktell-demo-bus-")
	if err != nil {
		return nil, fmt.Errorf("the demo's own bus: %w", err)
	}
	c.Bus.Listen, c.Bus.Dir = "127.0.0.1:0", dir
	return func() error { return os.RemoveAll(dir) }, nil
}

// demoEdges opens the addresses of edges, at the ports that follow that of the demo. They let
// people in as the demo does.
func demoEdges(ctx context.Context, st *station, l net.Listener, n int, log *slog.Logger) ([]demoEdge, error) {
	var edges []demoEdge
	host, port, err := net.SplitHostPort(l.Addr().String())
	for i := 1; i <= n && err == nil; i++ {
		e := demoEdge{options: edgeOptions{serve: config.Default()}, way: st.way, log: log}
		e.options.bus = e.options.serve.Bus
		e.options.bus.URL = st.sharing.options.URL
		var number int
		if number, err = strconv.Atoi(port); err == nil {
			e.l, err = listen(ctx, net.JoinHostPort(host, strconv.Itoa(number+i)))
		}
		edges = append(edges, e)
	}
	if err != nil {
		for _, e := range edges[:max(0, len(edges)-1)] {
			err = errors.Join(err, e.l.Close())
		}
		return nil, fmt.Errorf("the demo's edges: %w", err)
	}
	return edges, nil
}

func (e demoEdge) run(ctx context.Context) error {
	return runStations(ctx, e.l, e.log, func(*station, net.Listener) {}, func(ctx context.Context) (*station, error) { return awaitEdge(ctx, e.options, e.way, e.log) })
}

// printEdges tells where the same show is besides.
func printEdges(w io.Writer, edges []demoEdge) {
	for i, e := range edges {
		fmt.Fprintf(w, "  edge %d: the same pages from http://%s, such as http://%s/scene/board\n", i+1, e.l.Addr(), e.l.Addr())
	}
}
