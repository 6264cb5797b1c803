package overlay

import (
	"bufio"
	"errors"
	"io"
	"os"
	"runtime"
	"testing"

	"golang.org/x/sys/unix"

	"clocktell/relay"
)

// TestStalledPagesHoldLittle: for a page that takes nothing no more is kept than one look in this
// process and, where nothing can be under way, unsentMost in the system; what is told meanwhile takes the place of what was.
func TestStalledPagesHoldLittle(t *testing.T) {
	const (
		stalled  = 100
		keptMost = 48 << 10                       // of each in this process: two stacks, its state, small buffers
		lineMost = unsentMost + joinMost + 32<<10 // what went in last is taken whole; the page's own end takes some
		boardMin = 1500                           // bytes that a page is sent of a move
	)
	moves, read := 400, 3 // how many of the pages read on in the end: the system takes a while over each
	if os.Getenv("CLOCKTELL_TESTS") == "relay" {
		moves, read = 60, 0 // with the race detector as many moves take longer than writeWait
	}
	h, address := startOnLoopback(t)
	feed := newFanoutFeed()
	told := make([]func(), moves)
	for n := range told {
		event, plies := feed.next(h.tb.Now())
		told[n] = func() { tellMove(h, event, plies) }
	}
	told[0]()
	var pages []int
	for range stalled {
		pages = append(pages, dialSmall(t, address))
	}
	for _, tell := range told[1:] {
		tell()
	}
	with, last := liveNow(), h.server.Relay.Show().Boards[0].Rev
	for _, page := range pages[:read] {
		got := readTo(t, page, last)
		if got > lineMost || got > moves*boardMin/2 {
			t.Errorf("a page was %d bytes behind on the line, more than %d", got, lineMost)
		}
		t.Logf("a page that reads on has %d bytes to read up to the newest of %d moves", got, moves)
	}
	for _, page := range pages {
		if err := unix.Close(page); err != nil {
			t.Fatal(err)
		}
	}
	h.server.pages.wg.Wait()
	each := (with - liveNow()) / stalled
	t.Logf("%d bytes were kept for each of %d stalled pages", each, stalled)
	if each > keptMost || each < 1000 {
		t.Errorf("%d bytes were kept for each page: want at most %d, and less than 1,000 is not to be believed", each, keptMost)
	}
}

// tellMove lets the feed tell a move, and returns when the show has it.
func tellMove(h *hall, event relay.Event, plies int) {
	changes := h.server.Relay.Subscribe()
	defer changes.Close()
	for h.events <- event; ; {
		<-changes.C
		if boards := h.server.Relay.Show().Boards; len(boards) == 1 && len(boards[0].Plies) == plies {
			return
		}
	}
}

// dialSmall opens a board scene whose own end of the line takes little. It is a bare descriptor, so
// that nothing in this process is kept for the page but by the server.
func dialSmall(t *testing.T, address string) int {
	t.Helper()
	fd, err := dialFanout(0, address, func(fd int) error {
		return errors.Join(unix.SetsockoptInt(fd, unix.SOL_SOCKET, unix.SO_RCVBUF, 4<<10),
			unix.SetsockoptTimeval(fd, unix.SOL_SOCKET, unix.SO_RCVTIMEO, &unix.Timeval{Sec: 10})) // should nothing come
	})
	if err == nil {
		err = shakeHands(fd, address)
	}
	if err != nil {
		t.Fatal(err)
	}
	return fd
}

// readTo reads up to a revision of board 1, and returns how many bytes that took.
func readTo(t *testing.T, fd int, last uint64) (size int) {
	t.Helper()
	if err := unix.SetsockoptInt(fd, unix.SOL_SOCKET, unix.SO_RCVBUF, 1<<20); err != nil { // or it takes a time
		t.Fatal(err)
	}
	reader := &fanoutPages{count: 1, reached: make(map[uint64]int), out: bufio.NewWriter(io.Discard)}
	page, got := new(fanoutPage), make([]byte, 64<<10)
	for page.rev < last {
		n, err := readOn(fd, got)
		if err != nil || n == 0 {
			t.Fatalf("at revision %d of %d: read %d, %v", page.rev, last, n, err)
		}
		size += n
		for data := got[:n]; len(data) > 0; {
			if data, err = reader.frame(page, data); err != nil {
				t.Fatal(err)
			}
		}
	}
	return size
}

// liveNow is what this process keeps, bytes.
func liveNow() int {
	runtime.GC()
	runtime.GC() // what the first found to be finished
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return int(m.HeapAlloc + m.StackInuse)
}
