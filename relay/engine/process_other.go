//go:build !unix

package engine

import "os/exec"

func ownGroup(*exec.Cmd) {}

func killGroup(cmd *exec.Cmd) { cmd.Process.Kill() }

func setNice(pid, nice int) {}
