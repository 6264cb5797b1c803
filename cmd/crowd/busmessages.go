package main

import (
	"bytes"
	"strconv"
	"sync/atomic"
)

// messageCounter counts the messages in what a NATS server sends to a client. Its protocol is
// lines; after a line MSG or HMSG, whose last word is a length, come so many bytes and an end of
// line (docs.nats.io, "Client Protocol").
type messageCounter struct {
	count *atomic.Uint64
	line  []byte
	skip  int // bytes of a message that are still to come
}

func (c *messageCounter) Write(b []byte) (int, error) {
	size := len(b)
	for len(b) > 0 {
		if c.skip > 0 {
			n := min(c.skip, len(b))
			c.skip -= n
			b = b[n:]
			continue
		}
		end := bytes.IndexByte(b, '\n')
		if end < 0 {
			c.line = append(c.line, b...)
			break
		}
		c.take(append(c.line, b[:end]...))
		c.line = c.line[:0]
		b = b[end+1:]
	}
	return size, nil
}

func (c *messageCounter) take(line []byte) {
	words := bytes.Fields(line)
	if len(words) < 4 || string(words[0]) != "MSG" && string(words[0]) != "HMSG" {
		return
	}
	if n, err := strconv.Atoi(string(words[len(words)-1])); err == nil {
		c.count.Add(1)
		c.skip = n + len("\r\n")
	}
}
