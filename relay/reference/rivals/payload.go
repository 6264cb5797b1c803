package main

import (
	"bufio"
	"encoding/binary"
	"errors"
	"io"
	"os"

	"clocktell/relay/reference"
)

const (
	payloadRow = 14
	samples    = 100_000
)

type totals struct{ Occurrences, Positions int }

// writePayload writes all occurrences in order, and the positions to look at.
func (s *setup) writePayload() (totals, error) {
	occurrences := s.Occurrences()
	t := totals{Occurrences: len(occurrences)}
	file, err := os.Create(s.path("payload"))
	if err != nil {
		return t, err
	}
	out := bufio.NewWriter(file)
	var different []uint64
	var row [payloadRow]byte
	for i, o := range occurrences {
		binary.LittleEndian.PutUint64(row[:], o.Position)
		binary.LittleEndian.PutUint16(row[8:], o.Move)
		binary.LittleEndian.PutUint32(row[10:], uint32(o.Game))
		out.Write(row[:])
		if i == 0 || o.Position != occurrences[i-1].Position {
			different = append(different, o.Position)
		}
	}
	t.Positions = len(different)
	looks := make([]byte, 0, 8*samples)
	step := uint64(0x9e3779b97f4a7c15)
	for i := range uint64(samples) {
		looks = binary.LittleEndian.AppendUint64(looks, different[i*step>>20%uint64(len(different))])
	}
	return t, errors.Join(out.Flush(), file.Close(), os.WriteFile(s.path("looks"), looks, 0o600))
}

// each calls visit for each occurrence, off the disk.
func (s *setup) each(visit func(reference.Occurrence) error) error {
	file, err := os.Open(s.path("payload"))
	if err != nil {
		return err
	}
	defer file.Close()
	in := bufio.NewReaderSize(file, 1<<20)
	var row [payloadRow]byte
	for {
		if _, err := io.ReadFull(in, row[:]); err == io.EOF {
			return nil
		} else if err != nil {
			return err
		}
		le := binary.LittleEndian
		o := reference.Occurrence{Position: le.Uint64(row[:]), Move: le.Uint16(row[8:]), Game: reference.GameID(le.Uint32(row[10:]))}
		if err := visit(o); err != nil {
			return err
		}
	}
}

// grouped calls put for each position with its games grouped by move.
func (s *setup) grouped(put func(position uint64, value []byte) error) error {
	var value []byte
	var games []uint32
	var last reference.Occurrence
	endMove := func() {
		value = binary.LittleEndian.AppendUint16(value, last.Move)
		value = binary.AppendUvarint(value, uint64(len(games)))
		before := uint32(0)
		for _, id := range games {
			value = binary.AppendUvarint(value, uint64(id-before))
			before = id
		}
		games = games[:0]
	}
	err := s.each(func(o reference.Occurrence) error {
		var err error
		if len(games) > 0 && (o.Position != last.Position || o.Move != last.Move) {
			endMove()
			if o.Position != last.Position {
				err = put(last.Position, value)
				value = value[:0]
			}
		}
		games, last = append(games, uint32(o.Game)), o
		return err
	})
	if err != nil || len(games) == 0 {
		return err
	}
	endMove()
	return put(last.Position, value)
}

func (s *setup) looks() ([]uint64, error) {
	b, err := os.ReadFile(s.path("looks"))
	positions := make([]uint64, len(b)/8)
	for i := range positions {
		positions[i] = binary.LittleEndian.Uint64(b[8*i:])
	}
	return positions, err
}
