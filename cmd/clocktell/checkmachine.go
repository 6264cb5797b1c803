package main

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"net"
	"os"
	"path/filepath"
	"syscall"

	"clocktell/relay/config"
)

// journalLeast is how much room the journal's disk must have: a long show of many boards
// takes less.
const journalLeast = 64 << 20

// checkPort tries whether pages can be served where the configuration says.
func checkPort(address string) finding {
	l, err := net.Listen("tcp", address)
	if err == nil {
		err = l.Close()
	}
	f := finding{Area: areaPort, State: stateFine, Text: address + " is free"}
	if err == nil {
		return f
	}
	f.State, f.Text = stateFails, err.Error()
	switch {
	case errors.Is(err, syscall.EADDRINUSE):
		f.Do = "another program serves there, or clocktell runs already: end it, or choose another address with listen under [server]"
	case errors.Is(err, syscall.EADDRNOTAVAIL):
		f.Do = "this machine does not have that address: correct listen under [server]"
	case errors.Is(err, fs.ErrPermission):
		f.Do = "this user may not serve there: choose a port from 1024 on with listen under [server]"
	default:
		f.Do = "correct listen under [server]"
	}
	return f
}

// checkJournal tries whether the journal's folder can be written, and has room.
func (k *checker) checkJournal() {
	c := k.config.Journal
	if c.Dir == "" {
		k.add(finding{Area: areaJournal, State: stateWarning, Text: "none; a crash loses the show", Do: "name a folder as dir under [journal]"})
		return
	}
	near, err := writable(c.Dir)
	if err != nil {
		k.add(finding{Area: areaJournal, State: stateFails, Text: err.Error(), Do: "give this user the right to write there, or name another folder as dir under [journal]"})
		return
	}
	k.add(finding{Area: areaJournal, State: stateFine, Text: c.Dir + " can be written"})
	free, err := k.free(near)
	if err != nil {
		k.add(finding{Area: areaDisk, State: stateWarning, Text: fmt.Sprintf("how much room %s has is not known: %v", near, err), Do: "look by other means"})
		return
	}
	may := max(0, c.MaxBytes-folderBytes(c.Dir))
	f := finding{Area: areaDisk, State: stateFine, Text: fmt.Sprintf("%s has %s left; the journal may still take %s", near, inBytes(free), inBytes(may))}
	switch {
	case free < journalLeast:
		f.State, f.Do = stateFails, fmt.Sprintf("that is less than %s: free some space, or name a folder on another disk as dir under [journal]", inBytes(journalLeast))
	case free < may:
		f.State, f.Do = stateWarning, "free some space, or lower max_bytes under [journal]"
	}
	k.add(f)
}

// writable writes a file into a folder, or if that is not there into the nearest one
// above, in which it would be made, and deletes it. It returns the folder that it tried.
func writable(dir string) (near string, err error) {
	near, err = filepath.Abs(dir)
	if err != nil {
		return dir, err
	}
	for {
		if _, err := os.Stat(near); !errors.Is(err, fs.ErrNotExist) || near == filepath.Dir(near) {
			break
		}
		near = filepath.Dir(near)
	}
	file, err := os.CreateTemp(near, "clocktell-check-*")
	if err != nil {
		return near, err
	}
	return near, errors.Join(file.Close(), os.Remove(file.Name()))
}

// folderBytes is the size of the files of a folder; 0 if it is not there.
func folderBytes(dir string) (size int64) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return 0
	}
	for _, entry := range entries {
		if info, err := entry.Info(); err == nil && info.Mode().IsRegular() {
			size += info.Size()
		}
	}
	return size
}

// inBytes is a size in words.
func inBytes(n int64) string {
	switch {
	case n >= 1e9:
		return fmt.Sprintf("%.1f GB", float64(n)/1e9)
	case n >= 1e6:
		return fmt.Sprintf("%.0f MB", float64(n)/1e6)
	}
	return fmt.Sprintf("%d bytes", n)
}

// checkReference opens the reference and reads it whole.
func checkReference(c config.Reference) finding {
	f := finding{Area: areaReference, State: stateFine}
	if c.File == "" {
		f.Text = "none; moves are not looked up. clocktell reference -h tells how to make one"
		return f
	}
	index, err := openIndex(c.File)
	if err == nil {
		err = errors.Join(index.Verify(), index.Close())
	}
	if err != nil {
		f.State, f.Text, f.Do = stateFails, err.Error(), "build it again with clocktell reference build, name another as file under [reference], or none"
		return f
	}
	counted := c.Counted()
	if counted == "" {
		counted = "all count"
	}
	f.Text = fmt.Sprintf("%s holds %d games to ply %d; %s", c.File, index.Games(), index.Depth(), counted)
	return f
}

// boardLinksMost is how many boards are given a link of their own.
const boardLinksMost = 12

// checkLinks lists what to open when pages are served where the configuration says. Boards
// are numbered as their games come, so those beyond the first are listed only where one
// feed alone, and its backups, has them.
func (k *checker) checkLinks() {
	host, port, err := net.SplitHostPort(k.config.Server.Listen)
	if err != nil || port == "0" {
		return // the terminal tells them when the show starts
	}
	if ip := net.ParseIP(host); host == "" || ip != nil && ip.IsUnspecified() {
		host = "127.0.0.1"
	}
	base := "http://" + net.JoinHostPort(host, port)
	if k.config.Server.TLSCert != "" {
		base = "https://" + net.JoinHostPort(host, port)
	}
	for _, page := range links {
		k.report.Links = append(k.report.Links, checkedLink{URL: base + page.path, Text: page.about})
	}
	var games []checkedGame
	leading := 0
	for i, f := range k.config.Feeds {
		if f.BackupOf == "" {
			leading++
			games = k.report.Feeds[i].Games
		}
	}
	if leading != 1 || len(games) < 2 {
		return
	}
	for _, g := range games[:min(len(games), boardLinksMost, k.config.Show.MaxBoards)] {
		k.report.Links = append(k.report.Links, checkedLink{
			URL: fmt.Sprintf("%s/scene/board?board=%d", base, g.Number), Text: fmt.Sprintf("%s – %s, as the feed is now", orUnnamed(g.White), orUnnamed(g.Black)),
		})
	}
}

func orUnnamed(name string) string { return cmp.Or(name, "?") }
