package overlay

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"os"

	"golang.org/x/sys/unix"
)

// fanoutPages is a process of its own that stands for many pages: one thread, one epoll,
// the same for every server. Its arguments are how many pages, and of which kind the server is.
// It says when the last of its pages has got a revision of the board, as "revision nanoseconds"
// of the clock that all processes of a machine share.
type fanoutPages struct {
	epoll   int
	count   int
	pages   []*fanoutPage  // by descriptor
	reached map[uint64]int // how many pages have come to a revision
	said    uint64
	out     *bufio.Writer
	got     []byte
}

// fanoutPage is what a page has of the frame under way.
type fanoutPage struct {
	head []byte // of the frame: up to headSeen bytes
	left int    // bytes of it to come
	rev  uint64
}

// headSeen is how much of a frame is looked at: its header, type and revision.
const headSeen = 96

func runFanoutPages(args string) error {
	var count int
	var kind, address string
	if _, err := fmt.Sscan(args, &count, &kind, &address); err != nil {
		return err
	}
	epoll, err := unix.EpollCreate1(0)
	if err != nil {
		return err
	}
	p := &fanoutPages{epoll: epoll, count: count, reached: make(map[uint64]int), out: bufio.NewWriter(os.Stdout), got: make([]byte, 64<<10)}
	for n := range count {
		if err := p.open(n, kind, address); err != nil {
			return fmt.Errorf("page %d: %w", n, err)
		}
	}
	stdin := int32(os.Stdin.Fd())
	if err := unix.EpollCtl(epoll, unix.EPOLL_CTL_ADD, int(stdin), &unix.EpollEvent{Events: unix.EPOLLIN, Fd: stdin}); err != nil {
		return err
	}
	fmt.Fprintln(p.out, "open")
	if err := p.out.Flush(); err != nil {
		return err
	}
	return p.serve(stdin)
}

// open connects a page and asks for its board.
func (p *fanoutPages) open(n int, kind, address string) error {
	fd, err := dialFanout(n, address, func(int) error { return nil })
	if err != nil {
		return err
	}
	if kind != "raw" {
		if err := shakeHands(fd, address); err != nil {
			return err
		}
	}
	if err := unix.SetNonblock(fd, true); err != nil {
		return err
	}
	p.pages = append(p.pages, make([]*fanoutPage, max(0, fd+1-len(p.pages)))...)
	p.pages[fd] = &fanoutPage{head: make([]byte, 0, headSeen)}
	return unix.EpollCtl(p.epoll, unix.EPOLL_CTL_ADD, fd, &unix.EpollEvent{Events: unix.EPOLLIN, Fd: int32(fd)})
}

// dialFanout connects page n, from one of many addresses; Linux takes all of 127.0.0.0/8 for
// loopback (RFC 1122, 3.2.1.3).
func dialFanout(n int, address string, prepare func(fd int) error) (int, error) {
	var port int
	if _, err := fmt.Sscanf(address, "127.0.0.1:%d", &port); err != nil {
		return 0, err
	}
	fd, err := unix.Socket(unix.AF_INET, unix.SOCK_STREAM|unix.SOCK_CLOEXEC, 0)
	if err != nil {
		return 0, err
	}
	if err := prepare(fd); err != nil {
		return 0, err
	}
	if err := unix.Bind(fd, &unix.SockaddrInet4{Addr: [4]byte{127, 0, byte(1 + n/200), 1}}); err != nil {
		return 0, err
	}
	return fd, unix.Connect(fd, &unix.SockaddrInet4{Addr: [4]byte{127, 0, 0, 1}, Port: port})
}

// shakeHands opens a WebSocket; the key is the one of RFC 6455, 1.3. It reads byte by byte, so
// as to leave the first frame.
func shakeHands(fd int, host string) error {
	request := "GET /live?page=scene/board&board=1 HTTP/1.1\r\nHost: " + host + "\r\nUpgrade: websocket\r\nConnection: Upgrade\r\n" +
		"Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\nSec-WebSocket-Version: 13\r\n\r\n"
	if _, err := unix.Write(fd, []byte(request)); err != nil {
		return err
	}
	var answer []byte
	for one := make([]byte, 1); !bytes.HasSuffix(answer, []byte("\r\n\r\n")); {
		n, err := readOn(fd, one)
		if err != nil || n == 0 {
			return fmt.Errorf("handshake: %q, %v", answer, err)
		}
		answer = append(answer, one...)
	}
	if !bytes.Contains(answer, []byte(" 101 ")) || !bytes.Contains(answer, []byte("s3pPLMBiTxaQ9kYGzzhZRbK+xOo=")) {
		return fmt.Errorf("handshake: %q", answer)
	}
	return nil
}

// readOn reads as unix.Read does, and again when a signal came first: of a socket with a limit of
// time Linux leaves that to the reader (signal(7)).
func readOn(fd int, p []byte) (int, error) {
	for {
		if n, err := unix.Read(fd, p); !errors.Is(err, unix.EINTR) {
			return n, err
		}
	}
}

// serve reads what comes until whoever started it is gone. A line on its input asks for a sign
// of life from every page, so that none counts as silent.
func (p *fanoutPages) serve(stdin int32) error {
	events := make([]unix.EpollEvent, 512)
	for {
		n, err := unix.EpollWait(p.epoll, events, -1)
		if errors.Is(err, unix.EINTR) {
			continue
		}
		if err != nil {
			return err
		}
		for _, event := range events[:n] {
			if event.Fd == stdin {
				if n, err := os.Stdin.Read(p.got); err != nil || n == 0 {
					return nil
				}
				p.ping()
				continue
			}
			if err := p.read(int(event.Fd)); err != nil {
				return err
			}
		}
		if err := p.out.Flush(); err != nil {
			return err
		}
	}
}

func (p *fanoutPages) ping() {
	frame := append([]byte{0x81, 0x80 | 31, 0, 0, 0, 0}, `{"type":"ping","t":1,"late":[]}`...) // masked with zeros (RFC 6455, 5.3)
	for fd, page := range p.pages {
		if page == nil {
			continue
		}
		_, _ = unix.Write(fd, frame) // a few bytes; who is gone shows in reading
	}
}

func (p *fanoutPages) read(fd int) error {
	n, err := unix.Read(fd, p.got)
	if errors.Is(err, unix.EAGAIN) {
		return nil
	}
	if err != nil {
		return err
	}
	if n == 0 {
		return io.ErrUnexpectedEOF
	}
	page := p.pages[fd]
	for data := p.got[:n]; len(data) > 0; {
		if data, err = p.frame(page, data); err != nil {
			return err
		}
	}
	return nil
}

// frame takes as much of data as belongs to the frame under way, and returns the rest. A
// revision counts once its whole frame is there.
func (p *fanoutPages) frame(page *fanoutPage, data []byte) ([]byte, error) {
	for page.left == 0 { // in the header
		page.head, data = append(page.head, data[0]), data[1:]
		header, payload, whole := headerOf(page.head)
		if whole {
			page.left = payload
			if header == 0 || payload == 0 {
				return nil, fmt.Errorf("a frame that begins %x", page.head)
			}
			break
		}
		if len(data) == 0 {
			return nil, nil
		}
	}
	take := min(page.left, len(data))
	page.head = append(page.head, data[:min(take, headSeen-len(page.head))]...)
	page.left -= take
	if page.left == 0 {
		p.whole(page)
	}
	return data[take:], nil
}

// headerOf reads the header of a frame from a server (RFC 6455, 5.2).
func headerOf(head []byte) (length, payload int, whole bool) {
	switch {
	case len(head) < 2 || head[1] == 126 && len(head) < 4 || head[1] == 127 && len(head) < 10:
		return 0, 0, false
	case head[1] == 126:
		return 4, int(binary.BigEndian.Uint16(head[2:])), true
	case head[1] == 127:
		return 10, int(binary.BigEndian.Uint64(head[2:])), true
	}
	return 2, int(head[1]), true
}

func (p *fanoutPages) whole(page *fanoutPage) {
	head := page.head
	page.head = page.head[:0]
	at := bytes.Index(head, []byte(`"type":"board"`))
	if at < 0 {
		return
	}
	var rev uint64
	_, after, _ := bytes.Cut(head[at:], []byte(`"rev":`))
	for _, digit := range after {
		if digit < '0' || digit > '9' {
			break
		}
		rev = rev*10 + uint64(digit-'0')
	}
	for r := max(page.rev, p.said) + 1; r <= rev; r++ {
		p.reached[r]++
		if p.reached[r] == p.count {
			delete(p.reached, r)
			p.said = r
			fmt.Fprintln(p.out, r, sharedClock())
		}
	}
	page.rev = rev
}

// sharedClock is nanoseconds of a clock that is the same in all processes.
func sharedClock() int64 {
	var now unix.Timespec
	if err := unix.ClockGettime(unix.CLOCK_MONOTONIC, &now); err != nil {
		panic(err) // Linux has it
	}
	return now.Nano()
}
