package main

import (
	"fmt"
	"io"
	"os"

	"clocktell/relay"
	"clocktell/relay/pgn"
)

// gamesFileMost is how long a file of games for prompts may be, in bytes: it is kept in
// memory.
const gamesFileMost = 256 << 20

// gamesFile is a PGN file and where its games stand in it.
type gamesFile struct {
	file  string // name, for people
	games []placedGame
}

// placedGame is a game by its place in a text.
type placedGame struct {
	file   string
	text   string // from its first byte on
	number int    // in the file, from 1
	line   int    // where its text begins, from 1
}

// read reads the game.
func (g *placedGame) read() *pgn.Game {
	game, _ := pgn.Next(g.text, g.line)
	return &game
}

// openGamesFile reads a file of games, or stdin where its name is "-".
func openGamesFile(path string, stdin io.Reader) (*gamesFile, error) {
	if path == "-" {
		return readGamesFile("standard input", stdin, gamesFileMost)
	}
	info, err := os.Stat(path) // before it is opened: opening a pipe waits for who writes to it
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s is not a file: name the file with games itself, or - for standard input", path)
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	return readGamesFile(path, file, gamesFileMost)
}

func readGamesFile(name string, from io.Reader, most int64) (*gamesFile, error) {
	data, err := io.ReadAll(io.LimitReader(from, most+1))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if int64(len(data)) > most {
		return nil, fmt.Errorf("%s is larger than %d MiB: cut it into several files", name, most>>20)
	}
	if err := relay.HoldsGames(data); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	c := &gamesFile{file: name}
	c.find(string(data))
	return c, nil
}

// find notes where the games of a text stand.
func (c *gamesFile) find(text string) {
	for line := 1; text != ""; {
		game, end := pgn.Next(text, line)
		if game.Line > 0 {
			c.games = append(c.games, placedGame{file: c.file, text: text, number: len(c.games) + 1, line: line})
		}
		line += pgn.CountLines(text[:end])
		text = text[end:]
	}
}

// chosen returns at most so many games, 0 for all: the first ones, or with spread as
// evenly over the file as they go.
func (c *gamesFile) chosen(most int, spread bool) []placedGame {
	n := len(c.games)
	switch {
	case most == 0 || most >= n:
		return c.games
	case !spread:
		return c.games[:most]
	}
	chosen := make([]placedGame, most)
	for i := range chosen {
		chosen[i] = c.games[i*n/most]
	}
	return chosen
}
