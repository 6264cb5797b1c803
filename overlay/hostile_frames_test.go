package overlay

import (
	"encoding/binary"
	"strings"
	"time"
)

// shake is the client's part of a handshake (RFC 6455, 4.1), for a page's socket.
func shake(query string, head ...string) string {
	return strings.Replace(ask("GET", "/live?"+query, append(head, "Upgrade: websocket", "Sec-WebSocket-Version: 13", "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==")...),
		"Connection: close", "Connection: Upgrade", 1)
}

// Bits and opcodes of a frame (RFC 6455, 5.2).
const (
	fin, rsv1, rsv2, rsv3              = 0x80, 0x40, 0x20, 0x10
	opMore, opText, opBinary           = 0x0, 0x1, 0x2
	opClose, opPing, opPong            = 0x8, 0x9, 0xa
	maskBit                            = 0x80
	medium, large                      = 126, 127 // lengths of 2 and of 8 bytes follow
	opUnknown, opUnknownControl        = 0x3, 0xb
	maskKey                     string = "\x01\x02\x03\x04"
)

// frame is a masked frame of a client (RFC 6455, 5.3).
func frame(first byte, payload string) []byte { return frameOf(first, uint64(len(payload)), payload) }

// frameOf announces a length that need not be that of its payload.
func frameOf(first byte, length uint64, payload string) []byte {
	out := []byte{first}
	switch {
	case length < medium:
		out = append(out, maskBit|byte(length))
	case length < 1<<16:
		out = binary.BigEndian.AppendUint16(append(out, maskBit|medium), uint16(length))
	default:
		out = binary.BigEndian.AppendUint64(append(out, maskBit|large), length)
	}
	out = append(out, maskKey...)
	for i := range len(payload) {
		out = append(out, payload[i]^maskKey[i%4])
	}
	return out
}

func times(n int, frame []byte) []byte {
	return []byte(strings.Repeat(string(frame), n))
}

// hostileFrames are handshakes and frames that are none: RFC 6455.
func hostileFrames() []hostile {
	const me = "Authorization: Bearer {panel}"
	open := shake("page=panel", me)
	with := func(name, want string, frames ...[]byte) hostile {
		all := []byte{}
		for _, f := range frames {
			all = append(all, f...)
		}
		return hostile{name: name, send: open, then: all, socket: true, want: want}
	}
	const ping = `{"type":"ping","t":1,"late":[]}`
	long := strings.Repeat("x", frameMost)
	rows := []hostile{
		{name: "no upgrade (4.2.2)", send: ask("GET", "/live?page=panel", me), want: "426"},
		{name: "an upgrade to something else (4.2.1)", send: strings.Replace(open, "Upgrade: websocket", "Upgrade: h2c", 1), want: "426"},
		{name: "an old version (4.4)", send: strings.Replace(open, "Version: 13", "Version: 8", 1), want: "400", says: "Sec-Websocket-Version: 13"},
		{name: "no key (4.2.1)", send: strings.Replace(open, "Sec-WebSocket-Key", "X-Key", 1), want: "400"},
		{name: "a key that is too short (4.2.1)", send: strings.Replace(open, "dGhlIHNhbXBsZSBub25jZQ==", "c2hvcnQ=", 1), want: "400"},
		{name: "a handshake by POST (4.1)", send: strings.Replace(open, "GET", "POST", 1), want: "405"},
		{name: "a page that there is not", send: shake("page=studio", me), socket: true, want: "close 4000"},
		{name: "a page with HTML for a board", send: shake("page=scene/wall&boards=<script>", me), socket: true, want: "close 4000"},

		with("a frame that is not masked (5.1)", "cut", append([]byte{fin | opText, byte(len(ping))}, ping...)),
		with("the first reserved bit (5.2)", "close 1002", frame(fin|rsv1|opText, ping)),
		with("the second reserved bit (5.2)", "close 1002", frame(fin|rsv2|opText, ping)),
		with("the third reserved bit (5.2)", "close 1002", frame(fin|rsv3|opText, ping)),
		with("an unknown opcode of data (5.2)", "close 1002", frame(fin|opUnknown, ping)),
		with("an unknown opcode of control (5.2)", "close 1002", frame(fin|opUnknownControl, "")),
		with("a ping in pieces (5.5)", "close 1002", frame(opPing, "x")),
		with("a ping of 126 bytes (5.5)", "close 1002", frame(fin|opPing, strings.Repeat("x", medium))),
		with("a close of 126 bytes (5.5)", "close 1002", frame(fin|opClose, "\x03\xe8"+strings.Repeat("x", medium))),
		with("a close of one byte (5.5.1)", "close 1002", frame(fin|opClose, "\x03")),
		with("a close with a code that is reserved (7.4.1)", "close 1002", frame(fin|opClose, "\x03\xed")),
		with("a close with a code that is none (7.4.2)", "close 1002", frame(fin|opClose, "\x00\x01")),
		with("a piece of nothing (5.4)", "close 1002", frame(fin|opMore, ping)),
		with("a message within a message (5.4)", "close 1002", frame(opText, `{"type":`), frame(fin|opText, ping)),
		with("a length with its highest bit set (5.2)", "cut", frameOf(fin|opText, 1<<63, "")),
		with("a gigabyte announced", "close 1009", frameOf(fin|opText, 1<<30, long+long)),
		with("one byte too many (7.4.1)", "close 1009", frame(fin|opText, long+"x")),
		with("too many bytes in pieces", "close 1009", frame(opText, long[:1000]), times(8, frame(opMore, long[:1000]))),
		with("no UTF-8 (8.1)", "close 1007", frame(fin|opText, "{\"type\":\"who\",\"name\":\"\xc3\x28\"}")),
		with("half of a letter (RFC 3629, 3)", "close 1007", frame(fin|opText, "{\"type\":\"who\",\"name\":\"\xed\xa0\x80\"}")),
		with("binary (7.4.1)", "close 1003", frame(fin|opBinary, ping)),
		with("a compressed message that nobody agreed on (RFC 7692, 6)", "close 1002", frame(fin|rsv1|opText, "\xaa\x56\x2a\xa9\x2c\x48\x55\xb2\x52\x2a\xc8\xcc\x4b\x57\xaa\x05\x00")),
		with("nothing", "close 4001", frame(fin|opText, "")),
		with("no JSON", "close 4001", frame(fin|opText, "hello")),
		with("brackets 4,000 deep", "close 4001", frame(fin|opText, strings.Repeat("[", 4000))),
		with("an unknown type", "close 4001", frame(fin|opText, `{"type":"shout"}`)),
		with("a type with HTML", "close 4001", frame(fin|opText, `{"type":"<script>"}`)),
		with("a frame of the relay's", "close 4001", frame(fin|opText, `{"type":"show","title":"x"}`)),
		with("a name too long", "close 4001", frame(fin|opText, `{"type":"who","name":"`+strings.Repeat("x", 41)+`"}`)),
		with("a board that there cannot be", "close 4001", frame(fin|opText, `{"type":"again","board":1e40}`)),
		with("a flood of frames (7.4.1)", "close 1008", times(framesMost+1, frame(fin|opText, `{"type":"again","board":9}`))),
		with("another request behind the handshake: the letter G has a reserved bit (5.2)", "close 1002", []byte(ask("GET", "/metrics", producerBearer))),
	}
	slow := with("half a frame, then nothing", "cut", frame(fin|opText, ping)[:10])
	endless := with("pieces of nothing without end", "cut", append(frame(opText, ""), times(2000, frame(opMore, ""))...))
	drip := with("a byte of a frame a second", "cut", frame(fin|opText, `{"type":"who","name":"`+strings.Repeat("x", 40)+`"}`))
	drip.every = time.Second
	for _, row := range []*hostile{&slow, &endless, &drip} {
		row.within = 2*silenceMost + 200*time.Second
	}
	return append(rows, slow, endless, drip)
}
