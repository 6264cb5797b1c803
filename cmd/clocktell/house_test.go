package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

const root = "../.."

// allowed says which packages of our own, and which libraries, each package may
// import. The reason stands beside it. The standard library is open to all but
// the pure packages, see impure.
var allowed = map[string][]string{
	// The domain: knows rules, knows nothing of where PGN comes from or goes to.
	"relay":          {"relay/bitboard", "relay/desk", "relay/notation", "relay/opinion", "relay/pgn", "relay/clock", "relay/tell", "relay/match", "relay/prompt", "relay/remark", "github.com/notnil/chess"},
	"relay/notation": {"github.com/notnil/chess"},                                                                                                                               // the one legal move that a text means
	"relay/desk":     {"relay/bitboard", "relay/notation", "github.com/notnil/chess"},                                                                                           // what desks share: moves and marks, no clocks
	"relay/pgn":      {},                                                                                                                                                        // notation only, no rules
	"relay/clock":    {},                                                                                                                                                        // time only
	"relay/tell":     {"relay/clock"},                                                                                                                                           // clocks to probabilities
	"relay/prompt":   {"relay/clock", "relay/match", "relay/bitboard", "relay/facts", "relay/remark", "relay/opinion"},                                                          // figures, remarks and opinions to sentences
	"relay/feed":     {"github.com/fsnotify/fsnotify", "golang.org/x/sync/errgroup"},                                                                                            // bytes only: a source must not know chess
	"relay/journal":  {"relay", "relay/bitboard", "relay/opinion", "modernc.org/sqlite", "modernc.org/sqlite/lib"},                                                              // events to records and back
	"relay/config":   {"relay/clock", "relay/prompt", "relay/match", "github.com/BurntSushi/toml"},                                                                              // checks the time control, the language and the match it is given
	"relay/bus":      {"relay", "github.com/nats-io/nats.go", "github.com/nats-io/nats.go/jetstream", "github.com/nats-io/nats-server/v2/server", "golang.org/x/sync/errgroup"}, // events to other processes and back
	"relay/metrics": {"relay", "relay/prompt", "github.com/prometheus/client_golang/prometheus",
		"github.com/prometheus/client_golang/prometheus/collectors", "github.com/prometheus/client_golang/prometheus/promhttp"},
	"relay/reference":               {"relay/clock", "golang.org/x/sys/unix"}, // a file and what is in it: positions are numbers to it
	"relay/reference/referencetest": {"relay/clock", "relay/reference"},       // made-up games for tests and benchmarks
	"relay/reference/build": {"relay/pgn", "relay/clock", "relay/tell", "relay/bitboard", "relay/reference", "golang.org/x/sync/errgroup", // text to occurrences
		"github.com/klauspost/compress/zstd", "github.com/klauspost/compress/gzip"},
	"relay/reference/rivals": {"relay/reference", "relay/reference/referencetest", "github.com/cockroachdb/pebble/v2", // a module of its own
		"github.com/cockroachdb/pebble/v2/bloom", "go.etcd.io/bbolt", "modernc.org/sqlite", "golang.org/x/sys/unix"},
	"overlay/access": {}, // roles and tokens: who may, not what is behind it
	"overlay": {"overlay/access", "relay", "relay/bitboard", "relay/clock", "relay/desk", "relay/opinion", "relay/prompt", "relay/tell", "overlay/wire", "golang.org/x/sys/unix", // reads snapshots, writes frames
		"github.com/coder/websocket", "golang.org/x/sync/errgroup", "github.com/evanw/esbuild/pkg/api"},
	"relay/recap": {"relay", "relay/clock", "relay/desk", "relay/diagram", "relay/drawing", "relay/opinion", "relay/pgn", "relay/prompt", "relay/tell", "relay/tellline", "static"}, // a show to what is left of it; static is the type

	"relay/tellline": {"relay/drawing"},                                                                                                         // times to shapes
	"relay/diagram":  {"relay/drawing"},                                                                                                         // a position to shapes
	"relay/drawing":  {"golang.org/x/image/vector", "golang.org/x/image/font", "golang.org/x/image/font/sfnt", "golang.org/x/image/math/fixed"}, // shapes to text and pixels

	"relay/cue":               {"relay", "relay/desk", "relay/prompt"},                                                    // states of the show to what an editor reads
	"relay/relaytest":         {"relay", "relay/pgn"},                                                                     // builders for tests
	"relay/match":             {},                                                                                         // results to what they mean: arithmetic alone
	"relay/bitboard":          {},                                                                                         // rules as sets of squares: for anyone, on nothing
	"relay/facts":             {"relay/bitboard"},                                                                         // a position to what stands on it: no clocks, no sentences
	"relay/opinion":           {"relay/bitboard"},                                                                         // what a second opinion is: no engine
	"relay/engine":            {"relay/bitboard", "relay/opinion", "golang.org/x/sync/errgroup", "golang.org/x/sys/unix"}, // a UCI process: positions, no games
	"relay/engine/enginetest": {"relay/bitboard", "golang.org/x/sync/errgroup"},                                           // an engine for tests
	"relay/remark":            {"relay/bitboard", "relay/facts"},                                                          // facts to what is worth saying of them: no sentences
	"overlay/wire":            {},                                                                                         // the protocol stands alone, so that anyone can read it
	"cmd/crowd":               {"relay/bitboard", "overlay/wire", "golang.org/x/sync/errgroup"},                           // a relay's pages and feeds from outside: nothing of the relay but its protocol
	"static":                  {},
	"testdata/demo":           {},
}

// impure is what a package without I/O must not import.
var impure = []string{"net", "net/http", "os", "os/exec", "io/fs", "log", "log/slog", "syscall"}

var pure = []string{"relay", "relay/pgn", "relay/clock", "relay/tell", "relay/prompt", "relay/bitboard", "relay/facts", "relay/remark", "relay/match", "relay/notation", "relay/desk", "relay/opinion", "relay/cue", "relay/recap", "relay/tellline", "relay/diagram"}

func TestImports(t *testing.T) {
	for dir, files := range sources(t) {
		if dir == "cmd/clocktell" {
			continue // sees everything
		}
		permitted, known := allowed[dir]
		if !known {
			t.Errorf("package %s is not in the table of allowed imports", dir)
		}
		for _, path := range imports(files) {
			own, isOwn := strings.CutPrefix(path, "clocktell/")
			isLibrary := strings.Contains(strings.Split(path, "/")[0], ".")
			if (isOwn || isLibrary) && !slices.Contains(permitted, own) && !slices.Contains(permitted, path) {
				t.Errorf("%s imports %s, which the table does not allow", dir, path)
			}
			if slices.Contains(pure, dir) && slices.Contains(impure, path) {
				t.Errorf("%s imports %s: it is pure", dir, path)
			}
		}
	}
}

// TestPackageComments holds each package to exactly one package comment.
func TestPackageComments(t *testing.T) {
	for dir, files := range sources(t) {
		var with []string
		for name, file := range files {
			if file.Doc != nil {
				with = append(with, name)
			}
		}
		if len(with) != 1 {
			t.Errorf("package %s has package comments in %v, want exactly one", dir, with)
		}
	}
}

// The only files that may start a goroutine: each waits for what it starts.
var starters = map[string]bool{
	"cmd/clocktell/station.go": true, "cmd/clocktell/lead.go": true, "cmd/clocktell/demo.go": true, "cmd/clocktell/replay.go": true, "cmd/clocktell/prompts_engine.go": true,
	"relay/feed/growing.go": true, "relay/bus/run.go": true, "relay/bus/write.go": true, "relay/bus/ask.go": true, "relay/engine/live.go": true, "relay/engine/enginetest/enginetest.go": true,
	"cmd/crowd/crowd.go": true, "cmd/crowd/link.go": true, "cmd/crowd/yardstick.go": true,
	"overlay/server.go": true, "overlay/viewer.go": true,
	"relay/reference/build/read.go": true, "relay/reference/build/sort.go": true, "relay/reference/build/write.go": true,
}

// TestOwners finds goroutines started anywhere else, clocks read inside pure
// packages, and functions that have grown too long.
func TestOwners(t *testing.T) {
	for dir, files := range sources(t) {
		for name, file := range files {
			ast.Inspect(file, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.GoStmt:
					t.Errorf("%s/%s starts a goroutine with go: use an errgroup that is waited for", dir, name)
				case *ast.CallExpr:
					call := callName(n)
					if strings.HasSuffix(call, ".Go") && !starters[dir+"/"+name] {
						t.Errorf("%s/%s starts a goroutine; the starters are %v", dir, name, slices.Sorted(maps.Keys(starters)))
					}
					if call == "time.Now" && slices.Contains(pure, dir) && dir+"/"+name != "relay/relay.go" {
						t.Errorf("%s/%s reads the clock: time is passed in", dir, name)
					}
				}
				return true
			})
		}
	}
}

// Lengths past which a file or a function needs to be cut.
const (
	fileLinesMost     = 250
	functionLinesMost = 45
)

// longFiles may be longer, each for a reason.
var longFiles = map[string]string{
	"overlay/wire/wire.go": "the protocol is one file, so that it can be read as one",
}

func TestLengths(t *testing.T) {
	for dir, files := range sources(t) {
		for name, file := range files {
			if n := position(file.FileEnd).Line; n > fileLinesMost && longFiles[dir+"/"+name] == "" {
				t.Errorf("%s/%s has %d lines, more than %d", dir, name, n, fileLinesMost)
			}
			for _, decl := range file.Decls {
				f, ok := decl.(*ast.FuncDecl)
				if ok && position(f.End()).Line-position(f.Pos()).Line > functionLinesMost {
					t.Errorf("%s/%s: %s is longer than %d lines", dir, name, f.Name.Name, functionLinesMost)
				}
			}
		}
	}
}

var fileSet = token.NewFileSet()

func position(p token.Pos) token.Position { return fileSet.Position(p) }

func callName(call *ast.CallExpr) string {
	selector, ok := call.Fun.(*ast.SelectorExpr)
	if !ok {
		return ""
	}
	if x, ok := selector.X.(*ast.Ident); ok {
		return x.Name + "." + selector.Sel.Name
	}
	return ""
}

func imports(files map[string]*ast.File) []string {
	seen := make(map[string]bool)
	for _, file := range files {
		for _, spec := range file.Imports {
			seen[strings.Trim(spec.Path.Value, `"`)] = true
		}
	}
	return slices.Sorted(maps.Keys(seen))
}

// sources parses every Go file of the project that is not a test, by folder.
func sources(t *testing.T) map[string]map[string]*ast.File {
	t.Helper()
	out := make(map[string]map[string]*ast.File)
	err := filepath.WalkDir(root, func(path string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if entry.IsDir() && strings.HasPrefix(entry.Name(), ".") && path != root {
			return filepath.SkipDir
		}
		if !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		file, err := parser.ParseFile(fileSet, path, nil, parser.ParseComments)
		if err != nil {
			return err
		}
		dir, _ := filepath.Rel(root, filepath.Dir(path))
		if out[dir] == nil {
			out[dir] = make(map[string]*ast.File)
		}
		out[dir][entry.Name()] = file
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(out) < 10 {
		t.Fatalf("found only %d packages; the check sees too little", len(out))
	}
	return out
}
