package feed

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/synctest"
	"time"
)

func TestFolderJoinsInOrder(t *testing.T) {
	s := newShelf(t, FolderOptions{})
	s.put("game10.pgn", "ten\n", "game2.PGN", "two", "Game1.Pgn", "one",
		"game3.txt", "no", "pgn", "no", ".game4.pgn", "no", "._game2.pgn", "no", "game5.pgn~", "no", "game6.pgn.part", "no")
	s.must(os.Mkdir(filepath.Join(s.dir, "game7.pgn"), 0o700))
	s.must(os.WriteFile(filepath.Join(s.dir, "game7.pgn", "game8.pgn"), []byte("no"), 0o600))
	elsewhere := filepath.Join(filepath.Dir(s.dir), "elsewhere")
	s.must(os.WriteFile(elsewhere, []byte("linked"), 0o600))
	s.must(os.Symlink(elsewhere, filepath.Join(s.dir, "game9.pgn")))
	s.must(os.Symlink(s.dir, filepath.Join(s.dir, "game11.pgn")))
	s.look()
	s.heardOnly("new one\ntwo\nlinked\nten\n")
	s.put("game3.pgn", "three")
	s.beat(1)
	s.heardOnly("new one\ntwo\nthree\nlinked\nten\n")
	s.beat(8)
	s.heardOnly("same", "same")
}

func TestFolderReadsOnlyWhatChanged(t *testing.T) {
	s := newShelf(t, FolderOptions{})
	s.put("1.pgn", "a", "2.pgn", "b")
	s.look()
	reads := map[string]int{}
	for name, f := range s.files {
		readAll := f.read
		f.read = func() ([]byte, error) { reads[name]++; return readAll() }
	}
	s.beat(20) // both are young at first
	s.events = nil
	clear(reads)
	s.beat(20)
	if len(reads) != 0 {
		t.Errorf("read %v although nothing changed", reads)
	}
	s.events = nil
	s.put("2.pgn", "bb")
	s.beat(1)
	s.heardOnly("new a\nbb")
	if reads["1.pgn"] != 0 || reads["2.pgn"] != 1 {
		t.Errorf("read %v, want only what changed, once", reads)
	}
}

func TestFolderModified(t *testing.T) {
	s := newShelf(t, FolderOptions{})
	s.put("2.pgn", "b")
	youngest := s.clock
	s.clock = s.clock.Add(-time.Hour)
	s.put("1.pgn", "a")
	s.look()
	s.beat(4)
	for _, e := range s.events {
		if !e.modified.Equal(youngest) {
			t.Errorf("%s: modified %v, want %v", e.short(), e.modified, youngest)
		}
	}
}

// Another name for the same content in the same place is no news.
func TestFolderRenamedFile(t *testing.T) {
	s := newShelf(t, FolderOptions{})
	s.put("1.pgn", "a", "2.pgn", "b")
	s.look()
	s.heardOnly("new a\nb")
	s.must(os.Rename(filepath.Join(s.dir, "2.pgn"), filepath.Join(s.dir, "3.pgn")))
	s.beat(1)
	s.heardOnly("new a\nb\nb") // it may be a copy, until it is clear that 2.pgn is gone
	s.beat(4)
	s.heardOnly("new a\nb")
}

func TestFolderRun(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		dir := t.TempDir()
		f, err := NewFolder(FolderOptions{Path: dir})
		f.hang = noNotices
		time.AfterFunc(600*ms, func() { os.WriteFile(filepath.Join(dir, "1.pgn"), []byte("a"), 0o600) })
		got := &recorder{during: 1100 * ms}
		begin := time.Now()
		runInside(t, f, err, got)
		if heard, want := strings.Join(shorts(got.events, begin), ", "), "0s file, 750ms new a"; heard != want {
			t.Errorf("heard %q, want %q", heard, want)
		}
		if want := "looked at every 0.25 s, not notified: too many open files"; f.Note() != want {
			t.Errorf("noted %q, want %q", f.Note(), want)
		}
	})
}

func TestNewFolderErrors(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "a.pgn")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for want, o := range map[string]FolderOptions{
		"feed folder: no path; name the folder the arena's program writes PGN files to":                {},
		"feed folder " + file + " is not a folder; name the folder, or watch it as a file":             {Path: file},
		"feed folder a: every -1ns is negative; give the time between two looks, or nothing for 250ms": {Path: "a", Every: -1},
		"feed folder a: size limit -1 is negative; give a number of bytes, or nothing for 16777216":    {Path: "a", MaxBytes: -1},
		"feed folder a: limit of -1 files is negative; give a number of files, or nothing for 1000":    {Path: "a", MaxFiles: -1},
	} {
		if f, err := NewFolder(o); f != nil || err == nil || err.Error() != want {
			t.Errorf("got %v, want %s", err, want)
		}
	}
}

func TestFolderLimitOfFiles(t *testing.T) {
	s := newShelf(t, FolderOptions{MaxFiles: 2})
	s.put("3.pgn", "c", "1.pgn", "a")
	s.look()
	s.heardOnly("new a\nc")
	s.put("2.pgn", "b")
	s.beat(1)
	s.says("feed folder "+s.dir+" holds 3 PGN files, and only the first 2 are read", "raise the limit")
	s.heardOnly("new a\nb\nc", "part too_large") // 3.pgn has its grace as any file that goes
	s.beat(4)
	s.heardOnly("new a\nb", "part too_large")
	s.remove("1.pgn")
	s.beat(5)
	s.heardOnly("new a\nb\nc", "new b\nc")
}

// A file left out for want of room comes back when there is some, however old it is then.
func TestFolderRoomAgain(t *testing.T) {
	s := newShelf(t, FolderOptions{MaxBytes: 7})
	s.put("1.pgn", "abc", "2.pgn", "def")
	s.look()
	s.put("1.pgn", "abcd")
	s.beat(20)
	s.events = nil
	s.put("1.pgn", "ab")
	s.beat(4)
	s.heardOnly("same", "part too_large")
	s.beat(1)
	s.heardOnly("new ab\ndef")
}

func TestFolderLimitOfFilesByDefault(t *testing.T) {
	s := newShelf(t, FolderOptions{})
	for i := range DefaultMaxFiles + 1 {
		s.put(fmt.Sprint(i, ".pgn"), "x")
	}
	s.look()
	if got := len(s.events[0].body); got != 2*DefaultMaxFiles-1 || s.events[1].reason != ReasonTooLarge {
		t.Errorf("got %d bytes and %q, want %d and too_large", got, s.events[1].reason, 2*DefaultMaxFiles-1)
	}
}

func TestFolderLimitOfBytes(t *testing.T) {
	s := newShelf(t, FolderOptions{MaxBytes: 7})
	s.put("1.pgn", "abc", "2.pgn", "def")
	s.look()
	s.heardOnly("new abc\ndef") // exactly as many
	s.put("1.pgn", "abcd")
	s.beat(1)
	s.says("feed file "+filepath.Join(s.dir, "2.pgn")+" is left out", "larger than 7 bytes together")
	s.heardOnly("new abcd", "part too_large")
	s.put("3.pgn", "gh") // what fits still is not left out for what does not
	s.beat(1)
	s.heardOnly("new abcd\ngh")
	s.put("1.pgn", "abcdefgh")
	s.beat(3)
	s.says("1.pgn is left out")
	s.heardOnly("new def\ngh", "part too_large")
	s.remove("2.pgn")
	s.remove("3.pgn")
	s.beat(5)
	s.says("1.pgn is left out")
	s.events = nil
	s.put("1.pgn", "abc")
	s.beat(1)
	s.heardOnly("new abc")
}
