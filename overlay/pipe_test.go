package overlay

import (
	"context"
	"encoding/json"
	"errors"
	"net"
	"net/http"
	"testing"
	"testing/fstest"
	"time"

	"github.com/coder/websocket"

	"clocktell/overlay/wire"
	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// pipeListener accepts in-memory connections, so that a server and its pages
// live in one bubble of fake time.
type pipeListener struct {
	conns chan net.Conn
	done  chan struct{}
	ip    net.IP // that it says it listens on
}

func newPipeListener() *pipeListener {
	return &pipeListener{conns: make(chan net.Conn), done: make(chan struct{}), ip: net.IPv4(127, 0, 0, 1)}
}

func (l *pipeListener) Accept() (net.Conn, error) {
	select {
	case c := <-l.conns:
		return c, nil
	case <-l.done:
		return nil, net.ErrClosed
	}
}

func (l *pipeListener) Close() error {
	close(l.done)
	return nil
}

func (l *pipeListener) Addr() net.Addr { return &net.TCPAddr{IP: l.ip, Port: 8600} }

// addressed is the server's end of a connection that comes from an address.
type addressed struct {
	net.Conn
	from net.Addr
}

func (a addressed) RemoteAddr() net.Addr { return a.from }

// dialFrom connects from an address.
func (l *pipeListener) dialFrom(ip net.IP) net.Conn {
	here, there := net.Pipe()
	select {
	case l.conns <- addressed{there, &net.TCPAddr{IP: ip, Port: 50000}}:
	case <-l.done:
	}
	return here
}

func (l *pipeListener) dial(context.Context, string, string) (net.Conn, error) {
	here, there := net.Pipe()
	select {
	case l.conns <- there:
		return here, nil
	case <-l.done:
		return nil, errors.New("server is gone")
	}
}

// hall is a relay with a server, on in-memory connections.
type hall struct {
	t        *testing.T
	listener *pipeListener
	client   *http.Client
	server   *Server
	events   chan relay.Event
	intake   *relay.Intake
	tb       relay.Timebase
	late     []time.Duration
	said     int // entries made by talk
	stop     func()
}

// newHall starts a hall. A change is made to its options, or to its listener, before. What
// its pages are sent holds nothing made by chance, which might spell a move: tests look
// for moves in it.
func newHall(t *testing.T, maxPages int, changes ...func(*hall, *Options)) *hall {
	tb := relay.NewTimebase(1)
	h := &hall{t: t, listener: newPipeListener(), events: make(chan relay.Event), intake: relay.NewIntake(relaytest.FeedName), tb: tb}
	h.client = &http.Client{Transport: &http.Transport{DialContext: h.listener.dial, DisableKeepAlives: true}}
	r := relay.New(relay.NewShow(relaytest.PlanWithBackup(), tb.Now()), tb)
	files := fstest.MapFS{"lib/x.js": {Data: []byte("export const x=1")}}
	for page := range pageKinds {
		files[page+"/index.html"] = &fstest.MapFile{Data: []byte("<p>" + page)}
	}
	options := Options{
		Relay: r, Time: tb, Static: files, MaxPages: maxPages, Enter: h.enter, Run: "SHOW",
		Late: func(d time.Duration) { h.late = append(h.late, d) },
	}
	for _, change := range changes {
		change(h, &options)
	}
	h.server = New(options)
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error, 2)
	go func() { done <- r.Run(ctx, h.events) }()
	go func() { done <- h.server.Serve(ctx, h.listener) }()
	h.stop = func() {
		cancel()
		for range 2 {
			if err := <-done; err != nil {
				t.Error(err)
			}
		}
	}
	return h
}

// enter brings an entry into the show, as the program does.
func (h *hall) enter(ctx context.Context, id string, e relay.Event) (relay.Entered, error) {
	changes := h.server.Relay.Subscribe()
	defer changes.Close()
	select {
	case h.events <- e:
	case <-ctx.Done():
		return relay.Entered{}, ctx.Err()
	}
	for {
		select {
		case <-changes.C:
			if entered, ok := h.server.Relay.Show().Entry(id); ok {
				return entered, nil
			}
		case <-ctx.Done():
			return relay.Entered{}, ctx.Err()
		}
	}
}

// play lets the feed tell a game as far as these moves.
func (h *hall) play(moves string) {
	game := relaytest.Game{Control: "600+5", Moves: moves}
	h.events <- h.intake.Read(h.tb.Now(), []byte(relaytest.Packet(game)))
}

// page is a page's end of a socket.
type page struct {
	t    *testing.T
	conn *websocket.Conn
}

func (h *hall) open(query string) *page {
	h.t.Helper()
	conn, _, err := websocket.Dial(context.Background(), "ws://127.0.0.1:8600/live?"+query, &websocket.DialOptions{HTTPClient: h.client})
	if err != nil {
		h.t.Fatal(err)
	}
	conn.SetReadLimit(1 << 20)
	return &page{h.t, conn}
}

// next reads one frame.
func (p *page) next() (kind string, data []byte) {
	p.t.Helper()
	_, data, err := p.conn.Read(context.Background())
	if err != nil {
		p.t.Fatal(err)
	}
	var head struct{ Type string }
	if err := json.Unmarshal(data, &head); err != nil {
		p.t.Fatal(err)
	}
	return head.Type, data
}

// until reads frames up to one of a type, into frame.
func (p *page) until(kind string, frame any) {
	p.t.Helper()
	for {
		got, data := p.next()
		if got != kind {
			continue
		}
		if err := json.Unmarshal(data, frame); err != nil {
			p.t.Fatal(err)
		}
		return
	}
}

func (p *page) board() wire.Board {
	p.t.Helper()
	var b wire.Board
	p.until(wire.TypeBoard, &b)
	return b
}

func (p *page) send(text string) {
	p.t.Helper()
	if err := p.conn.Write(context.Background(), websocket.MessageText, []byte(text)); err != nil {
		p.t.Fatal(err)
	}
}

// closed reads to the end and returns the close code.
func (p *page) closed() websocket.StatusCode {
	for {
		if _, _, err := p.conn.Read(context.Background()); err != nil {
			return websocket.CloseStatus(err)
		}
	}
}
