package engine

import (
	"errors"
	"os/exec"
	"syscall"

	"golang.org/x/sys/unix"
)

// waitFor returns when the process has ended. Its number stays taken until it is waited
// for in the usual way, so that what it leaves behind can be ended safely.
func waitFor(cmd *exec.Cmd) {
	var info unix.Siginfo
	for {
		err := unix.Waitid(unix.P_PID, cmd.Process.Pid, &info, unix.WEXITED|unix.WNOWAIT, nil)
		if !errors.Is(err, unix.EINTR) {
			return
		}
	}
}

// endWithParent has the system end a process when the thread ends that started it.
func endWithParent(attr *syscall.SysProcAttr) { attr.Pdeathsig = syscall.SIGKILL }
