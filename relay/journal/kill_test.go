package journal

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"clocktell/relay"
)

// childRole is set in the environment of a child of the test.
const childRole = "CLOCKTELL_JOURNAL_CHILD"

// childOpens is what a writing child says first, so that it can be killed there.
const childOpens = "opens"

// child is what a child process does: it opens the journal in its folder.
func child(role string) int {
	dir := os.Getenv(childRole + "_DIR")
	o := options(dir)
	o.SegmentBytes = 64 << 10
	if role == "write" {
		fmt.Println(childOpens)
	}
	j, err := Open(context.Background(), o)
	if errors.Is(err, ErrInUse) {
		fmt.Println("in use")
		return 0
	}
	if err != nil {
		fmt.Println(err)
		return 1
	}
	switch role {
	case "open":
		fmt.Println("opened")
		err = j.Close()
	case "limited":
		err = writeLimited(j)
	case "write":
		err = writeForEver(j)
	}
	if err != nil {
		fmt.Println(err)
		return 1
	}
	return 0
}

func childCommand(t *testing.T, role, dir string) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	c := exec.Command(self)
	c.Env = append(os.Environ(), childRole+"="+role, childRole+"_DIR="+dir)
	return c
}

func runChild(t *testing.T, role, dir string) string {
	t.Helper()
	out, err := childCommand(t, role, dir).CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	return string(out)
}

// writeForEver writes numbered events, most of them packets and answers, and
// prints the number of each durable one as soon as it is sent on.
func writeForEver(j *Journal) error {
	n := 0
	for r, err := range j.Records() {
		if err != nil {
			return err
		}
		if e, ok := r.Event.(relay.FeedFailed); ok {
			n, _ = strconv.Atoi(strings.TrimPrefix(e.Text, "no answer, "))
		}
	}
	in, out := make(chan relay.Event, 64), make(chan relay.Event, 64)
	go func() {
		for {
			n++
			in <- failure(n)
			in <- answer(n)
			if n%3 == 0 {
				in <- packet(n)
			}
		}
	}()
	go func() {
		for e := range out {
			if e, ok := e.(relay.FeedFailed); ok {
				fmt.Println(e.Text)
			}
		}
	}()
	return j.Run(context.Background(), in, out)
}

// TestKilled kills a writing process at random moments, again and again in the
// same folder. What it said to have sent on must be there, once, in order, and
// nothing must be taken for damage.
func TestKilled(t *testing.T) {
	dir := t.TempDir()
	random := rand.New(rand.NewPCG(1, 2))
	said := 0
	for round := range 25 {
		said = max(said, killed(t, dir, random.IntN(2)*random.IntN(600)))
		j := mustOpen(t, options(dir))
		if j.Cut() != "" {
			t.Fatalf("round %d: cut %s", round, j.Cut())
		}
		want := 1
		for _, e := range read(t, j.Records()) {
			e, ok := e.(relay.FeedFailed)
			if !ok {
				continue
			}
			if e != failure(want) {
				t.Fatalf("round %d: %q where %d should be", round, e.Text, want)
			}
			want++
		}
		if want <= said {
			t.Fatalf("round %d: %d events, but %d were sent on", round, want-1, said)
		}
		mustClose(t, j)
	}
	if said < 1000 {
		t.Fatalf("only %d events in all rounds: the test shows nothing", said)
	}
	t.Logf("%d events", said)
}

// killed lets a child write until it has said so many lines more, kills it and
// returns the last number it said.
func killed(t *testing.T, dir string, lines int) int {
	t.Helper()
	c := childCommand(t, "write", dir)
	pipe, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	said := 0
	for seen, out := 0, bufio.NewScanner(pipe); out.Scan(); seen++ { // goes on to the end: what is in the pipe was said
		if seen == lines {
			c.Process.Kill()
		}
		if out.Text() == childOpens {
			continue
		}
		n, err := strconv.Atoi(strings.TrimPrefix(out.Text(), "no answer, "))
		if err != nil {
			t.Errorf("the child says %q", out.Text())
		}
		said = n
	}
	c.Wait() // says that it was killed
	return said
}
