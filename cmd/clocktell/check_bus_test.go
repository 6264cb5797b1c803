package main

import (
	"context"
	"errors"
	"log/slog"
	"net"
	"strings"
	"testing"
	"time"

	"github.com/nats-io/nats-server/v2/server"

	"clocktell/relay"
	"clocktell/relay/bus"
	"clocktell/relay/config"
)

// natsServer runs a NATS server of its own.
func natsServer(t *testing.T, o server.Options) string {
	t.Helper()
	o.Host, o.Port, o.StoreDir, o.NoLog, o.NoSigs = "127.0.0.1", server.RANDOM_PORT, t.TempDir(), true, true
	s, err := server.NewServer(&o)
	if err != nil {
		t.Fatal(err)
	}
	s.Start()
	t.Cleanup(func() {
		s.Shutdown()
		s.WaitForShutdown()
	})
	if !s.ReadyForConnections(rowPatience) {
		t.Fatal("the NATS server does not start")
	}
	return s.ClientURL()
}

// sharedConfig is a show that is shared.
func sharedConfig(url string) config.Config {
	c := config.Default()
	f := config.DefaultFeed()
	f.Name, f.URL = "hall", "http://127.0.0.1:1/"
	c.Feeds = append(c.Feeds, f)
	c.Bus.URL = url
	return c
}

// leads runs a process that leads the show of a configuration, until stop is called.
func leads(t *testing.T, c config.Config) (stop func()) {
	t.Helper()
	st, err := newStation(t.Context(), c, relay.NewTimebase(1), slog.New(slog.DiscardHandler))
	if err != nil {
		t.Fatal(err)
	}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() { done <- st.run(ctx, l) }()
	return func() {
		t.Helper()
		cancel()
		if err := <-done; err != nil {
			t.Error(err)
		}
	}
}

// busFindings checks the bus of a configuration, and nothing else.
func busFindings(t *testing.T, c config.Config) []finding {
	t.Helper()
	k := &checker{config: c, now: time.Now, free: diskFree}
	k.checkBus(t.Context())
	return k.report.Checks
}

// finds wants one of the findings to be so, and no other but fine.
func finds(t *testing.T, found []finding, state state, says, do string) {
	t.Helper()
	there := false
	for _, f := range found {
		if f.State == state && strings.Contains(f.Text, says) && strings.Contains(f.Do, do) {
			there = true
		} else if f.State != stateFine {
			t.Errorf("found besides: %+v", f)
		}
	}
	if !there {
		t.Errorf("nothing is %s, says %q and %q in %+v", state, says, do, found)
	}
}

// TestCheckBusServer looks at servers that cannot carry a show as it is asked for.
func TestCheckBusServer(t *testing.T) {
	sound := natsServer(t, server.Options{JetStream: true})
	for _, row := range []struct {
		name   string
		url    string
		adjust func(*config.Bus)
		state  state
		says   string
		do     string
	}{
		{"all is well", sound, func(*config.Bus) {}, stateFine, `there is no show "show" yet`, ""},
		{"several servers of one machine", sound, func(c *config.Bus) { c.Replicas = 3 }, stateFails, "one server alone", "replicas = 1"},
		{"a pair on one server", sound, func(c *config.Bus) { c.Pair = true }, stateWarning, "both of the pair stand still", "replicas = 3"},
		{"no streams", natsServer(t, server.Options{}), func(*config.Bus) {}, stateFails, "keeps no streams", "-js"},
		{"short messages", natsServer(t, server.Options{JetStream: true, MaxPayload: 1 << 12, MaxControlLine: 1 << 12}), func(*config.Bus) {}, stateFails, "4096 bytes", "max_payload"},
		{"a token that it does not know", natsServer(t, server.Options{JetStream: true, Authorization: "right"}), func(c *config.Bus) { c.Token = "wrong" }, stateFails, "does not answer", "token_env"},
		{"its token", natsServer(t, server.Options{JetStream: true, Authorization: "right"}), func(c *config.Bus) { c.Token = "right" }, stateFine, "it answers", ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			c := sharedConfig(row.url)
			row.adjust(&c.Bus)
			finds(t, busFindings(t, c), row.state, row.says, row.do)
		})
	}
}

// TestCheckSharedShow looks at a show that a process leads, and at what it leaves.
func TestCheckSharedShow(t *testing.T) {
	c := sharedConfig(natsServer(t, server.Options{JetStream: true}))
	stop := leads(t, c)
	finds(t, busFindings(t, c), stateFails, processID()+" leads the show already", "pair = true")
	c.Bus.Pair = true
	if _, err := newStation(t.Context(), c, relay.NewTimebase(1), slog.New(slog.DiscardHandler)); !errors.Is(err, bus.ErrLed) {
		t.Errorf("one stands by for a leader that goes on without the bus: %v", err)
	}
	if all := busFindings(t, c); all[len(all)-1].State != stateFails {
		t.Errorf("%+v", all)
	}
	stop()
	stop = leads(t, c)
	both := busFindings(t, c)
	finds(t, both, stateWarning, "one server alone", "cluster")
	if last := both[len(both)-1]; !strings.Contains(last.Text, "this one will stand by") {
		t.Errorf("%+v", last)
	}
	other := c
	other.Show.Title, other.Bus.Pair = "Another", false
	stop()
	finds(t, busFindings(t, other), stateWarning, "another configuration, and is begun anew", "begun with")
	c.Bus.Pair = false
	finds(t, busFindings(t, c), stateFine, "nobody leads the show there", "")
}

// TestCheckBusRoom: room is told, and that it comes to its end.
func TestCheckBusRoom(t *testing.T) {
	for _, row := range []struct {
		found bus.Found
		state state
		says  string
	}{
		{bus.Found{Free: -1}, stateFine, "no limit but its disk"},
		{bus.Found{Free: 2 << 20}, stateFine, "2 MB left"},
		{bus.Found{Free: 1<<20 - 1}, stateFails, "1 MB left"},
		{bus.Found{Shown: true, Bytes: 8e6, MaxBytes: 10e6}, stateFine, "8 MB of the 10 MB"},
		{bus.Found{Shown: true, Bytes: 8e6 + 1, MaxBytes: 10e6}, stateWarning, "8 MB of the 10 MB"},
	} {
		if got := checkBusRoom(config.Bus{MaxBytes: 1 << 20}, row.found); got.State != row.state || !strings.Contains(got.Text, row.says) || (got.Do == "") != (row.state == stateFine) {
			t.Errorf("%+v: %+v", row.found, got)
		}
	}
}
