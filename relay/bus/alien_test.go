package bus

import (
	"encoding/json"
	"fmt"
	"log/slog"
	"strings"
	"sync"
	"testing"

	"github.com/nats-io/nats.go"

	"clocktell/relay"
)

// strange writes messages of every kind, but that of a beginning, that are not of the show behind its
// last one, as somebody does who has no part in it.
func strange(t *testing.T, s *Server) {
	t.Helper()
	conn, err := nats.Connect(s.URL())
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	n := newNode(t, s.URL(), "stranger")
	events, err := encode([]relay.Event{note(n, "strange")})
	if err != nil {
		t.Fatal(err)
	}
	lead, err := json.Marshal(Lead{ID: "stranger", At: n.now()})
	if err != nil {
		t.Fatal(err)
	}
	for _, epoch := range []string{"", "of another show"} {
		for kind, data := range map[string][]byte{ofEvent: events, ofLead: lead, ofPart: []byte("[{"), ofEvent + " broken": []byte("{")} {
			kind, _, _ = strings.Cut(kind, " ")
			m := &nats.Msg{Subject: "clocktell.test" + kind, Data: data, Header: nats.Header{headerEpoch: {epoch}}}
			if _, err := conn.RequestMsg(m, soon); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// logged counts the lines of a process's log that say something.
type logged struct {
	mu   sync.Mutex // protects text
	text strings.Builder
}

func (l *logged) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.Write(p)
}

func (l *logged) count(what string) int {
	l.mu.Lock()
	defer l.mu.Unlock()
	return strings.Count(l.text.String(), what)
}

// TestAliensAreLeftOut writes messages into the stream that are not of the show: whoever leads goes on
// leading, whoever follows and whoever comes later leaves them out, and each says so once.
func TestAliensAreLeftOut(t *testing.T) {
	t.Parallel()
	for _, paired := range []bool{true, false} {
		t.Run(fmt.Sprintf("pair %v", paired), func(t *testing.T) {
			t.Parallel()
			s, said := serve(t, "127.0.0.1:0", t.TempDir()), new(logged)
			a, b := newNode(t, s.URL(), "a"), newNode(t, s.URL(), "b")
			a.o.Pair, b.o.Follow, b.o.Log = paired, true, slog.New(slog.NewTextHandler(said, nil))
			leading(t, a.start())
			enters(t, a, b.start(), "before")
			strange(t, s)
			enters(t, a, b, "between")
			strange(t, s)
			enters(t, a, b, "after")
			if now := a.bus.Now(); now.Terms != 1 || now.Cut || a.show.Load().Bus.Wrong != "" {
				t.Errorf("the leader: %+v, %q", now, a.show.Load().Bus.Wrong)
			}
			c := newNode(t, s.URL(), "c")
			c.o.Follow = true
			enters(t, a, c.start(), "last")
			if n := said.count("is not of this show"); n != 1 {
				t.Errorf("it is said %d times", n)
			}
			wantWritten(t, s, []string{"before", "between", "after", "last"})
		})
	}
}

// TestClaimsBehindAliens lets the leader end behind messages that are not of the show: the other
// leads all the same.
func TestClaimsBehindAliens(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	line := newProxy(t, s.address())
	a, b := newNode(t, line.url(), "a").start(), newNode(t, s.URL(), "b")
	enters(t, a, b.start(), "before")
	line.drop()
	strange(t, s)
	leading(t, b)
	enters(t, b, b, "after")
	line.heal()
	until(t, "a follows", func() bool { return a.has("after") })
	wantWritten(t, s, []string{"before", "after"})
}

// TestLooksPastAliens: who looks at the bus is told of the leader of the show.
func TestLooksPastAliens(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	a := newNode(t, s.URL(), "a").start()
	leading(t, a)
	strange(t, s)
	if found, err := Look(t.Context(), newNode(t, s.URL(), "b").o); err != nil || found.Leader != "a" {
		t.Errorf("%+v, %v", found, err)
	}
}
