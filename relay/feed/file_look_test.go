package feed

import (
	"os"
	"strings"
	"testing"
	"time"
)

// While young the file is read at every look, later only stat'ed. What follows from that, an
// in-place rewrite of the same size under an old time, is the limit the package names.
func TestFileIsReadAgainWhileYoung(t *testing.T) {
	const s = time.Second
	for name, row := range map[string]struct {
		dated time.Duration // the modification time, seen from the first look
		reads int           // in 20 looks after the first, 5 s
	}{
		"dated now":               {0, 8},          // 2 s and a look more
		"dated long ago":          {-time.Hour, 8}, // a share's clock behind ours
		"dated a second from now": {s, 12},
		"dated far in the future": {time.Hour, 20},
	} {
		t.Run(name, func(t *testing.T) {
			d := newDesk(t, FileOptions{})
			d.write("a")
			d.date(d.path, d.clock.Add(row.dated))
			d.look()
			d.reads = 0
			d.beat(20)
			if d.reads != row.reads {
				t.Errorf("read %d times, want %d", d.reads, row.reads)
			}
		})
	}
}

// A new time on the same bytes makes the file young again, not for ever.
func TestFileTouched(t *testing.T) {
	d := newDesk(t, FileOptions{})
	d.write("a")
	d.beat(20)
	d.events, d.reads = nil, 0
	d.date(d.path, d.clock.Add(-time.Hour))
	d.beat(8)
	d.heardOnly("same", "same")
	d.beat(20)
	if d.reads != 9 {
		t.Errorf("read %d times, want 9: the look that noticed and 8 while young", d.reads)
	}
}

func TestFileSaysUnchangedOncePerSecond(t *testing.T) {
	d := newDesk(t, FileOptions{})
	d.write("a")
	d.look()
	d.heardOnly("new a")
	begin := d.clock
	for i := 1; i <= 13; i++ {
		d.beat(1)
		if want := d.clock.Sub(begin)%time.Second == 0; (len(d.events) == 1) != want {
			t.Errorf("look %d: %d events, want one only at whole seconds", i, len(d.events))
		}
		d.events = nil
	}
}

// Written while it is read: given up to four beats, then shown as it is.
func TestFileWaitsForTheWriter(t *testing.T) {
	for writes := range 4 {
		d := newDesk(t, FileOptions{})
		d.write("a")
		left, readAll := writes+1, d.read
		d.read = func() ([]byte, error) {
			body, err := readAll()
			if left--; left >= 0 {
				d.write(string(body) + "a")
			}
			return body, err
		}
		d.look()
		d.beat(writes)
		d.heardOnly()
		d.beat(1)
		d.heardOnly("new " + strings.Repeat("a", writes+2))
	}
}

func TestFileAppendedToAllTheTimeIsShown(t *testing.T) {
	d := newDesk(t, FileOptions{})
	d.write("a")
	readAll := d.read
	d.read = func() ([]byte, error) {
		body, err := readAll()
		d.write(string(body) + "a")
		return body, err
	}
	d.beat(4)
	d.heardOnly()
	d.beat(1)
	d.heardOnly("new aaaaa")
	d.beat(5)
	d.heardOnly("new aaaaaaaaaa")
}

// Written anew in place, and for a moment only half of it is there.
func TestFileShorterWaits(t *testing.T) {
	d := newDesk(t, FileOptions{})
	d.write("abc")
	d.look()
	d.heardOnly("new abc")
	d.write("a")
	d.beat(3)
	d.heardOnly()
	d.write("abd")
	d.beat(1)
	d.heardOnly("new abd")
	d.write("a")
	d.beat(4)
	d.heardOnly()
	d.beat(1)
	d.heardOnly("new a") // it is meant
}

// Truncated now, written later: what Check refuses is given the same four beats.
func TestFileGraceForRefusedContent(t *testing.T) {
	d := newDesk(t, FileOptions{Check: checkTags})
	d.write(pgn)
	d.look()
	d.heardOnly("new " + pgn)
	d.write("")
	d.beat(2)
	d.heardOnly()
	d.write(pgn + pgn)
	d.beat(1)
	d.heardOnly("new " + pgn + pgn)

	d.write("<html>")
	d.beat(4)
	d.heardOnly()
	d.beat(1)
	if !strings.Contains(d.events[0].err, d.path) || !strings.Contains(d.events[0].err, "no tag pair in 6 bytes; is this the PGN file?") {
		t.Errorf("got %q", d.events[0].err)
	}
	d.heardOnly("not_pgn")
	d.beat(8)
	d.heardOnly("not_pgn", "not_pgn")
	d.write(pgn + pgn)
	d.beat(1)
	d.heardOnly("same")
	d.write("")
	d.beat(4) // and it is given the grace again
	d.heardOnly()
	d.beat(1)
	d.heardOnly("not_pgn")
	os.Remove(d.path)
	d.beat(1)
	d.heardOnly("file")
	d.write("") // a new file gets its own
	d.beat(4)
	d.heardOnly()
}
