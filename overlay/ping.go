package overlay

import (
	"bytes"
	"strconv"

	"clocktell/overlay/wire"
)

// A plain ping is one as JSON.stringify writes it, without spaces and with numbers without
// exponents. Every page sends one every two seconds, and to read it by hand takes neither the
// time nor the stack that encoding/json does: each page has two stacks for as long as it is there.

// Parts of a ping and of its pong.
const (
	pingStart = `{"type":"` + wire.TypePing + `","t":`
	pingLate  = `,"late":[`
	pongStart = `{"type":"` + wire.TypePong + `","t":`
	pongNow   = `,"now":`
)

// Lengths of numbers that cannot be too large for what they are read into.
const (
	timeDigitsMost = 24
	lateDigitsMost = 9
)

// plainPing reads a plain ping: its time as it stands there, and what was late. Where it
// reports false, the frame may be a ping all the same.
func plainPing(data []byte) (t []byte, late []int64, ok bool) {
	rest, ok := bytes.CutPrefix(data, []byte(pingStart))
	if !ok {
		return nil, nil, false
	}
	t, rest = plainNumber(rest)
	rest, ok = bytes.CutPrefix(rest, []byte(pingLate))
	if len(t) == 0 || len(t) > timeDigitsMost || !ok {
		return nil, nil, false
	}
	for len(rest) > 0 && rest[0] != ']' {
		if len(late) > 0 {
			if rest, ok = bytes.CutPrefix(rest, []byte(",")); !ok {
				return nil, nil, false
			}
		}
		var ms int64
		if ms, rest, ok = plainCount(rest); !ok {
			return nil, nil, false
		}
		late = append(late, ms)
	}
	return t, late, string(rest) == "]}"
}

// plainNumber cuts a number without sign or exponent off data (RFC 8259, 6); of none it
// returns nothing.
func plainNumber(data []byte) (number, rest []byte) {
	whole := digits(data)
	if whole == 0 || whole > 1 && data[0] == '0' {
		return nil, data
	}
	n := whole
	if n < len(data) && data[n] == '.' {
		part := digits(data[n+1:])
		if part == 0 {
			return nil, data
		}
		n += 1 + part
	}
	return data[:n], data[n:]
}

func plainCount(data []byte) (count int64, rest []byte, ok bool) {
	n := digits(data)
	if n == 0 || n > lateDigitsMost || n > 1 && data[0] == '0' {
		return 0, data, false
	}
	for _, digit := range data[:n] {
		count = count*10 + int64(digit-'0')
	}
	return count, data[n:], true
}

func digits(data []byte) int {
	for i, c := range data {
		if c < '0' || c > '9' {
			return i
		}
	}
	return len(data)
}

// pongBegun is a pong up to the time that is not known before it is sent.
func pongBegun(t []byte) []byte {
	text := make([]byte, 0, len(pongStart)+len(t)+len(pongNow)+len(`1700000000000}`))
	return append(append(append(text, pongStart...), t...), pongNow...)
}

// pongText ends what pongBegun has begun.
func pongText(begun []byte, now int64) []byte { return append(strconv.AppendInt(begun, now, 10), '}') }
