package build

import (
	"bytes"
	"encoding/base64"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/klauspost/compress/gzip"
	"github.com/klauspost/compress/zstd"
)

// packers pack text as the ends of names say; bzip2 is left to its own program, since no
// library of ours writes it.
var packers = map[string]func(t *testing.T, text []byte) []byte{
	"plain": func(t *testing.T, text []byte) []byte { return text },
	"gz": func(t *testing.T, text []byte) []byte {
		var out bytes.Buffer
		for _, part := range [][]byte{text[:len(text)/2], text[len(text)/2:]} { // members one behind another: RFC 1952, 2.2
			w := gzip.NewWriter(&out)
			must(t, write(w, part), w.Close())
		}
		return out.Bytes()
	},
	"zst": func(t *testing.T, text []byte) []byte {
		var out bytes.Buffer
		for _, part := range [][]byte{text[:len(text)/3], text[len(text)/3:]} { // frames one behind another: RFC 8878, 3.1
			w, err := zstd.NewWriter(&out)
			must(t, err, write(w, part), w.Close())
		}
		return out.Bytes()
	},
}

func write(w interface{ Write([]byte) (int, error) }, b []byte) error {
	_, err := w.Write(b)
	return err
}

func must(t testing.TB, errs ...error) {
	t.Helper()
	for _, err := range errs {
		if err != nil {
			t.Fatal(err)
		}
	}
}

// TestPacked builds from the same games packed in every way: the same file, byte for byte.
// What is cut short is told of and makes no file.
func TestPacked(t *testing.T) {
	text := []byte(mustRead(t, someGames(t, 40)))
	var want string
	for _, name := range []string{"plain", "gz", "zst"} {
		packed := packers[name](t, text)
		o := options(t, mustWrite(t, "games", string(packed)))
		o.sizes = sizes{block: 20_000, game: 1 << 20, run: 3_000, fanIn: 3, doubles: 16}
		mustBuild(t, o)
		got := mustRead(t, o.Out)
		if want == "" {
			want = got
		}
		if got != want {
			t.Errorf("%s: another file than from plain text", name)
		}
		if name == "plain" {
			continue
		}
		short := options(t, mustWrite(t, "games", string(packed[:len(packed)-9])))
		if _, err := Run(t.Context(), short); err == nil || !strings.Contains(err.Error(), "is packed and cut short: get it again") {
			t.Errorf("%s cut short: %v", name, err)
		}
		if _, err := os.Stat(short.Out); !os.IsNotExist(err) {
			t.Errorf("%s cut short: there is a file", name)
		}
	}
}

// bzip2Game is the text below it, packed by the program bzip2 1.0.8.
const bzip2Game = `QlpoOTFBWSZTWWS5iPsAABLfgAAQUAN+ADoBAIo77RcAIABUYyaaYmJgBGmaCGqDTQMTENPSGmjwFDidNGZkzI0XJrg5TQmBbFIC4Xnafn030WVeu63AOcJbt3nwM6F3JFOFCQZLmI+w`

const bzip2Text = "[Event \"Club\"]\n[White \"Aune\"]\n[Black \"Berg\"]\n\n1. e4 e5 2. Nf3 1-0\n"

func TestBzip2(t *testing.T) {
	packed, err := base64.StdEncoding.DecodeString(bzip2Game)
	must(t, err)
	from := func(text string) string {
		o := options(t, mustWrite(t, "games", text))
		mustBuild(t, o)
		return mustRead(t, o.Out)
	}
	if from(string(packed)) != from(bzip2Text) {
		t.Error("another file than from plain text")
	}
	if program, err := exec.LookPath("bzip2"); err == nil {
		out, err := exec.Command(program, "-dc", mustWrite(t, "games.bz2", string(packed))).Output()
		if err != nil || string(out) != bzip2Text {
			t.Errorf("bzip2 itself makes %q of it, %v", out, err)
		}
	}
}

// Files that are none are refused before anything is done.
func TestInputsRefused(t *testing.T) {
	dir := t.TempDir()
	game := mustWrite(t, "games.pgn", bzip2Text)
	tests := map[string]func(o *Options){
		"no such file":           func(o *Options) { o.Inputs = []string{filepath.Join(dir, "nowhere.pgn")} },
		"a folder":               func(o *Options) { o.Inputs = []string{dir} },
		"named twice":            func(o *Options) { o.Inputs = []string{game, game} },
		"over a file with games": func(o *Options) { o.Out = filepath.Join(dir, "out.PGN") },
		"over an input": func(o *Options) {
			o.Inputs = []string{filepath.Join(dir, "x")}
			o.Out = filepath.Join(dir, "x")
		},
		"no file":        func(o *Options) { o.Out = "" },
		"no input":       func(o *Options) { o.Inputs = nil },
		"depth 0":        func(o *Options) { o.Depth = 0 },
		"depth too much": func(o *Options) { o.Depth = DepthMost + 1 },
		"rating":         func(o *Options) { o.Keep.MinRating = 2350 },
		"years":          func(o *Options) { o.Keep.FromYear, o.Keep.ToYear = 2020, 2010 },
	}
	for name, spoil := range tests {
		o := Options{Out: filepath.Join(dir, "out.ref"), Inputs: []string{game}, Depth: DepthDefault}
		spoil(&o)
		if _, err := Run(t.Context(), o); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if entries, err := os.ReadDir(dir); err != nil || len(entries) > 0 {
		t.Errorf("%d files were made, %v", len(entries), err)
	}
}
