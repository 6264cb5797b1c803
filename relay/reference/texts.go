package reference

import (
	"encoding/binary"
	"fmt"
	"math"
	"strings"
	"unicode/utf8"
)

// nameRow is the size of a row of names: White, Black, event, as numbers of
// texts.
const nameRow = 12

// textTable holds each text once.
type textTable struct {
	number map[string]uint32
	all    []string
	size   int64
}

func (t *textTable) begin() { t.number = make(map[string]uint32) }

func (t *textTable) row(row *[nameRow]byte, g Game) error {
	for i, text := range [...]string{g.White, g.Black, g.Event} {
		n, err := t.of(cut(text))
		if err != nil {
			return err
		}
		binary.LittleEndian.PutUint32(row[4*i:], n)
	}
	return nil
}

// of returns the number of a text, a new one if it is new.
func (t *textTable) of(text string) (uint32, error) {
	if n, ok := t.number[text]; ok {
		return n, nil
	}
	if t.size+int64(len(text)) > math.MaxUint32 {
		return 0, fmt.Errorf("game: %w: 4 GiB of names", ErrLimit)
	}
	text = strings.Clone(text) // what it was cut from may be large
	n := uint32(len(t.all))
	t.number[text] = n
	t.all = append(t.all, text)
	t.size += int64(len(text))
	return n, nil
}

// cut returns as much of a text as is kept.
func cut(text string) string {
	if len(text) <= NameMost {
		return text
	}
	end := NameMost
	for end > NameMost-utf8.UTFMax && !utf8.RuneStart(text[end]) {
		end--
	}
	return text[:end]
}

// write writes where the texts end, 4 bytes each and 4 more for their number,
// then the texts.
func (t *textTable) write(out *sink) {
	buf := binary.LittleEndian.AppendUint32(make([]byte, 0, chunk), uint32(len(t.all)))
	end := uint32(0)
	for _, text := range t.all {
		end += uint32(len(text))
		buf = binary.LittleEndian.AppendUint32(buf, end)
		if len(buf) >= chunk-4 {
			out.write(buf)
			buf = buf[:0]
		}
	}
	out.write(buf)
	for _, text := range t.all {
		out.write([]byte(text))
	}
}
