//go:build unix

package engine

import (
	"os/exec"
	"syscall"

	"golang.org/x/sys/unix"
)

// ownGroup has a process begin a group of its own, to be ended with all that it starts;
// where the system can, it ends with us even if we are killed.
func ownGroup(cmd *exec.Cmd) {
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	endWithParent(cmd.SysProcAttr)
}

func killGroup(cmd *exec.Cmd) { unix.Kill(-cmd.Process.Pid, unix.SIGKILL) } // an error: there is none left

// setNice lets a group give way to others. Of one process Linux would take only the
// first thread, of a group it takes all.
func setNice(pid, nice int) { unix.Setpriority(unix.PRIO_PGRP, pid, nice) } // an error: it has just ended
