package feed

import (
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"testing/synctest"
	"time"
)

func TestFileNoticesEachKindOfRewrite(t *testing.T) {
	for name, rewrite := range map[string]func(d *desk){
		"in place":    func(d *desk) { d.write("b2") },
		"same length": func(d *desk) { d.write("b") },
		"same length, within a second of the last": func(d *desk) { d.write("b"); d.date(d.path, d.clock.Add(-DefaultLook)) },
		"same length, dated back":                  func(d *desk) { d.write("b"); d.date(d.path, d.clock.Add(-time.Hour)) },
		"append": func(d *desk) {
			f, err := os.OpenFile(d.path, os.O_APPEND|os.O_WRONLY, 0)
			if err != nil {
				d.t.Fatal(err)
			}
			f.WriteString("b")
			f.Close()
		},
		"renamed over":             func(d *desk) { d.writeTo(d.path+".new", "b2"); os.Rename(d.path+".new", d.path) },
		"removed and written anew": func(d *desk) { os.Remove(d.path); d.write("b") },
	} {
		t.Run(name, func(t *testing.T) {
			for _, looks := range []int{0, 20} { // young, and long unchanged
				d := newDesk(t, FileOptions{})
				d.write("a")
				d.look()
				d.beat(looks)
				d.events = nil
				d.clock = d.clock.Add(DefaultLook)
				rewrite(d)
				d.look()
				want, _ := os.ReadFile(d.path)
				d.heardOnly("new " + string(want))
			}
		})
	}
}

// A renamed file of the same size and time, long after the last change, is another file.
func TestFileNoticesRenameWithOldTime(t *testing.T) {
	d := newDesk(t, FileOptions{})
	d.write("a")
	date := d.clock
	d.beat(20)
	d.events = nil
	d.writeTo(d.path+".new", "b")
	d.date(d.path+".new", date)
	if err := os.Rename(d.path+".new", d.path); err != nil {
		t.Fatal(err)
	}
	d.beat(1)
	d.heardOnly("new b")
}

func TestNewFileErrors(t *testing.T) {
	dir := t.TempDir()
	for _, row := range []struct {
		o    FileOptions
		want string
	}{
		{FileOptions{}, "feed file: no path; name the PGN file the arena's program writes"},
		{FileOptions{Path: dir}, "feed file " + dir + " is a directory; name the PGN file in it"},
		{FileOptions{Path: os.DevNull}, "feed file " + os.DevNull + " is not a regular file (" + (fs.ModeDevice | fs.ModeCharDevice).String() + "); name the PGN file the arena's program writes"},
		{FileOptions{Path: "a.pgn", Every: -1}, "feed file a.pgn: every -1ns is negative; give the time between two looks, or nothing for 250ms"},
		{FileOptions{Path: "a.pgn", MaxBytes: -1}, "feed file a.pgn: size limit -1 is negative; give a number of bytes, or nothing for 16777216"},
	} {
		if f, err := NewFile(row.o); f != nil || err == nil || err.Error() != row.want {
			t.Errorf("got %v, want %s", err, row.want)
		}
	}
}

// Run in fake time on a true file: each change is heard at the next look, a quarter of a second on at most.
func TestFileRun(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		path := filepath.Join(t.TempDir(), "games.pgn")
		f, err := NewFile(FileOptions{Path: path})
		if err != nil {
			t.Fatal(err)
		}
		f.hang = noNotices
		got := &recorder{during: 2100 * time.Millisecond}
		ctx, cancel := got.context(t.Context())
		defer cancel()
		for at, content := range map[time.Duration]string{600: "a", 1100: "b"} {
			time.AfterFunc(at*time.Millisecond, func() { os.WriteFile(path, []byte(content), 0o600) })
		}
		begin := time.Now()
		if err := f.Run(ctx, got); err != nil {
			t.Errorf("Run returned %v, want nil", err)
		}
		if took := time.Since(begin); took != got.during {
			t.Errorf("ended after %v, want %v", took, got.during)
		}
		want := []event{
			{reason: ReasonFile, at: begin},
			{isNew: true, body: "a", at: begin.Add(750 * time.Millisecond)},
			{isNew: true, body: "b", at: begin.Add(1250 * time.Millisecond)},
		}
		if len(got.events) != len(want) {
			t.Fatalf("heard %+v, want %d events", got.events, len(want))
		}
		for i, e := range got.events {
			if w := want[i]; e.reason != w.reason || e.isNew != w.isNew || e.body != w.body || !e.at.Equal(w.at) {
				t.Errorf("event %d: got %+v, want %+v", i+1, e, w)
			}
		}
	})
}
