package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"
)

// smallDisk is a folder with a file system of its own, that can be filled.
type smallDisk struct {
	t      *testing.T
	dir    string
	holder *exec.Cmd // in whose name space it is mounted
}

// newSmallDisk mounts a file system of so many bytes in memory, as unshare (util-linux) lets
// anybody do. Where the machine forbids that the test is skipped, but where
// CLOCKTELL_TESTS=all it fails.
func newSmallDisk(t *testing.T, dir string, size int) *smallDisk {
	t.Helper()
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	d := &smallDisk{t: t, dir: dir}
	d.holder = exec.Command("unshare", "--user", "--map-root-user", "--mount", "sh", "-c", `mount -t tmpfs -o size="$0" none "$1" && echo mounted && exec sleep infinity`, fmt.Sprint(size), dir)
	out, err := d.holder.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	err = d.holder.Start()
	if err == nil {
		t.Cleanup(func() {
			d.holder.Process.Kill()
			d.holder.Wait() // tells that it was killed
		})
		_, err = out.Read(make([]byte, 64))
	}
	if err != nil && os.Getenv("CLOCKTELL_TESTS") == "all" {
		t.Fatalf("no file system can be mounted in a name space of its own: %v", err)
	} else if err != nil {
		t.Skipf("no file system can be mounted in a name space of its own: %v", err)
	}
	return d
}

// command is what starts a program that sees the disk.
func (d *smallDisk) command(program string, args ...string) (string, []string) {
	if d == nil {
		return program, args
	}
	return "nsenter", append([]string{"--target", fmt.Sprint(d.holder.Process.Pid), "--user", "--preserve-credentials", "--mount", "--", program}, args...)
}

// path is where the disk is seen from outside.
func (d *smallDisk) path(name string) string {
	return filepath.Join("/proc", fmt.Sprint(d.holder.Process.Pid), "root", d.dir, name)
}

// fill leaves no room on it.
func (d *smallDisk) fill() {
	d.t.Helper()
	file, err := os.Create(d.path("filler"))
	if err != nil {
		d.t.Fatal(err)
	}
	defer file.Close()
	for size := 64 << 10; size > 0; {
		switch _, err := file.Write(make([]byte, size)); {
		case errors.Is(err, syscall.ENOSPC):
			size /= 2
		case err != nil:
			d.t.Fatal(err)
		}
	}
}

// free gives the room back.
func (d *smallDisk) free() {
	d.t.Helper()
	if err := os.Remove(d.path("filler")); err != nil {
		d.t.Fatal(err)
	}
}
