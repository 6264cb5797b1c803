package access

import (
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"time"
)

// FileName is the file of a state directory that holds what is kept of the tokens.
const FileName = "tokens.json"

const fileVersion = 1

// Modes of what is written: for its owner alone.
const (
	dirMode  fs.FileMode = 0o700
	fileMode fs.FileMode = 0o600
)

// fileMost is how many bytes a file of tokens is read at most; ours has some 500.
const fileMost = 16 << 10

type kept struct {
	Version int                `json:"version"`
	Tokens  map[string]keptKey `json:"tokens"` // by the name of the role
}

type keptKey struct {
	SHA256 string    `json:"sha256"` // in hexadecimal
	Made   time.Time `json:"made"`
}

// Open reads the tokens of a state directory. Where there are none yet it makes them and
// returns them in clear. The error names the file and the way out, and holds no secret.
func Open(dir string, now func() time.Time) (*Keys, []Token, error) {
	file := filepath.Join(dir, FileName)
	k := &Keys{file: file, now: now, keys: make(map[Role]key), shown: make(map[Role]string)}
	switch err := k.load(); {
	case err == nil:
		return k, nil, nil
	case !errors.Is(err, fs.ErrNotExist):
		return nil, nil, err
	}
	if err := os.MkdirAll(dir, dirMode); err != nil {
		return nil, nil, fmt.Errorf("access: %w", err)
	}
	fresh, made := New(now)
	fresh.file = file
	if err := fresh.save(); err != nil {
		return nil, nil, err
	}
	return fresh, made, nil
}

// load reads the file; the caller holds the lock, or is alone.
func (k *Keys) load() error {
	info, err := os.Stat(k.file)
	if err != nil {
		return fmt.Errorf("access: %w", err)
	}
	if open := info.Mode().Perm() &^ fileMode; open != 0 {
		return fmt.Errorf("access: %s can be read by others (mode %04o); run chmod 600 on it, or delete it for new tokens", k.file, info.Mode().Perm())
	}
	if info.Size() > fileMost {
		return fmt.Errorf("access: %s is no file of tokens; delete it for new ones", k.file)
	}
	text, err := os.ReadFile(k.file)
	if err != nil {
		return fmt.Errorf("access: %w", err)
	}
	keys, err := parse(text)
	if err != nil {
		return fmt.Errorf("access: %s is damaged: %w; delete it for new tokens", k.file, err)
	}
	k.keys, k.seen = keys, info
	return nil
}

func parse(text []byte) (map[Role]key, error) {
	var from kept
	if err := json.Unmarshal(text, &from); err != nil {
		return nil, errors.New("not JSON")
	}
	if from.Version != fileVersion {
		return nil, fmt.Errorf("version %d, not %d", from.Version, fileVersion)
	}
	keys := make(map[Role]key)
	for _, role := range Roles {
		token := from.Tokens[role.String()]
		hash, err := hex.DecodeString(token.SHA256)
		read := key{made: token.Made}
		if err != nil || len(hash) != len(read.hash) {
			return nil, fmt.Errorf("no hash of the %s's token", role)
		}
		copy(read.hash[:], hash)
		keys[role] = read
	}
	return keys, nil
}

// save replaces the file whole, so that a crash leaves the old or the new one; the
// caller holds the lock, or is alone.
func (k *Keys) save() error {
	if k.file == "" {
		return nil
	}
	out := kept{Version: fileVersion, Tokens: make(map[string]keptKey)}
	for role, key := range k.keys {
		out.Tokens[role.String()] = keptKey{SHA256: hex.EncodeToString(key.hash[:]), Made: key.made.UTC().Truncate(time.Second)}
	}
	text, err := json.MarshalIndent(out, "", "  ")
	if err != nil {
		return fmt.Errorf("access: %w", err)
	}
	if err := replaceFile(k.file, append(text, '\n')); err != nil {
		return fmt.Errorf("access: %w", err)
	}
	if info, err := os.Stat(k.file); err == nil {
		k.seen = info
	}
	return nil
}

func replaceFile(name string, text []byte) (err error) {
	f, err := os.CreateTemp(filepath.Dir(name), "."+FileName+"-*") // made with mode 0600
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(f.Name()))
		}
	}()
	_, err = f.Write(text)
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close(), giveTo(f.Name(), name)); err != nil {
		return err
	}
	return os.Rename(f.Name(), name)
}

// giveTo gives a new file to the owner of the one that it replaces, or else of its folder: the
// relay often runs as a user of its own, and root renews its tokens.
func giveTo(fresh, old string) error {
	info, err := os.Stat(old)
	if err != nil {
		info, err = os.Stat(filepath.Dir(old))
	}
	if err != nil {
		return err
	}
	owner, ok := info.Sys().(*syscall.Stat_t)
	if !ok || int(owner.Uid) == os.Geteuid() {
		return nil
	}
	return os.Chown(fresh, int(owner.Uid), int(owner.Gid))
}

// same reports whether the file is as it was: it is replaced, never written over.
func same(was, is fs.FileInfo) bool {
	return was != nil && os.SameFile(was, is) && was.ModTime().Equal(is.ModTime()) && was.Size() == is.Size()
}

// Refresh reads the file again if another process has replaced it, and returns the roles
// whose tokens it found to be other ones since it was last called. With an error the tokens
// stay as they were.
func (k *Keys) Refresh() ([]Role, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.file == "" {
		return nil, nil
	}
	err := k.again()
	renewed := k.renewed
	k.renewed = nil
	return renewed, err
}

// again reads the file if another process has replaced it; the caller holds the lock.
func (k *Keys) again() error {
	info, err := os.Stat(k.file)
	if err != nil {
		return fmt.Errorf("access: %w", err)
	}
	if same(k.seen, info) {
		return nil
	}
	before := k.keys
	if err := k.load(); err != nil {
		return err
	}
	for _, role := range Roles {
		if before[role].hash != k.keys[role].hash {
			k.renewed = append(k.renewed, role)
			delete(k.shown, role)
		}
	}
	return nil
}
