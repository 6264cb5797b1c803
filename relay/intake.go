package relay

import (
	"bytes"
	"errors"
	"hash/maphash"
	"time"

	"clocktell/relay/pgn"
)

// ErrNotPGN says that a text holds no game at all: a web page, an empty file.
var ErrNotPGN = errors.New("no game in it: the address or file does not hold PGN")

// Intake turns the packets of one feed into events. It remembers only a hash of
// each game, so that a packet costs the loop no more than what changed in it.
// It belongs to one goroutine.
type Intake struct {
	feed string
	seed maphash.Seed
	seen []uint64 // hash of each game of the last packet, by place
}

// NewIntake returns the intake of the feed of that name.
func NewIntake(feed string) *Intake {
	return &Intake{feed: feed, seed: maphash.MakeSeed()}
}

// HoldsGames tells whether a packet is PGN, with ErrNotPGN if not. A web page
// may hold words that look like moves, but no tag pair.
func HoldsGames(packet []byte) error {
	first := pgn.DefaultLimits
	first.Games, first.Plies = 1, 1
	for _, game := range first.Read(packet) {
		if len(game.Tags) > 0 && !bytes.HasPrefix(bytes.TrimSpace(packet), []byte("<")) {
			return nil
		}
	}
	return ErrNotPGN
}

// Read reads a packet received at that time.
func (in *Intake) Read(at time.Time, packet []byte) PacketRead {
	games := pgn.Read(packet)
	event := PacketRead{At: at, Feed: in.feed, Keys: make([]Key, len(games))}
	seen := make([]uint64, len(games))
	for i := range games {
		event.Keys[i] = keyOf(&games[i])
		seen[i] = maphash.Bytes(in.seed, games[i].Text)
		if i >= len(in.seen) || in.seen[i] != seen[i] {
			event.Games = append(event.Games, GameRead{Index: i, Game: games[i]})
		}
	}
	in.seen = seen
	return event
}
