package overlay

import (
	"bytes"
	"encoding/binary"
	"errors"
	"io"
	"log/slog"
	"net"
	"os"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/coder/websocket"

	"clocktell/overlay/wire"
)

// TestFramed holds the headers to RFC 6455, 5.2: 7 bits of length, else 126 and 16 bits, else 127 and 64.
func TestFramed(t *testing.T) {
	for _, test := range []struct {
		length int
		head   string
	}{
		{0, "\x81\x00"}, {125, "\x81\x7d"}, {126, "\x81\x7e\x00\x7e"}, {65535, "\x81\x7e\xff\xff"}, {65536, "\x81\x7f\x00\x00\x00\x00\x00\x01\x00\x00"},
	} {
		text := strings.Repeat("x", test.length)
		if got := string(framed([]byte(text))); got != test.head+text {
			t.Errorf("a text of %d begins %q, want %q", test.length, got[:min(12, len(got))], test.head)
		}
	}
}

// written is a connection that keeps what is written, piece by piece.
type written struct {
	net.Conn
	pieces []string
	err    error
}

func (w *written) SetWriteDeadline(time.Time) error { return nil }

func (w *written) Write(p []byte) (int, error) {
	w.pieces = append(w.pieces, string(p))
	return len(p), w.err
}

// TestOutletJoins: what is sent at once leaves in order, small frames together, and of large
// ones no copy is made.
func TestOutletJoins(t *testing.T) {
	small, large := framed([]byte("a")), framed(bytes.Repeat([]byte("b"), joinMost))
	for _, test := range []struct {
		frames []message
		pieces int
	}{
		{nil, 0}, {[]message{small}, 1}, {[]message{small, small, small}, 1}, {[]message{large, large}, 2}, {[]message{small, large, small, small}, 3},
	} {
		conn := new(written)
		if err := (&outlet{Conn: conn}).send(test.frames); err != nil {
			t.Fatal(err)
		}
		var want string
		for _, f := range test.frames {
			want += string(f)
		}
		if got := strings.Join(conn.pieces, ""); got != want || len(conn.pieces) != test.pieces {
			t.Errorf("%d frames left in %d pieces, %d bytes; want %d pieces, %d bytes in order", len(test.frames), len(conn.pieces), len(got), test.pieces, len(want))
		}
	}
}

// TestOutletShuts: after a close frame nothing may follow (RFC 6455, 5.5.1), and after half a
// frame the rest of the line is noise.
func TestOutletShuts(t *testing.T) {
	conn := new(written)
	o := &outlet{Conn: conn}
	if _, err := o.Write([]byte{finalBit | codeClose, 2, 0x03, 0xe9}); err != nil {
		t.Fatal(err)
	}
	if err := o.send([]message{framed([]byte("late"))}); !errors.Is(err, net.ErrClosed) || len(conn.pieces) != 1 {
		t.Errorf("after a close frame: %v, %d pieces", err, len(conn.pieces))
	}
	conn = &written{err: os.ErrDeadlineExceeded}
	o = &outlet{Conn: conn}
	if err := o.send([]message{framed([]byte("half"))}); !errors.Is(err, os.ErrDeadlineExceeded) {
		t.Errorf("a write that fails: %v", err)
	}
	if _, err := o.Write([]byte{finalBit | codeClose, 0}); !errors.Is(err, net.ErrClosed) || len(conn.pieces) != 1 {
		t.Errorf("after half a frame: %v, %d pieces", err, len(conn.pieces))
	}
}

// TestPageSpeaksFirst: what a page sends along with its handshake, before it is answered, is read.
func TestPageSpeaksFirst(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		conn := h.listener.dialFrom(net.IPv4(127, 0, 0, 1))
		defer conn.Close()
		go func() {
			_, _ = io.WriteString(conn, shake("page=panel")+string(frame(fin|opText, "no JSON")))
		}()
		all, _ := io.ReadAll(conn) // the relay closes
		if want := binary.BigEndian.AppendUint16(nil, wire.CloseBadFrame); !bytes.Contains(all, append(want, "frame not understood: not JSON"...)) {
			t.Errorf("answered %q, want a close with 4001", all)
		}
	})
}

// TestMistakeEndsThePage: a mistake in what is done for one page ends that page and is logged; the
// others go on.
func TestMistakeEndsThePage(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var log bytes.Buffer
		h := newHall(t, 0, func(_ *hall, o *Options) {
			o.Log = slog.New(slog.NewTextHandler(&log, nil))
			o.Note = func(string) string { panic("planted") } // asked for the frame of feeds
		})
		health, scene := h.open("page=health"), h.open("page=scene/board")
		if got := health.closed(); got != -1 {
			t.Errorf("close code %d, want the line cut", got)
		}
		h.play("e4")
		if got := scene.board(); len(got.Plies) != 1 {
			t.Errorf("the other page is sent %d plies, want 1", len(got.Plies))
		}
		synctest.Wait()
		scene.conn.Close(websocket.StatusNormalClosure, "")
		h.stop()
		if !strings.Contains(log.String(), "planted") || !strings.Contains(log.String(), errMistake.Error()) {
			t.Errorf("the log does not tell of it: %s", log.String())
		}
	})
}
