package engine

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"clocktell/relay/engine/enginetest"
)

// keeper is the first argument of a test binary that is to keep an engine.
const keeper = "keep-engine"

// keepIfAsked keeps an engine that does not listen, until it is killed.
func keepIfAsked() {
	if len(os.Args) != 3 || os.Args[1] != keeper {
		return
	}
	New(Options{Command: os.Args[0], Args: enginetest.Args("closes its input", os.Args[2], 0)}).Run(context.Background())
}

// TestKilledWithItsEngine: if clocktell is killed, its engine is gone, even one that does
// not notice that its input is closed.
func TestKilledWithItsEngine(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("only Linux ends a process with its parent")
	}
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	cmd := exec.Command(self, keeper, folder)
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	ticker := time.NewTicker(10 * time.Millisecond)
	defer ticker.Stop()
	var lives []string
	for range 3000 {
		if lives, _ = filepath.Glob(filepath.Join(folder, "life-*")); len(lives) > 0 {
			break
		}
		<-ticker.C
	}
	cmd.Process.Kill()
	cmd.Wait() // tells that it was killed, which is no news
	lives, _ = filepath.Glob(filepath.Join(folder, "life-*"))
	if len(lives) == 0 {
		t.Fatal("the engine has not been started")
	}
	for _, life := range lives {
		_, number, _ := strings.Cut(filepath.Base(life), "-")
		pid, err := strconv.Atoi(number)
		if err != nil {
			t.Fatal(err)
		}
		if !gone(pid) {
			t.Errorf("the engine %d is left", pid)
		}
	}
}
