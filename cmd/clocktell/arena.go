package main

import (
	"bytes"
	"context"
	"fmt"
	"io/fs"
	"net/http"
	"time"

	"github.com/BurntSushi/toml"

	"clocktell/relay"
	"clocktell/relay/pgn"
)

// arena is the demo's playing hall: it publishes invented games over HTTP, ply
// by ply as their clocks say, and makes the mistakes its script names.
type arena struct {
	games  []arenaGame
	script arenaScript
	now    func() time.Time // show time
	start  time.Time        // of the first round
}

// arenaGame is a game with the moments at which its plies are played.
type arenaGame struct {
	pgn.Game
	played []time.Duration // since the start of the round
}

// arenaScript is what goes wrong.
type arenaScript struct {
	Correction []struct {
		Game, Ply int
		Wrong     string
		For       scriptTime
	}
	Stall []struct{ At, For scriptTime }
}

type scriptTime struct{ time.Duration }

// UnmarshalText reads what time.ParseDuration reads.
func (t *scriptTime) UnmarshalText(text []byte) (err error) {
	t.Duration, err = time.ParseDuration(string(text))
	return err
}

// Pauses of show time around a round.
const (
	arenaLead  = 3 * time.Second  // before the first move, so that the start is seen
	arenaPause = 40 * time.Second // after the last game, before the next round
)

// newArena reads the games and the script of the demo.
func newArena(files fs.FS, now func() time.Time) (*arena, error) {
	a := &arena{now: now, start: now()}
	script, err := fs.ReadFile(files, "script.toml")
	if err != nil {
		return nil, err
	}
	if _, err := toml.Decode(string(script), &a.script); err != nil {
		return nil, fmt.Errorf("script.toml: %w", err)
	}
	for _, name := range []string{"game1.pgn", "game2.pgn"} {
		text, err := fs.ReadFile(files, name)
		if err != nil {
			return nil, err
		}
		for _, game := range pgn.Read(text) {
			a.games = append(a.games, newArenaGame(game))
		}
	}
	return a, nil
}

func newArenaGame(game pgn.Game) arenaGame {
	g := arenaGame{Game: game}
	at := arenaLead
	for _, spent := range relay.Spent(&game) {
		at += spent
		g.played = append(g.played, at)
	}
	return g
}

// length is how long a round takes, the pause behind it included.
func (a *arena) length() time.Duration { return a.ends() + arenaPause }

// ends is when the last ply of a round is played.
func (a *arena) ends() time.Duration {
	var last time.Duration
	for _, g := range a.games {
		last = max(last, g.played[len(g.played)-1])
	}
	return last
}

// clock returns the round now played, from 1, and how long it has gone on.
func (a *arena) clock() (round int, at time.Duration) {
	since := a.now().Sub(a.start)
	return int(since/a.length()) + 1, since % a.length()
}

// ServeHTTP answers with the games as they stand, or not at all while the feed
// stalls.
func (a *arena) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	round, at := a.clock()
	if a.stalled(at) {
		a.hang(r.Context())
		return
	}
	w.Header().Set("Content-Type", "application/x-chess-pgn; charset=utf-8")
	w.Write(a.text(round, at))
}

// hang keeps a request without an answer until the asker gives up.
func (a *arena) hang(ctx context.Context) { <-ctx.Done() }

func (a *arena) stalled(at time.Duration) bool {
	for _, stall := range a.script.Stall {
		if at >= stall.At.Duration && at < stall.At.Duration+stall.For.Duration {
			return true
		}
	}
	return false
}

func (a *arena) text(round int, at time.Duration) []byte {
	var out bytes.Buffer
	for i := range a.games {
		game := a.games[i].at(at)
		setTag(&game, "Round", fmt.Sprint(round))
		a.mistake(&game, i+1, at)
		if err := pgn.Write(&out, &game); err != nil {
			panic(err) // a buffer takes everything
		}
	}
	return out.Bytes()
}

// at returns the game as it stood at a moment.
func (g *arenaGame) at(t time.Duration) pgn.Game {
	game := g.Game
	n := 0
	for n < len(g.played) && g.played[n] <= t {
		n++
	}
	game.Moves = append([]pgn.Move{}, game.Moves[:n]...)
	game.Tags = append([]pgn.Tag{}, game.Tags...)
	if n < len(g.played) {
		game.Result = "*"
		setTag(&game, "Result", "*")
	}
	return game
}

// mistake enters a wrong move while the script says so.
func (a *arena) mistake(game *pgn.Game, number int, at time.Duration) {
	for _, c := range a.script.Correction {
		if c.Game != number || len(game.Moves) < c.Ply {
			continue
		}
		if entered := a.games[number-1].played[c.Ply-1]; at < entered+c.For.Duration {
			game.Moves[c.Ply-1].SAN = c.Wrong
		}
	}
}

func setTag(game *pgn.Game, name, value string) {
	for i := range game.Tags {
		if game.Tags[i].Name == name {
			game.Tags[i].Value = value
		}
	}
}
