package feed

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// shelf is a watched folder and a clock that moves only when told.
type shelf struct {
	*survey
	*recorder
	t     *testing.T
	dir   string
	clock time.Time
}

func newShelf(t *testing.T, o FolderOptions) *shelf {
	s := &shelf{recorder: &recorder{}, t: t, dir: filepath.Join(t.TempDir(), "games"), clock: time.Date(2031, 5, 1, 12, 0, 0, 0, time.UTC)}
	s.must(os.Mkdir(s.dir, 0o700))
	o.Path, o.Now = s.dir, func() time.Time { return s.clock }
	f, err := NewFolder(o)
	s.must(err)
	s.survey = f.survey(s.recorder)
	return s
}

func (s *shelf) must(err error) {
	s.t.Helper()
	if err != nil {
		s.t.Fatal(err)
	}
}

// put writes files, named and filled in turn, and dates them by the shelf's clock.
func (s *shelf) put(files ...string) {
	s.t.Helper()
	for i := 0; i < len(files); i += 2 {
		path := filepath.Join(s.dir, files[i])
		s.must(os.WriteFile(path, []byte(files[i+1]), 0o600))
		s.must(os.Chtimes(path, s.clock, s.clock))
	}
}

func (s *shelf) remove(name string) { s.must(os.Remove(filepath.Join(s.dir, name))) }

// beat lets n beats pass and looks at each.
func (s *shelf) beat(n int) {
	for range n {
		s.clock = s.clock.Add(DefaultLook)
		s.look()
	}
}

// heardOnly takes the events since the last call, in short.
func (s *shelf) heardOnly(want ...string) {
	s.t.Helper()
	var got []string
	for _, e := range s.events {
		got = append(got, e.short())
	}
	s.events = nil
	if strings.Join(got, ", ") != strings.Join(want, ", ") {
		s.t.Errorf("heard %q, want %q", got, want)
	}
}

// says holds the text of the event n from the last against parts of it.
func (s *shelf) says(parts ...string) {
	s.t.Helper()
	if len(s.events) == 0 {
		s.t.Fatal("nothing was heard")
	}
	text := s.events[len(s.events)-1].err
	for _, part := range parts {
		if !strings.Contains(text, part) {
			s.t.Errorf("got %q, want it to say %q", text, part)
		}
	}
}
