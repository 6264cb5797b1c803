package feed

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// desk is a watched file and a clock that moves only when told.
type desk struct {
	*watch
	*recorder
	t     *testing.T
	path  string
	clock time.Time
	reads int
}

func newDesk(t *testing.T, o FileOptions) *desk {
	d := &desk{recorder: &recorder{}, t: t, path: filepath.Join(t.TempDir(), "games.pgn"), clock: time.Date(2031, 5, 1, 12, 0, 0, 0, time.UTC)}
	o.Path, o.Now = d.path, func() time.Time { return d.clock }
	f, err := NewFile(o)
	if err != nil {
		t.Fatal(err)
	}
	d.watch = f.watch(d.recorder)
	readAll := d.read
	d.read = func() ([]byte, error) { d.reads++; return readAll() }
	return d
}

// write replaces the content in place and dates it by the desk's clock.
func (d *desk) write(content string) { d.writeTo(d.path, content) }

func (d *desk) writeTo(path, content string) {
	d.t.Helper()
	if err := os.WriteFile(path, []byte(content), 0o600); err != nil {
		d.t.Fatal(err)
	}
	d.date(path, d.clock)
}

func (d *desk) date(path string, at time.Time) {
	d.t.Helper()
	if err := os.Chtimes(path, at, at); err != nil {
		d.t.Fatal(err)
	}
}

// beat lets one beat pass and looks.
func (d *desk) beat(n int) {
	for range n {
		d.clock = d.clock.Add(DefaultLook)
		d.look()
	}
}

// heardOnly takes the events since the last call, each in short: "new a", "same", a Reason.
func (d *desk) heardOnly(want ...string) {
	d.t.Helper()
	var got []string
	for _, e := range d.events {
		got = append(got, e.short())
	}
	d.events = nil
	if strings.Join(got, ", ") != strings.Join(want, ", ") {
		d.t.Errorf("heard %q, want %q", got, want)
	}
}
