package journal

import (
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// siblings are what SQLite keeps beside a file, by suffix.
var siblings = []string{"-wal", "-shm", "-journal"}

// uri names a file for SQLite.
func uri(path, query string) (string, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return "", err
	}
	slashed := filepath.ToSlash(abs)
	if !strings.HasPrefix(slashed, "/") {
		slashed = "/" + slashed // a drive letter
	}
	return "file://" + (&url.URL{Path: slashed}).EscapedPath() + "?" + query, nil
}

// showsIn returns the shows of a folder, oldest first.
func showsIn(dir string) ([]string, error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	var shows []string
	for _, entry := range entries {
		if name := entry.Name(); strings.HasPrefix(name, namePrefix) && strings.HasSuffix(name, nameSuffix) {
			shows = append(shows, filepath.Join(dir, name))
		}
	}
	slices.Sort(shows)
	return shows, nil
}

// nameFor returns the name of a show that starts at a time: the first second
// from then on that no show has taken.
func nameFor(dir string, start time.Time) string {
	for {
		path := filepath.Join(dir, namePrefix+start.UTC().Format(nameLayout)+nameSuffix)
		if taken, _ := filepath.Glob(globbed(path) + "*"); len(taken) == 0 { // nor a -wal left behind
			return path
		}
		start = start.Add(time.Second)
	}
}

// setAside renames a file and what SQLite keeps beside it, so that it can still
// be looked at, and returns the new name.
func setAside(path string) (string, error) {
	for n := 1; n <= damagedNamesMost; n++ {
		aside := path + damagedSuffix
		if n > 1 {
			aside = fmt.Sprintf("%s%d", aside, n)
		}
		if _, err := os.Lstat(aside); err == nil {
			continue
		}
		if err := os.Rename(path, aside); err != nil {
			return "", err
		}
		return aside, moveSiblings(path, aside)
	}
	return "", fmt.Errorf("there are already %d files named %s%s and a number: move them away", damagedNamesMost, path, damagedSuffix)
}

// moveSiblings moves what SQLite keeps beside a file along with it. A -wal must
// not stay: SQLite would put its pages into the next file of that name. What is
// empty, or can be made again, is not kept.
func moveSiblings(path, to string) error {
	for _, suffix := range siblings {
		if info, err := os.Lstat(path + suffix); err == nil && (info.Size() == 0 || suffix == "-shm") {
			if err := os.Remove(path + suffix); err != nil {
				return err
			}
		}
		if err := os.Rename(path+suffix, to+suffix); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	return nil
}

// remove deletes a file and what SQLite keeps beside it.
func remove(path string) error {
	for _, suffix := range append(siblings, "") { // the file last: it is what is found again
		if err := os.Remove(path + suffix); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	return nil
}

// tidy ends what a killed process left half done. A new file that is complete,
// which is so when the damaged one was moved out of its way, gets its name.
func tidy(dir string) error {
	left, err := filepath.Glob(filepath.Join(globbed(dir), namePrefix+"*"+nameSuffix+newSuffix))
	if err != nil {
		return err
	}
	for _, path := range left {
		final := strings.TrimSuffix(path, newSuffix)
		_, there := os.Lstat(final)
		_, aside := os.Lstat(final + damagedSuffix)
		if there != nil && aside == nil {
			err = errors.Join(moveSiblings(final, final+damagedSuffix), complete(final))
		} else {
			err = remove(path)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// globbed escapes what filepath.Glob would take for a pattern.
func globbed(dir string) string {
	return strings.NewReplacer("*", "[*]", "?", "[?]", "[", "[[]").Replace(dir)
}

// bytesOf returns how many bytes a file takes with what SQLite keeps beside it.
func bytesOf(path string) int64 {
	var n int64
	for _, suffix := range append(siblings, "") {
		if info, err := os.Stat(path + suffix); err == nil {
			n += info.Size()
		}
	}
	return n
}
