//go:build !linux

package engine

import "os/exec"

// waitFor returns when the process has ended.
func waitFor(cmd *exec.Cmd) { cmd.Process.Wait() }
