package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"github.com/nats-io/nats.go"
	"github.com/nats-io/nats.go/jetstream"

	"clocktell/relay/bus"
)

// busAsked names the variable that makes this test program a bus: its address and its folder.
const busAsked = "CLOCKTELL_TEST_BUS"

// serveBusIfAsked serves a bus until standard input ends, as it does with the test, or until
// it is killed.
func serveBusIfAsked() {
	address, dir, asked := strings.Cut(os.Getenv(busAsked), " ")
	if !asked {
		return
	}
	server, err := bus.Serve(bus.ServerOptions{Listen: address, Dir: dir})
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	fmt.Println("serving")
	io.Copy(io.Discard, os.Stdin)
	server.Close()
	os.Exit(0)
}

// busChild is a bus in a process of its own, that can be killed and started again.
type busChild struct {
	t       *testing.T
	address string
	dir     string
	disk    *smallDisk // that dir is on; nil: a usual one
	command *exec.Cmd
	end     io.Closer
	conn    *nats.Conn
	js      jetstream.JetStream
}

func newBusChild(t *testing.T, dir string, disk *smallDisk) *busChild {
	b := &busChild{t: t, address: freeAddress(t), dir: dir, disk: disk}
	b.start()
	t.Cleanup(b.kill)
	var err error
	if b.conn, err = nats.Connect("nats://"+b.address, nats.MaxReconnects(-1), nats.ReconnectWait(50*time.Millisecond)); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(b.conn.Close)
	if b.js, err = jetstream.New(b.conn, jetstream.WithDefaultTimeout(time.Second)); err != nil {
		t.Fatal(err)
	}
	return b
}

func (b *busChild) start() {
	b.t.Helper()
	program, args := b.disk.command(os.Args[0])
	b.command = exec.Command(program, args...)
	b.command.Env = append(os.Environ(), busAsked+"="+b.address+" "+b.dir)
	b.command.Stderr = os.Stderr
	in, err := b.command.StdinPipe()
	if err != nil {
		b.t.Fatal(err)
	}
	out, err := b.command.StdoutPipe()
	if err != nil {
		b.t.Fatal(err)
	}
	b.end = in
	if err := b.command.Start(); err != nil {
		b.t.Fatal(err)
	}
	if n, err := out.Read(make([]byte, 64)); n == 0 {
		b.t.Fatalf("the bus does not start: %v", err)
	}
}

// kill ends the bus as a power cut would.
func (b *busChild) kill() {
	b.command.Process.Kill()
	b.command.Wait() // tells that it was killed, which is no news
	b.end.Close()
}

// led is who leads the show, by what the bus holds.
type led struct {
	by  string
	seq uint64
}

// leader returns who leads; the error says that the bus does not answer.
func (b *busChild) leader() (led, error) {
	ctx, cancel := context.WithTimeout(context.Background(), time.Second)
	defer cancel()
	stream, err := b.js.Stream(ctx, "clocktell-"+bus.DefaultShow)
	if err != nil {
		return led{}, err
	}
	if m, err := stream.GetLastMsgForSubject(ctx, "clocktell."+bus.DefaultShow+".lead"); err == nil {
		var lead bus.Lead
		err := json.Unmarshal(m.Data, &lead)
		return led{lead.ID, m.Sequence}, err
	}
	m, err := stream.GetLastMsgForSubject(ctx, "clocktell."+bus.DefaultShow+".begin")
	if err != nil {
		return led{}, err
	}
	var begin bus.Beginning
	return led{begin.By, m.Sequence}, json.Unmarshal(m.Data, &begin)
}
