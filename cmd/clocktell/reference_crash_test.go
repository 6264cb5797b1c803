package main

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/klauspost/compress/zstd"

	"clocktell/relay/reference"
)

// buildKills is how often the test below kills.
func buildKills() int {
	if os.Getenv("CLOCKTELL_TESTS") == "all" {
		return 60
	}
	return 12
}

// moments are what a build is killed after: a file of the work directory that has come.
var moments = []string{"build.json", "run-00000.games", "run-00000.records", "run-00001.records", "index*"}

// TestReferenceCrash kills a build at random moments and goes on: no half file ever stands
// there, what was done is kept, and in the end the file is, byte for byte, the one that a
// build makes which nobody kills.
func TestReferenceCrash(t *testing.T) {
	k := newKilled(t)
	for n := 0; k.kills < buildKills() || !k.shown() && n < roundsMost*buildKills(); n++ {
		k.round(moments[n%len(moments)])
		if n%3 == 2 {
			k.round("") // and begin anew
		}
	}
	k.round("")
	shown := k.shown()
	t.Logf("%d kills of builds of %v: %d before anything was on the disk, %d later, %d while the file was written, %d with all done; %d files were the same",
		k.kills, k.whole.Round(time.Millisecond), k.stages["begun"], k.stages["runs"], k.stages["writing"], k.stages["done"], k.same)
	if k.same == 0 || !shown {
		t.Error("the test shows too little")
	}
}

// roundsMost is how many rounds for each kill asked for are tried until kills have come
// at every stage: on a busy machine many builds end, or have hardly begun, before theirs.
const roundsMost = 6

// shown reports that kills have come while games were read and while the file was written.
func (k *killed) shown() bool { return k.stages["runs"] > 0 && k.stages["writing"] > 0 }

// killed is a build that keeps being killed.
type killed struct {
	t       *testing.T
	random  *rand.Rand
	program string
	out     string
	args    []string
	want    []byte
	whole   time.Duration // of a build that nobody kills
	kills   int
	same    int
	stages  map[string]int
}

// newKilled has the same invented games over and over in three files, one of them packed:
// enough for two runs.
func newKilled(t *testing.T) *killed {
	t.Helper()
	path, _ := writeCollection(t, 4_000)
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	encoder, err := zstd.NewWriter(nil)
	if err != nil {
		t.Fatal(err)
	}
	text = bytes.Repeat(text, 4)
	plain, packed := write(t, "plain.pgn", string(text)), write(t, "packed.pgn.zst", string(encoder.EncodeAll(text, nil)))
	other := write(t, "other.pgn", string(text))
	k := &killed{t: t, random: rand.New(rand.NewPCG(11, 12)), program: buildProgram(t), out: filepath.Join(t.TempDir(), "games.ref"), stages: make(map[string]int)}
	k.args = []string{"reference", "build", "--keep-doubles", "--out", k.out, plain, packed, other}
	began := time.Now()
	k.round("")
	k.whole, k.same = time.Since(began), 0
	return k
}

// round starts the build, kills it some time after a file has come, unless it ends before
// or no file is named, and looks at what is there.
func (k *killed) round(moment string) {
	k.t.Helper()
	build := startChild(k.t, k.program, k.args...)
	said, ended := new(bytes.Buffer), make(chan struct{})
	go func() {
		defer close(ended)
		said.ReadFrom(build.out)
	}()
	if moment != "" {
		k.await(moment, ended)
		select {
		case <-ended:
		case <-time.After(time.Duration(k.random.Int64N(int64(k.whole / 8)))):
		}
		build.kill()
	}
	<-ended
	build.kill() // at the latest now it has ended; this waits for it
	if strings.Contains(said.String(), "games a second") {
		k.finished()
		return
	}
	if moment == "" {
		k.t.Fatalf("nobody killed it, and it said %q", said)
	}
	k.kills++
	k.half()
}

// await waits until a file stands in the work directory or the build has ended.
func (k *killed) await(name string, ended <-chan struct{}) {
	look := time.NewTicker(time.Millisecond)
	defer look.Stop()
	for {
		if found, _ := filepath.Glob(filepath.Join(k.out+".work", name)); len(found) > 0 {
			return
		}
		select {
		case <-look.C:
		case <-ended:
			return
		}
	}
}

// finished holds the file against the first one and takes it away.
func (k *killed) finished() {
	k.t.Helper()
	text, err := os.ReadFile(k.out)
	if err != nil {
		k.t.Fatal(err)
	}
	if k.want == nil {
		k.want = text
	}
	if !bytes.Equal(text, k.want) {
		k.t.Fatal("another file came of it")
	}
	k.same++
	if err := os.Remove(k.out); err != nil {
		k.t.Fatal(err)
	}
	if _, err := os.Stat(k.out + ".work"); err == nil && k.kills == 0 {
		k.t.Fatal("the work directory is still there")
	}
}

// half looks at what a killed build has left: a whole file or none, and nothing in the
// work directory that opens and is not whole.
func (k *killed) half() {
	k.t.Helper()
	work := k.out + ".work"
	stage := "begun"
	if runs, _ := filepath.Glob(filepath.Join(work, "run-*.records")); len(runs) > 0 {
		stage = "runs"
	}
	for _, name := range k.files(work) {
		if strings.HasPrefix(filepath.Base(name), "index") {
			stage = "writing"
		}
		k.opens(name)
	}
	if _, err := os.Stat(k.out); err == nil {
		stage = "done"
		k.opens(k.out)
		if err := os.Remove(k.out); err != nil {
			k.t.Fatal(err)
		}
	}
	k.stages[stage]++
}

func (k *killed) files(dir string) []string {
	names, err := filepath.Glob(filepath.Join(dir, "*"))
	if err != nil {
		k.t.Fatal(err)
	}
	return names
}

// opens holds a file that opens to be the whole one.
func (k *killed) opens(path string) {
	k.t.Helper()
	index, err := reference.Open(path)
	if err != nil {
		return
	}
	defer index.Close()
	if text, err := os.ReadFile(path); err != nil || !bytes.Equal(text, k.want) {
		k.t.Fatal(fmt.Errorf("%s opens and is not whole: %d bytes, want %d, %w", path, len(text), len(k.want), err))
	}
}
