package main

import (
	"errors"
	"io"
	"net"
	"runtime"
	"time"

	"golang.org/x/sync/errgroup"
)

const (
	bareWrites = 200_000
	bareBytes  = 1000
)

// bareWrite measures the CPU that writing 1 kB to a TCP socket of this machine takes, somebody
// else reading: other costs are so many of it on any machine.
func bareWrite() (each time.Duration, err error) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return 0, err
	}
	defer l.Close()
	conn, err := net.Dial("tcp", l.Addr().String())
	if err != nil {
		return 0, err
	}
	other, err := l.Accept()
	if err != nil {
		return 0, errors.Join(err, conn.Close())
	}
	var reads errgroup.Group
	reads.Go(func() error {
		_, err := io.Copy(io.Discard, other)
		return errors.Join(err, other.Close())
	})
	runtime.LockOSThread()
	defer runtime.UnlockOSThread()
	var before, after usage
	err = before.fromStat("/proc/thread-self/stat")
	piece := make([]byte, bareBytes)
	for n := 0; n < bareWrites && err == nil; n++ {
		_, err = conn.Write(piece)
	}
	err = errors.Join(err, after.fromStat("/proc/thread-self/stat"), conn.Close(), reads.Wait())
	return (after.cpu - before.cpu) / bareWrites, err
}
