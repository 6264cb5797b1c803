//go:build !linux

package engine

import (
	"os/exec"
	"syscall"
)

// waitFor returns when the process has ended.
func waitFor(cmd *exec.Cmd) { cmd.Process.Wait() }

// endWithParent does nothing: an engine ends when it finds its input closed.
func endWithParent(*syscall.SysProcAttr) {}
