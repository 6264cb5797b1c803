package bus

import (
	"context"
	"encoding/json"
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/nats-io/nats-server/v2/server"

	"clocktell/relay"
)

// small starts a bus that takes messages of so many bytes only.
func small(t *testing.T, payload int32) *Server {
	t.Helper()
	s, err := server.NewServer(&server.Options{Host: "127.0.0.1", Port: server.RANDOM_PORT, JetStream: true, StoreDir: t.TempDir(), MaxPayload: payload, NoSigs: true, NoLog: true})
	if err != nil {
		t.Fatal(err)
	}
	s.Start()
	if !s.ReadyForConnections(soon) {
		t.Fatal("the server does not start")
	}
	t.Cleanup((&Server{s}).Close)
	return &Server{s}
}

// long is an entry that no such bus takes in one message.
func long(n *node, id string) relay.AtPanel {
	e := note(n, id)
	e.Text, e.Note = id, strings.Repeat(id, 9000)
	return e
}

func TestLongMessagesGoInParts(t *testing.T) {
	t.Parallel()
	s := small(t, 4<<10)
	a, b := newNode(t, s.URL(), "a").start(), newNode(t, s.URL(), "b").start()
	a.in <- long(a, "long")
	enters(t, a, b, "short")
	if !b.has("long") || b.bus.Now().Last < 10 {
		t.Errorf("at message %d", b.bus.Now().Last)
	}
	c := newNode(t, s.URL(), "c").start()
	if !c.has("long") {
		t.Error("who comes later lacks it")
	}
}

// TestLeaderDiesAmidParts lets a leader write the beginning of a message only, and then
// another one, or itself, go on.
func TestLeaderDiesAmidParts(t *testing.T) {
	t.Parallel()
	s := small(t, 4<<10)
	begin := newNode(t, s.URL(), "dead")
	if err := begin.open(t.Context()); err != nil {
		t.Fatal(err)
	}
	b, c := newNode(t, s.URL(), "b").start(), newNode(t, s.URL(), "c").start()
	messages, err := begin.bus.stream.messages([]relay.Event{long(begin, "half")})
	if err != nil || len(messages) < 3 {
		t.Fatal(len(messages), err)
	}
	half := len(messages) / 2
	if n, err := begin.bus.appendAll(t.Context(), messages[:half]); n != half || err != nil {
		t.Fatal(n, err)
	}
	begin.bus.Close()
	next := leading(t, b, c)
	next.in <- long(next, "whole")
	for _, n := range []*node{b, c} {
		enters(t, next, n, "behind-"+n.o.ID)
		if n.has("half") || !n.has("whole") {
			t.Errorf("%s: half %v, whole %v", n.o.ID, n.has("half"), n.has("whole"))
		}
	}
	all, _, _ := written(t, s)
	if len(all) != 3 {
		t.Errorf("the stream has %v", all)
	}
}

// TestOwnPartsAreForgotten holds that a process that claims the show behind parts it has read
// does not put them before what it reads next.
func TestOwnPartsAreForgotten(t *testing.T) {
	t.Parallel()
	s := small(t, 4<<10)
	n := newNode(t, s.URL(), "a")
	if err := n.open(t.Context()); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(n.bus.Close)
	n.bus.part = []byte("the beginning of a message")
	if err := n.bus.claim(t.Context()); err != nil {
		t.Fatal(err)
	}
	if n.bus.part != nil {
		t.Error("it is still there")
	}
}

func TestBusThatTakesTooLittle(t *testing.T) {
	t.Parallel()
	n := newNode(t, small(t, 1<<10).URL(), "a")
	if _, err := Open(t.Context(), n.o); err == nil || !strings.Contains(err.Error(), "max_payload") {
		t.Errorf("got %v", err)
	}
}

// TestFullStream fills a stream: the server says so with the code that append knows, see
// codeStoreFailed.
func TestFullStream(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	n := newNode(t, s.URL(), "a")
	n.o.MaxBytes = 8 << 10
	if err := n.open(t.Context()); err != nil {
		t.Fatal(err)
	}
	last := n.bus.stream.last
	if err := n.bus.stream.append(t.Context(), ofEvent, make([]byte, 9<<10)); !errors.Is(err, ErrFull) || n.bus.stream.last != last {
		t.Errorf("got %v", err)
	}
	n.run()
	for range 20 {
		select {
		case n.in <- long(n, "x"):
		default:
		}
	}
	until(t, "it is said", func() bool {
		wrong := n.show.Load().Bus.Wrong
		return strings.Contains(wrong, "takes nothing") && strings.Contains(wrong, "is full")
	})
	larger := n.o
	larger.MaxBytes = 1 << 20
	b, err := Open(t.Context(), larger)
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	until(t, "a larger one takes what waited", func() bool { return n.show.Load().Bus.Wrong == "" })
}

// TestTakesNothingFromAnotherVersion ends with what to do, and not with half a show.
func TestTakesNothingFromAnotherVersion(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	a := newNode(t, s.URL(), "a")
	if err := a.open(t.Context()); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(a.bus.Close)
	b := newNode(t, s.URL(), "b").start()
	text, err := json.Marshal([]item{{Kind: "applause", At: 1}})
	if err != nil {
		t.Fatal(err)
	}
	if err := a.bus.stream.append(context.Background(), ofEvent, text); err != nil {
		t.Fatal(err)
	}
	select {
	case <-b.endedC:
	case <-time.After(soon):
		t.Fatal("it goes on")
	}
	if err := b.stop(); err == nil || !strings.Contains(err.Error(), "applause") {
		t.Errorf("got %v", err)
	}
}

// TestLastPartIsUnanswered deposes a leader whose message has got to the bus in full, but for
// the answer to its last part: it reads that part behind those it has written.
func TestLastPartIsUnanswered(t *testing.T) {
	t.Parallel()
	s := small(t, 4<<10)
	a, b := newNode(t, s.URL(), "a"), newNode(t, s.URL(), "b")
	if err := a.open(t.Context()); err != nil {
		t.Fatal(err)
	}
	b.o.Follow = true
	b.start()
	messages, err := a.bus.stream.messages([]relay.Event{long(a, "unanswered")})
	if err != nil || len(messages) < 3 {
		t.Fatal(len(messages), err)
	}
	end := len(messages) - 1
	if _, err := a.bus.appendAll(t.Context(), messages[:end]); err != nil {
		t.Fatal(err)
	}
	answered := a.bus.stream.last
	if err := a.bus.stream.append(t.Context(), messages[end].kind, messages[end].data); err != nil {
		t.Fatal(err)
	}
	a.bus.stream.last, a.bus.leads = answered, false
	if err := (&writing{bus: a.bus}).fails(messages, end, ErrNoBus); !errors.Is(err, errDeposed) {
		t.Fatal(err)
	}
	a.run()
	until(t, "both have it", func() bool { return a.has("unanswered") && b.has("unanswered") })
	leading(t, a)
	enters(t, a, b, "behind it")
}
