package overlay

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"os"
	"os/exec"
	"runtime"
	"runtime/debug"
	"runtime/pprof"
	"strings"
	"time"

	"golang.org/x/sys/unix"

	"clocktell/relay"
)

// fanoutRole is the variable that makes this test binary one of the processes of the benchmark:
// "server KIND PAGES", or "pages COUNT KIND ADDRESS".
const fanoutRole = "CLOCKTELL_FANOUT"

// fanoutProfile names a folder that each server leaves its CPU profile in.
const fanoutProfile = "CLOCKTELL_FANOUT_PROFILE"

func init() {
	role, args, _ := strings.Cut(os.Getenv(fanoutRole), " ")
	childRoles["server"] = func() error { return runFanoutServer(args) }
	childRoles["pages"] = func() error { return runFanoutPages(args) }
	childRole = role
}

// fanoutServer is what the benchmark compares.
type fanoutServer interface {
	serve(ctx context.Context, l net.Listener) error
	// move shows a move on the board: when, by sharedClock, and as which revision.
	move(e relay.Event, plies int) (at int64, rev uint64)
}

// fanoutBlock is what a server says of some moves.
type fanoutBlock struct {
	Lasts   []time.Duration // from the move to the last page
	CPU     time.Duration   // of the server
	Foreign float64         // share of the machine that others took
	Idle    float64         // share of the machine
}

// fanoutMemory is how much more memory a server has than before its pages came, in bytes.
type fanoutMemory struct{ Resident, Kept, Heap, Stacks int64 }

// runFanoutServer has a server and its pages do what its input asks for.
func runFanoutServer(args string) error {
	var kind string
	var count int
	if _, err := fmt.Sscan(args, &kind, &count); err != nil {
		return err
	}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return err
	}
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	run := &fanoutRun{server: fanoutServers[kind](), feed: newFanoutFeed(), out: json.NewEncoder(os.Stdout)}
	go func() { _ = run.server.serve(ctx, l) }() // until the process ends
	run.move()
	run.before = memoryNow()
	if err := run.openPages(fmt.Sprint("pages ", count, " ", kind, " ", l.Addr())); err != nil {
		return err
	}
	defer run.pages.Wait()
	defer run.pagesIn.Close()
	defer profiled(kind, count)()
	return run.obey(bufio.NewScanner(os.Stdin))
}

type fanoutRun struct {
	server   fanoutServer
	feed     *fanoutFeed
	out      *json.Encoder
	before   fanoutMemory
	pages    *exec.Cmd
	pagesIn  io.WriteCloser
	pagesOut *bufio.Reader
}

func (r *fanoutRun) openPages(role string) error {
	self, err := os.Executable()
	if err != nil {
		return err
	}
	r.pages = exec.Command(self)
	r.pages.Env, r.pages.Stderr = append(os.Environ(), fanoutRole+"="+role, "GOMAXPROCS=1"), os.Stderr
	if r.pagesIn, err = r.pages.StdinPipe(); err != nil {
		return err
	}
	out, err := r.pages.StdoutPipe()
	if err != nil {
		return err
	}
	r.pagesOut = bufio.NewReader(out)
	if err := r.pages.Start(); err != nil {
		return err
	}
	if line, err := r.pagesOut.ReadString('\n'); err != nil || line != "open\n" {
		return fmt.Errorf("pages: %q, %v", line, err)
	}
	return nil
}

// obey answers "moves N" with a block, "alive" with nothing and "memory" with the memory.
func (r *fanoutRun) obey(orders *bufio.Scanner) error {
	for orders.Scan() {
		var moves int
		_, _ = fmt.Sscanf(orders.Text(), "moves %d", &moves)
		var answer any
		var err error
		switch orders.Text() {
		case "memory":
			answer = r.memory()
		default:
			if _, err = fmt.Fprintln(r.pagesIn, "ping"); err == nil {
				time.Sleep(200 * time.Millisecond) // the pongs are not part of it
				answer, err = r.block(moves)
			}
		}
		if err != nil {
			return err
		}
		if err := r.out.Encode(answer); err != nil {
			return err
		}
	}
	return nil
}

// block shows moves, each once the one before has come to the last page.
func (r *fanoutRun) block(moves int) (fanoutBlock, error) {
	var block fanoutBlock
	machine, pages, own := machineTime(), processTime(r.pages.Process.Pid), ownTime()
	for range moves {
		at, rev := r.move()
		last, err := r.lastOf(rev)
		if err != nil {
			return block, err
		}
		block.Lasts = append(block.Lasts, time.Duration(last-at))
		time.Sleep(3 * time.Millisecond) // all come to rest
	}
	block.CPU = ownTime() - own
	pages = processTime(r.pages.Process.Pid) - pages
	passed := machineTime()
	total := float64(passed.total - machine.total)
	block.Idle = float64(passed.idle-machine.idle) / total
	block.Foreign = max(0, float64(passed.busy-machine.busy-block.CPU-pages)/total)
	return block, nil
}

func (r *fanoutRun) move() (at int64, rev uint64) {
	event, plies := r.feed.next(time.Now())
	return r.server.move(event, plies)
}

// lastOf waits until the pages say that the last one has a revision.
func (r *fanoutRun) lastOf(rev uint64) (at int64, err error) {
	for reached := uint64(0); reached < rev; {
		line, err := r.pagesOut.ReadString('\n')
		if err != nil {
			return 0, fmt.Errorf("pages: %w", err)
		}
		if _, err := fmt.Sscan(line, &reached, &at); err != nil {
			return 0, err
		}
	}
	return at, nil
}

func (r *fanoutRun) memory() fanoutMemory {
	resident := residentNow() - r.before.Kept
	now := memoryNow()
	return fanoutMemory{Resident: resident, Kept: now.Kept - r.before.Kept, Heap: now.Heap - r.before.Heap, Stacks: now.Stacks - r.before.Stacks}
}

// memoryNow is the memory of this process once all that is not needed has been given back.
func memoryNow() fanoutMemory {
	resident := residentNow()
	runtime.GC()
	debug.FreeOSMemory()
	var now runtime.MemStats
	runtime.ReadMemStats(&now)
	return fanoutMemory{Resident: resident, Kept: residentNow(), Heap: int64(now.HeapAlloc), Stacks: int64(now.StackInuse)}
}

// residentNow reads proc_pid_statm(5).
func residentNow() int64 {
	text, err := os.ReadFile("/proc/self/statm")
	var size, resident int64
	if _, scanErr := fmt.Sscan(string(text), &size, &resident); err != nil || scanErr != nil {
		panic("no /proc/self/statm")
	}
	return resident * int64(os.Getpagesize())
}

func ownTime() time.Duration {
	var use unix.Rusage
	if err := unix.Getrusage(unix.RUSAGE_SELF, &use); err != nil {
		panic(err)
	}
	return time.Duration(use.Utime.Nano() + use.Stime.Nano())
}

// tick is the unit of /proc, USER_HZ, which is 100 on every common Linux.
const tick = 10 * time.Millisecond

// processTime reads proc_pid_stat(5), fields 14 and 15.
func processTime(pid int) time.Duration {
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", pid))
	if err != nil {
		panic(err)
	}
	fields := strings.Fields(string(text[strings.LastIndex(string(text), ")"):]))
	var u, s int64
	if _, err := fmt.Sscan(fields[12], &u); err != nil {
		panic(err)
	}
	if _, err := fmt.Sscan(fields[13], &s); err != nil {
		panic(err)
	}
	return time.Duration(u+s) * tick
}

// machineUse is how long the processors of the machine have been idle, and busy with processes;
// what they did for devices is neither.
type machineUse struct{ idle, busy, total time.Duration }

// machineTime reads proc_stat(5).
func machineTime() machineUse {
	text, err := os.ReadFile("/proc/stat")
	if err != nil {
		panic(err)
	}
	var user, nice, system, idle, wait, irq, soft, steal int64
	if _, err := fmt.Sscanf(string(text), "cpu %d %d %d %d %d %d %d %d", &user, &nice, &system, &idle, &wait, &irq, &soft, &steal); err != nil {
		panic(err)
	}
	return machineUse{
		idle: time.Duration(idle+wait) * tick, busy: time.Duration(user+nice+system+steal) * tick,
		total: time.Duration(user+nice+system+idle+wait+irq+soft+steal) * tick,
	}
}

// profiled writes a CPU profile where that is asked for, until it is called.
func profiled(kind string, count int) func() {
	folder := os.Getenv(fanoutProfile)
	if folder == "" {
		return func() {}
	}
	file, err := os.Create(fmt.Sprintf("%s/%s-%d.prof", folder, kind, count))
	if err != nil {
		panic(err)
	}
	if err := pprof.StartCPUProfile(file); err != nil {
		panic(err)
	}
	return func() {
		pprof.StopCPUProfile()
		_ = file.Close()
	}
}
