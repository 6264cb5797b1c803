package overlay

import (
	"context"
	"encoding/binary"
	"io"
	"net"
	"net/http"
	"sync"
	"time"

	"github.com/coder/websocket"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

var fanoutServers = map[string]func() fanoutServer{
	"relay": newFanoutRelay, "raw": func() fanoutServer { return newBroadcaster(serveRaw) }, "coder": func() fanoutServer { return newBroadcaster(serveCoder) },
}

// fanoutRelay is the relay with the real server.
type fanoutRelay struct {
	relay  *relay.Relay
	server *Server
	events chan relay.Event
}

func newFanoutRelay() fanoutServer {
	tb := relay.NewTimebase(1)
	r := &fanoutRelay{relay: relay.New(relay.NewShow(relaytest.Plan(), tb.Now()), tb), events: make(chan relay.Event)}
	r.server = New(Options{Relay: r.relay, Time: tb, MaxPages: 20_000, MaxConns: 20_000, MaxConnsEach: 20_000})
	go func() { _ = r.relay.Run(context.Background(), r.events) }() // until the process ends
	return r
}

func (r *fanoutRelay) serve(ctx context.Context, l net.Listener) error { return r.server.Serve(ctx, l) }

func (r *fanoutRelay) move(e relay.Event, plies int) (at int64, rev uint64) {
	changes := r.relay.Subscribe()
	defer changes.Close()
	at = sharedClock()
	r.events <- e
	for {
		if boards := r.relay.Show().Boards; len(boards) > 0 && len(boards[0].Plies) == plies {
			return at, boards[0].Rev
		}
		<-changes.C
	}
}

// broadcaster is the least that writes the same bytes: a goroutine and a mailbox for each page.
type broadcaster struct {
	run  func(b *broadcaster, ctx context.Context, l net.Listener) error
	past *relay.History // of no use to it, but the relay's memory has the same
	show *relay.Show

	mu     sync.Mutex // protects following
	boxes  []chan []byte
	newest []byte // the frame with its header
}

func newBroadcaster(run func(*broadcaster, context.Context, net.Listener) error) *broadcaster {
	return &broadcaster{run: run, past: relay.NewHistory(), show: relay.NewShow(relaytest.Plan(), time.Now())}
}

func (b *broadcaster) serve(ctx context.Context, l net.Listener) error { return b.run(b, ctx, l) }

func (b *broadcaster) move(e relay.Event, _ int) (at int64, rev uint64) {
	b.show = b.past.After(b.show, e)
	board := b.show.Boards[0]
	frame := withHeader(encode(boardFrame(board, board.Rev-1)))
	at = sharedClock()
	b.mu.Lock()
	defer b.mu.Unlock()
	b.newest = frame
	for _, box := range b.boxes {
		select {
		case box <- frame:
		default: // it never is full here: the last page has had the frame before
		}
	}
	return at, board.Rev
}

// withHeader is a text frame of a server (RFC 6455, 5.2) of up to 64 KiB.
func withHeader(text []byte) []byte {
	if len(text) < 126 || len(text) > 1<<16-1 {
		panic("a frame of another size than those of boards")
	}
	return append(binary.BigEndian.AppendUint16([]byte{0x81, 126}, uint16(len(text))), text...)
}

const headerOfFrame = 4 // bytes, as withHeader writes it

func (b *broadcaster) box() chan []byte {
	box := make(chan []byte, 1)
	b.mu.Lock()
	defer b.mu.Unlock()
	box <- b.newest
	b.boxes = append(b.boxes, box)
	return box
}

func serveRaw(b *broadcaster, _ context.Context, l net.Listener) error {
	for {
		conn, err := l.Accept()
		if err != nil {
			return err
		}
		box := b.box()
		go func() { _, _ = io.Copy(io.Discard, onlyReader{conn}) }()
		go func() {
			for frame := range box {
				if _, err := conn.Write(frame); err != nil {
					return
				}
			}
		}()
	}
}

// onlyReader keeps io.Copy from a buffer of 32 KiB for each page.
type onlyReader struct{ net.Conn }

func (r onlyReader) WriteTo(io.Writer) (int64, error) {
	for heard := make([]byte, 512); ; {
		if _, err := r.Read(heard); err != nil {
			return 0, err
		}
	}
}

func serveCoder(b *broadcaster, _ context.Context, l net.Listener) error {
	return http.Serve(l, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		conn, err := websocket.Accept(w, r, &websocket.AcceptOptions{CompressionMode: websocket.CompressionDisabled})
		if err != nil {
			return
		}
		defer conn.CloseNow()
		box := b.box()
		go func() {
			for {
				if _, _, err := conn.Read(context.Background()); err != nil {
					return
				}
			}
		}()
		for frame := range box {
			ctx, cancel := context.WithTimeout(context.Background(), writeWait)
			err := conn.Write(ctx, websocket.MessageText, frame[headerOfFrame:])
			cancel()
			if err != nil {
				return
			}
		}
	}))
}
