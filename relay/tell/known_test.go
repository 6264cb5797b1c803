package tell

import (
	"sync"
	"testing"
)

// The real games and the constants fitted to them, read and fitted once for all
// tests that need them. Nothing changes them.
var known struct {
	sync.Mutex
	games map[string][]realGame
	fits  map[int]params // by fold left out, -1 none
}

// library returns the real games.
func library(t testing.TB) map[string][]realGame {
	t.Helper()
	known.Lock()
	defer known.Unlock()
	if known.games == nil {
		known.games, known.fits = realGames(t), make(map[int]params)
	}
	return known.games
}

// fittedWithout returns the constants fitted to all games but those of a fold.
func fittedWithout(t testing.TB, fold int) *params {
	t.Helper()
	games := library(t)
	known.Lock()
	defer known.Unlock()
	p, ok := known.fits[fold]
	if !ok {
		p = fitted(games, fitStart(), fold)
		known.fits[fold] = p
	}
	return &p
}
