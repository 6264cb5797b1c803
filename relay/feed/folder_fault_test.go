package feed

import (
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"time"
)

func TestFolderMissingThenBack(t *testing.T) {
	s := newShelf(t, FolderOptions{})
	s.must(os.Remove(s.dir))
	s.look()
	s.says("feed folder " + s.dir + ": no such file or directory; is the path right, and has the arena's program made it yet?")
	s.heardOnly("file")
	s.beat(4)
	s.heardOnly("file")
	s.must(os.Mkdir(s.dir, 0o700))
	s.beat(4)
	s.says("feed folder " + s.dir + " holds no game in a file whose name ends in .pgn")
	s.heardOnly("file")
	s.put("1.pgn", "a")
	s.beat(1)
	s.heardOnly("new a")
	s.remove("1.pgn")
	s.must(os.Remove(s.dir))
	s.beat(1)
	s.heardOnly("file")
	s.must(os.Mkdir(s.dir, 0o700))
	s.put("1.pgn", "a")
	s.beat(1)
	s.heardOnly("same")
}

// One file that cannot be read is told beside the others, once per second, and keeps the
// content it had.
func TestFolderUnreadableFile(t *testing.T) {
	s := newShelf(t, FolderOptions{})
	s.put("1.pgn", "a", "2.pgn", "b", "3.pgn", "c")
	s.look()
	s.heardOnly("new a\nb\nc")
	second := s.files["2.pgn"]
	readAll := second.read
	second.read = func() ([]byte, error) { return nil, &fs.PathError{Op: "open", Path: "x", Err: fs.ErrPermission} }
	s.put("2.pgn", "bb")
	s.beat(1)
	s.says("feed file " + filepath.Join(s.dir, "2.pgn") + ": permission denied; can this user read it?")
	s.heardOnly("part file")
	s.put("3.pgn", "cc")
	s.beat(1)
	s.heardOnly("new a\nb\ncc")
	s.beat(8)
	s.heardOnly("part file", "same", "part file", "same")
	second.read = readAll
	s.beat(1)
	s.heardOnly("new a\nbb\ncc")
	second.read = func() ([]byte, error) { return nil, fs.ErrPermission }
	s.put("2.pgn", "b")
	s.beat(1)
	s.heardOnly("part file") // at once: there was a time without
}

func TestFolderOfUnreadableFiles(t *testing.T) {
	s := newShelf(t, FolderOptions{Check: checkTags})
	s.put("1.pgn", "<p>", "2.pgn", "<p>", "3.pgn", "<p>")
	s.look()
	s.beat(3)
	s.heardOnly() // half written, perhaps
	s.beat(1)
	s.says("feed file " + filepath.Join(s.dir, "1.pgn") + ": no tag pair in 3 bytes; is this the PGN file? (and 2 more like that)")
	s.heardOnly("not_pgn")
	s.beat(8)
	s.heardOnly("not_pgn", "not_pgn")
	s.put("2.pgn", pgn)
	s.beat(1)
	s.says("and 1 more")
	s.heardOnly("new "+pgn, "part not_pgn")
}

// An answer may end the context: the fault that belongs beside it is not told any more.
func TestFolderEndsBetweenAnswerAndFault(t *testing.T) {
	dir := t.TempDir()
	for name, content := range map[string]string{"1.pgn": "a", "2.pgn": "bcd"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(content), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	f, err := NewFolder(FolderOptions{Path: dir, MaxBytes: 2})
	got := &recorder{limit: 1}
	runInside(t, f, err, got)
	if len(got.events) != 1 || got.events[0].short() != "new a" {
		t.Errorf("heard %v, want one answer", shorts(got.events, time.Time{}))
	}
}

// Files for games to come are often made empty.
func TestFolderEmptyFiles(t *testing.T) {
	s := newShelf(t, FolderOptions{Check: checkTags})
	s.put("1.pgn", "", "2.pgn", " \r\n")
	s.look()
	s.beat(3)
	s.heardOnly()
	s.beat(1)
	s.heardOnly("file") // no game in any
	s.put("3.pgn", pgn)
	s.beat(1)
	s.heardOnly("new " + pgn)
	s.beat(8)
	s.heardOnly("same", "same") // and no fault
	s.put("3.pgn", "")          // that one did hold a game
	s.beat(4)
	s.heardOnly("same")
	s.beat(1)
	s.heardOnly("part not_pgn")
}

// Half written: read again at the next looks, as for a single file, while the others go on.
func TestFolderWaitsForTheWriter(t *testing.T) {
	s := newShelf(t, FolderOptions{})
	s.put("1.pgn", "a", "2.pgn", "b")
	s.look()
	second := s.files["2.pgn"]
	readAll := second.read
	second.read = func() ([]byte, error) {
		body, err := readAll()
		s.put("2.pgn", string(body)+"b")
		return body, err
	}
	s.events = nil
	s.put("1.pgn", "aa", "2.pgn", "bb")
	s.beat(4)
	s.heardOnly("new aa\nb")
	s.beat(1)
	s.heardOnly("new aa\nbbbbbb")
}

// Deleted and made again: the game stays where it was.
func TestFolderFileGoneForAMoment(t *testing.T) {
	s := newShelf(t, FolderOptions{})
	s.put("1.pgn", "a", "2.pgn", "b")
	s.look()
	s.events = nil
	s.remove("1.pgn")
	s.beat(3)
	s.heardOnly()
	s.put("1.pgn", "aa")
	s.beat(1)
	s.heardOnly("new aa\nb")
	s.remove("1.pgn")
	s.beat(4)
	s.heardOnly("same")
	s.beat(1)
	s.heardOnly("new b")
	if len(s.files) != 1 {
		t.Errorf("remembers %d files, want 1", len(s.files))
	}
}

// A link that leads nowhere is a file that cannot be read, once the grace is over.
func TestFolderDanglingLink(t *testing.T) {
	s := newShelf(t, FolderOptions{})
	s.put("1.pgn", "a")
	s.must(os.Symlink("nowhere", filepath.Join(s.dir, "2.pgn")))
	s.look()
	s.heardOnly("new a")
	s.beat(3)
	s.heardOnly()
	s.beat(1)
	s.says("2.pgn: no such file or directory")
	s.heardOnly("same", "part file")
}

// A file that becomes something else while the folder is read.
func TestFolderFileBecomesDirectory(t *testing.T) {
	s := newShelf(t, FolderOptions{})
	s.put("1.pgn", "a", "2.pgn", "b")
	s.look()
	s.events = nil
	s.remove("2.pgn")
	s.must(os.Mkdir(filepath.Join(s.dir, "2.pgn"), 0o700))
	s.beat(4)
	s.heardOnly("same")
	s.beat(1)
	s.heardOnly("new a")
}
