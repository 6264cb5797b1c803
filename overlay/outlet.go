package overlay

import (
	"bufio"
	"encoding/binary"
	"errors"
	"math"
	"net"
	"net/http"
	"sync"
)

// message is a whole message, one frame with its header, as it goes to every page that takes it.
type message []byte

// Opcodes of frames (RFC 6455, 5.2), and the bit of the last of a message.
const (
	codeText  = 0x1
	codeClose = 0x8
	codeBits  = 0xf
	finalBit  = 0x80
)

// framed is a text message in one frame from a server, which does not mask (RFC 6455, 5.2).
func framed(text []byte) message {
	head := make([]byte, 1, 10+len(text))
	head[0] = finalBit | codeText
	switch n := len(text); {
	case n < 126:
		head = append(head, byte(n))
	case n <= math.MaxUint16:
		head = binary.BigEndian.AppendUint16(append(head, 126), uint16(n))
	default:
		head = binary.BigEndian.AppendUint64(append(head, 127), uint64(n))
	}
	return append(head, text...)
}

// Sizes of a page's buffers. A control frame, which is all that the library writes, has up to
// 127 bytes (RFC 6455, 5.5); what pages send is about as long.
const (
	readBuffer  = 256
	writeBuffer = 128
	joinMost    = 16 << 10 // frames of up to so many bytes leave together

	// sendMost is what the system may keep of what a page has not taken yet. Left to itself it
	// keeps megabytes for a slow page, which would be shown what is long past.
	sendMost = 128 << 10

	// unsentMost is how much of that may not even be under way yet, where the system can be told so. A
	// page that takes 10 kB/s was shown what was 20 s old without it, and its pongs came so late that it
	// took its line to be dead.
	unsentMost = 16 << 10

	// lookMost is how much of boards a page is sent in one look. The next look sees which state the
	// others have by then, so that a slow page keeps no more than this of states that are past.
	lookMost = 64 << 10
)

// outlet is where all leaves that goes to a page: frames that were encoded once for all pages,
// and what the library has to say, each whole. It waits for the page to take it, see patience.go.
type outlet struct {
	net.Conn

	mu   sync.Mutex // protects following, and writing
	shut bool       // after a frame that says good-bye, or half a frame, nothing may follow
}

// Write is for the library, which writes control frames only, each in one piece.
func (o *outlet) Write(p []byte) (int, error) {
	o.mu.Lock()
	defer o.mu.Unlock()
	if o.shut {
		return 0, net.ErrClosed
	}
	n, err := o.Conn.Write(p)
	o.shut = err != nil || p[0]&codeBits == codeClose
	return n, err
}

// joins are buffers for frames that leave together.
var joins = sync.Pool{New: func() any {
	buffer := make([]byte, 0, joinMost)
	return &buffer
}}

// send writes frames in their order, small ones together: one piece costs less than two.
func (o *outlet) send(frames []message) error {
	if len(frames) == 1 {
		_, err := o.Write(frames[0])
		return err
	}
	buffer := joins.Get().(*[]byte)
	defer joins.Put(buffer)
	for len(frames) > 0 {
		joined, n := (*buffer)[:0], 0
		for n < len(frames) && len(joined)+len(frames[n]) <= joinMost {
			joined = append(joined, frames[n]...)
			n++
		}
		if n == 0 {
			joined, n = frames[0], 1 // as it is, without a copy
		}
		if _, err := o.Write(joined); err != nil {
			return err
		}
		frames = frames[n:]
	}
	return nil
}

// hijacking gives the library a connection with small buffers: net/http's would stay as long
// as the page, 8 KiB each way, though frames are written past them.
type hijacking struct {
	http.ResponseWriter
	box    *mailbox
	outlet *outlet // once it has been hijacked
}

// Hijack implements http.Hijacker.
func (h *hijacking) Hijack() (net.Conn, *bufio.ReadWriter, error) {
	conn, rw, err := http.NewResponseController(h.ResponseWriter).Hijack()
	if err != nil {
		return nil, nil, err
	}
	h.outlet = &outlet{Conn: conn}
	if err := becomesPage(conn, h.box); err != nil {
		return nil, nil, errors.Join(err, conn.Close())
	}
	reader := rw.Reader
	if reader.Buffered() == 0 { // else the page has spoken before it was answered
		reader = bufio.NewReaderSize(conn, readBuffer)
	}
	return h.outlet, bufio.NewReadWriter(reader, bufio.NewWriterSize(h.outlet, writeBuffer)), nil
}
