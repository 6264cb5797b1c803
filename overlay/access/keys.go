package access

import (
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"errors"
	"io/fs"
	"sync"
	"time"
)

// Token is a new token of a role, in clear: it can be shown now and never again.
type Token struct {
	Role Role
	Text string
}

// key is what is kept of a token.
type key struct {
	hash [sha256.Size]byte
	made time.Time
}

// Keys are the tokens of all roles, as far as they are kept.
type Keys struct {
	file string // "" in memory only
	now  func() time.Time

	mu      sync.Mutex // protects following
	keys    map[Role]key
	shown   map[Role]string // tokens in clear that this process has made or been shown; of viewers only
	seen    fs.FileInfo     // the file as it was read or written last
	renewed []Role          // by another process, and not told by Refresh yet
}

// New returns tokens that live as long as the process, and all of them in clear.
func New(now func() time.Time) (*Keys, []Token) {
	k := &Keys{now: now, keys: make(map[Role]key), shown: make(map[Role]string)}
	made := make([]Token, 0, len(Roles))
	for _, role := range Roles {
		made = append(made, k.make(role))
	}
	return k, made
}

// make replaces the token of a role in memory; the caller holds the lock, or is alone.
func (k *Keys) make(role Role) Token {
	token := Token{role, newToken()}
	k.keys[role] = key{hash: sha256.Sum256([]byte(token.Text)), made: k.now()}
	delete(k.shown, role)
	if role == Viewer {
		k.shown[role] = token.Text
	}
	return token
}

// A token has so many random bits, written in letters of base 32 (RFC 4648, 6).
const (
	tokenBits  = 160
	letterBits = 5
)

// newToken joins two texts, of 26 letters each, and cuts them.
func newToken() string { return (rand.Text() + rand.Text())[:tokenBits/letterBits] }

// RoleOf returns the role whose token this is, or Nobody. It takes as long for any
// token: every hash is compared, each in constant time.
func (k *Keys) RoleOf(shown string) Role {
	hash, found := sha256.Sum256([]byte(shown)), Nobody
	k.mu.Lock()
	defer k.mu.Unlock()
	for _, role := range Roles {
		kept := k.keys[role]
		if subtle.ConstantTimeCompare(hash[:], kept.hash[:]) == 1 {
			found = role
		}
	}
	if found == Viewer {
		k.shown[Viewer] = shown
	}
	return found
}

// Viewers returns the viewers' token for the addresses of scenes, or "" while this process
// has neither made it nor seen it used: it is kept nowhere else.
func (k *Keys) Viewers() string {
	k.mu.Lock()
	defer k.mu.Unlock()
	return k.shown[Viewer]
}

// Made returns when the token of a role was made.
func (k *Keys) Made(role Role) time.Time {
	k.mu.Lock()
	defer k.mu.Unlock()
	return k.keys[role].made
}

// Renew makes a new token for a role; the old one is worth nothing from now on. An error
// says that the file could not be written, or not be read although it is there: then the
// old one stays. What another process has renewed before stays renewed.
func (k *Keys) Renew(role Role) (Token, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.file != "" {
		if err := k.again(); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return Token{}, err
		}
	}
	before, shown := k.keys[role], k.shown[role]
	token := k.make(role)
	if err := k.save(); err != nil {
		k.keys[role] = before
		if delete(k.shown, role); shown != "" {
			k.shown[role] = shown
		}
		return Token{}, err
	}
	return token, nil
}
