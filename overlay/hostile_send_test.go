package overlay

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"errors"
	"io"
	"net"
	"net/http"
	"regexp"
	"runtime"
	"strconv"
	"time"
)

// send does what a row says and returns all that came back until the line was closed.
func (a *attack) send(from net.IP, row hostile) []byte {
	conn := a.h.listener.dialFrom(from)
	defer conn.Close()
	go func() { // ends with the connection
		write(conn, []byte(a.secrets.Replace(row.send)), 0)
		write(conn, []byte(a.secrets.Replace(string(row.then))), row.every)
	}()
	if row.deaf {
		one := make([]byte, 1)
		if _, err := io.ReadFull(conn, one); err != nil {
			return nil
		}
		time.Sleep(answerWait + silenceMost)
		rest, _ := io.ReadAll(conn)
		return append(one, rest...)
	}
	if !row.socket {
		answer, _ := io.ReadAll(conn)
		return answer
	}
	var all bytes.Buffer
	in := bufio.NewReader(io.TeeReader(conn, &all))
	for readFrame(in) == nil {
	}
	return all.Bytes()
}

// write sends bytes, slowly if asked to, until the other side has had enough.
func write(conn net.Conn, data []byte, every time.Duration) {
	if every == 0 && len(data) > 0 {
		_, _ = conn.Write(data)
		return
	}
	for i := range data {
		if _, err := conn.Write(data[i : i+1]); err != nil {
			return
		}
		time.Sleep(every)
	}
}

var errClosed = errors.New("a frame that closes")

// readFrame reads a header of HTTP, or one frame of a server (RFC 6455, 5.2: not masked).
func readFrame(in *bufio.Reader) error {
	if start, err := in.Peek(4); err != nil || string(start) == "HTTP" {
		if err == nil {
			_, err = http.ReadResponse(in, nil)
		}
		return err
	}
	head := make([]byte, 2)
	if _, err := io.ReadFull(in, head); err != nil {
		return err
	}
	length := uint64(head[1] & 0x7f)
	if wide := map[uint64]int{126: 2, 127: 8}[length]; wide > 0 {
		more := make([]byte, 8)
		if _, err := io.ReadFull(in, more[8-wide:]); err != nil {
			return err
		}
		length = binary.BigEndian.Uint64(more)
	}
	if _, err := io.CopyN(io.Discard, in, int64(length)); err != nil {
		return err
	}
	if head[0]&0xf == 8 {
		return errClosed
	}
	return nil
}

var statusLine = regexp.MustCompile(`^HTTP/1\.[01] (\d{3})`)

// outcome says in a word what came back.
func outcome(answer []byte) string {
	if len(answer) == 0 {
		return "cut"
	}
	status := statusLine.FindSubmatch(answer)
	if status == nil {
		return "cut short"
	}
	if string(status[1]) != "101" {
		return string(status[1])
	}
	in := bufio.NewReaderSize(bytes.NewReader(answer), len(answer)+16)
	for {
		_, _ = in.Peek(1) // takes all of it
		left := in.Buffered()
		err := readFrame(in)
		if err == nil {
			continue
		}
		if errors.Is(err, errClosed) {
			frame := answer[len(answer)-left:]
			return "close " + strconv.Itoa(int(binary.BigEndian.Uint16(frame[2:])))
		}
		return "cut"
	}
}

// goroutines counts those of the bubble; the runtime has some of its own, which come and go.
func goroutines() int {
	stacks := make([]byte, 1<<20)
	return bytes.Count(stacks[:runtime.Stack(stacks, true)], []byte("synctest bubble"))
}
