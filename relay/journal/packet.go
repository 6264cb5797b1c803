package journal

import (
	"bytes"
	"compress/flate"
	"encoding/binary"
	"io"

	"clocktell/relay"
)

// The body of a packet is one byte, form, and then its parts: plain, or, for
// deflated, their length and the deflated bytes. Parts are their number, and for
// each From, Count, Head, Tail, the length of Text, and Text.
const (
	formPlain    = 0
	formDeflated = 1
)

// packer encodes packets; it keeps the compressor, which is costly to make.
type packer struct {
	deflate *flate.Writer
}

func (p *packer) pack(parts []relay.Part) []byte {
	body := binary.AppendUvarint([]byte{formPlain}, uint64(len(parts)))
	for _, part := range parts {
		for _, v := range []int{part.From, part.Count, part.Head, part.Tail} {
			body = binary.AppendUvarint(body, uint64(v))
		}
		body = appendText(body, part.Text)
	}
	if len(body) < packedFrom {
		return body
	}
	return p.deflated(body)
}

// deflated returns a plain body deflated, or as it is if that gains nothing.
func (p *packer) deflated(plain []byte) []byte {
	var out bytes.Buffer
	out.Write(binary.AppendUvarint([]byte{formDeflated}, uint64(len(plain)-1)))
	if p.deflate == nil {
		p.deflate, _ = flate.NewWriter(nil, flate.BestSpeed) // fails for unknown levels only
	}
	p.deflate.Reset(&out)
	p.deflate.Write(plain[1:]) // a buffer takes everything
	p.deflate.Close()
	if out.Len() >= len(plain) {
		return plain
	}
	return out.Bytes()
}

// unpacker decodes packets.
type unpacker struct {
	inflate io.ReadCloser
}

func (u *unpacker) unpack(body []byte) ([]relay.Part, error) {
	if len(body) == 0 {
		return nil, errBody
	}
	r := reader{rest: body[1:]}
	if body[0] == formDeflated {
		plain, err := u.inflated(&r, packetMost)
		if err != nil {
			return nil, err
		}
		r.rest = plain
	} else if body[0] != formPlain {
		return nil, errBody
	}
	return partsOf(&r)
}

func partsOf(r *reader) ([]relay.Part, error) {
	n := r.uvarint()
	if n > uint64(len(r.rest)) {
		return nil, errBody // a part takes more than a byte
	}
	var parts []relay.Part
	for range n {
		parts = append(parts, relay.Part{
			From: int(r.uvarint()), Count: int(r.uvarint()), Head: int(r.uvarint()), Tail: int(r.uvarint()), Text: r.text(),
		})
	}
	return parts, r.end()
}

func (u *unpacker) inflated(r *reader, most uint64) ([]byte, error) {
	n := r.uvarint()
	if n > most {
		return nil, errBody
	}
	in := bytes.NewReader(r.rest)
	if u.inflate == nil {
		u.inflate = flate.NewReader(in)
	} else {
		u.inflate.(flate.Resetter).Reset(in, nil)
	}
	plain, err := io.ReadAll(io.LimitReader(u.inflate, int64(n)+1))
	if err != nil || uint64(len(plain)) != n {
		return nil, errBody
	}
	return plain, nil
}
