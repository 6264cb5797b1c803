package reference

import (
	"encoding/binary"
	"fmt"
)

// Game returns what is kept of a game. It reads the names from the file.
func (x *Index) Game(id GameID) (Game, error) {
	if uint64(id) >= x.head.games {
		return Game{}, fmt.Errorf("game %d of %d: %w", id, x.head.games, ErrLimit)
	}
	a := x.attributes[id]
	g := Game{WhiteRating: int(a.white()), BlackRating: int(a.black()), Year: int(a.year()),
		Result: a.result(), Class: a.class(), Venue: a.venue()}
	var row [nameRow]byte
	if err := readAt(x.from, row[:], x.head.sections[names].at+int64(id)*nameRow); err != nil {
		return Game{}, err
	}
	for i, text := range []*string{&g.White, &g.Black, &g.Event} {
		var err error
		if *text, err = x.text(binary.LittleEndian.Uint32(row[4*i:])); err != nil {
			return Game{}, err
		}
	}
	return g, nil
}

// text reads a text by its number: the section begins with how many there are
// and where each ends.
func (x *Index) text(number uint32) (string, error) {
	s := x.head.sections[texts]
	var row [8]byte // where the one before it ends, and where it does
	if err := x.readText(row[:4], s, 0); err != nil {
		return "", err
	}
	count := int64(binary.LittleEndian.Uint32(row[:]))
	n := int64(number)
	if n >= count {
		return "", damaged("text %d of %d", n, count)
	}
	if err := x.readText(row[:], s, 4*n); err != nil {
		return "", err
	}
	begin, end := binary.LittleEndian.Uint32(row[:]), binary.LittleEndian.Uint32(row[4:])
	if n == 0 {
		begin = 0 // the count stands there
	}
	if end < begin || end-begin > NameMost {
		return "", damaged("text %d cannot be read", n)
	}
	text := make([]byte, end-begin)
	err := x.readText(text, s, 4*(count+1)+int64(begin))
	return string(text), err
}

// readText reads within the section of texts.
func (x *Index) readText(b []byte, s section, at int64) error {
	if at > s.size-int64(len(b)) {
		return damaged("section %s cannot be read", sectionNames[texts])
	}
	return readAt(x.from, b, s.at+at)
}
