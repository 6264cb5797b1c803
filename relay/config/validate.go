package config

import (
	"fmt"
	"net"
	"net/url"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"

	"github.com/BurntSushi/toml"

	"clocktell/relay/clock"
	"clocktell/relay/prompt"
)

type validator struct {
	file  string
	lines map[string]int
	errs  []error
}

// wrong notes what is wrong with the key at path. Without a line of its own
// (the key is missing) the line of its table is named.
func (v *validator) wrong(path, format string, args ...any) {
	line, ok := v.lines[path]
	if !ok {
		line = v.lines[path[:max(0, strings.LastIndexByte(path, '.'))]]
	}
	v.errs = append(v.errs, &KeyError{File: v.file, Line: line, Key: listIndex.ReplaceAllString(path, ""), What: fmt.Sprintf(format, args...)})
}

var listIndex = regexp.MustCompile(`\[\d+\]`)

func (v *validator) unknown(keys []toml.Key) {
	var paths []string
	for path := range v.lines {
		for _, key := range keys {
			if listIndex.ReplaceAllString(path, "") == key.String() {
				paths = append(paths, path)
			}
		}
	}
	slices.Sort(paths)
	for _, path := range slices.Compact(paths) {
		v.wrong(path, "is not a key of clocktell; see configs/clocktell.toml for all of them")
	}
	if len(keys) > 0 && len(paths) == 0 {
		v.wrong(keys[0].String(), "is not a key of clocktell; see configs/clocktell.toml for all of them")
	}
}

func (v *validator) config(c *Config, env func(string) (string, bool)) {
	if c.Show.MaxBoards < 1 || c.Show.MaxBoards > 500 {
		v.wrong("show.max_boards", "%d is out of range; 1 to 500", c.Show.MaxBoards)
	}
	if d := c.Show.Caption.Duration; d != 0 && (d < 4*time.Second || d > time.Hour) {
		v.wrong("show.caption", "%v is out of range; 4s to 1h, or 0s", d)
	}
	if _, err := clock.ParseControl(c.Show.TimeControl); c.Show.TimeControl != "" && err != nil {
		v.wrong("show.time_control", "%v", err)
	}
	if _, err := prompt.LanguageOf(c.Show.Language); err != nil {
		v.wrong("show.language", "%v", err)
	}
	v.server(&c.Server)
	if !slices.Contains([]string{"debug", "info", "warn", "error"}, c.Log.Level) {
		v.wrong("log.level", "%q is none of debug, info, warn, error", c.Log.Level)
	}
	v.journal(&c.Journal)
	v.reference(&c.Reference)
	v.engines(c)
	v.match(&c.Match)
	v.feeds(c.Feeds, env)
	if c.Bus.Listen != "" && c.Bus.Dir == "" && c.Journal.Dir != "" {
		c.Bus.Dir = filepath.Join(c.Journal.Dir, "bus")
	}
	v.bus(&c.Bus, c.Feeds, env)
}

func (v *validator) server(s *Server) {
	if _, _, err := net.SplitHostPort(s.Listen); err != nil {
		v.wrong("server.listen", "%q is not host:port, such as 127.0.0.1:8600", s.Listen)
	}
	for _, limit := range []struct {
		key  string
		most int
	}{{"max_pages", s.MaxPages}, {"max_connections", s.MaxConns}, {"max_connections_each", s.MaxConnsOne}} {
		if limit.most < 1 || limit.most > 100_000 {
			v.wrong("server."+limit.key, "%d is out of range; 1 to 100000", limit.most)
		}
	}
	switch {
	case s.TLSCert != "" && s.TLSKey == "":
		v.wrong("server.tls_cert", "needs tls_key: the file of the key that belongs to it")
	case s.TLSCert == "" && s.TLSKey != "":
		v.wrong("server.tls_key", "needs tls_cert: the file of the certificate that it belongs to")
	}
}

func (v *validator) journal(j *Journal) {
	if j.MaxBytes < 1<<20 || j.MaxBytes > 1<<40 {
		v.wrong("journal.max_bytes", "%d is out of range; 1048576 to 1099511627776 bytes", j.MaxBytes)
	}
	if d := j.ResumeWithin.Duration; d < 0 || d > 30*24*time.Hour {
		v.wrong("journal.resume_within", "%v is out of range; 0s to 720h", d)
	}
}

func (v *validator) feeds(feeds []Feed, env func(string) (string, bool)) {
	if len(feeds) == 0 {
		v.wrong("feed", "there is no feed; add a table [[feed]] with name and url, file, folder, push or stdin")
	}
	names := make(map[string]bool)
	for i := range feeds {
		path := fmt.Sprintf("feed[%d].", i)
		v.feed(path, &feeds[i], env)
		if names[feeds[i].Name] {
			v.wrong(path+"name", "%q names two feeds; give each its own", feeds[i].Name)
		}
		names[feeds[i].Name] = true
	}
	v.backups(feeds)
	v.oneStdin(feeds)
}

// backups checks that every backup backs up a feed that is none itself.
func (v *validator) backups(feeds []Feed) {
	for i := range feeds {
		primary := feeds[i].BackupOf
		if primary == "" {
			continue
		}
		at := slices.IndexFunc(feeds, func(f Feed) bool { return f.Name == primary })
		switch path := fmt.Sprintf("feed[%d].backup_of", i); {
		case at < 0:
			v.wrong(path, "there is no feed %q", primary)
		case at == i:
			v.wrong(path, "a feed cannot back up itself")
		case feeds[at].BackupOf != "":
			v.wrong(path, "%q is a backup itself; name its primary, %q", primary, feeds[at].BackupOf)
		}
	}
}

func (v *validator) oneStdin(feeds []Feed) {
	first := true
	for i := range feeds {
		if feeds[i].Stdin && !first {
			v.wrong(fmt.Sprintf("feed[%d].stdin", i), "only one feed can read standard input")
		}
		first = first && !feeds[i].Stdin
	}
}

var feedName = regexp.MustCompile(`^[a-z0-9][a-z0-9-]{0,31}$`)

func (v *validator) feed(path string, f *Feed, env func(string) (string, bool)) {
	if !feedName.MatchString(f.Name) {
		v.wrong(path+"name", "%q is not a name; use up to 32 small letters, figures and hyphens", f.Name)
	}
	switch {
	case f.Kind() == "":
		v.wrong(path+"url", "give exactly one of url, file, folder, push = true and stdin = true")
	case f.URL != "":
		v.url(path+"url", f.URL)
	case f.Growing:
		v.wrong(path+"growing", "is for a url")
	case f.Push && f.TokenEnv == "":
		v.wrong(path+"push", "needs token_env: whoever pushes must send that token")
	}
	if f.MaxBytes < 1<<10 || f.MaxBytes > 1<<30 {
		v.wrong(path+"max_bytes", "%d is out of range; 1024 to 1073741824 bytes", f.MaxBytes)
	}
	v.times(path, f)
	v.clocks(path, f)
	f.Token = v.secret(path+"token_env", f.TokenEnv, env)
	f.User = v.secret(path+"user_env", f.UserEnv, env)
	f.Password = v.secret(path+"password_env", f.PasswordEnv, env)
}

func (v *validator) url(path, text string) {
	u, err := url.Parse(text)
	if err != nil || u.Host == "" || u.Scheme != "http" && u.Scheme != "https" {
		v.wrong(path, "is not an address such as https://arena.example/round5.pgn")
		return
	}
	if u.User != nil {
		v.wrong(path, "holds a user or password; put them into the environment and name them with user_env and password_env")
	}
}

func (v *validator) times(path string, f *Feed) {
	for _, t := range []struct {
		key         string
		d           time.Duration
		from        string // the key that gives least, if one does
		least, most time.Duration
	}{
		{"every", f.Every.Duration, "", 100 * time.Millisecond, 10 * time.Minute},
		{"every_idle", f.EveryIdle.Duration, "every, ", f.Every.Duration, time.Hour},
		{"timeout", f.Timeout.Duration, "", 100 * time.Millisecond, 10 * time.Minute},
		{"max_wait", f.MaxWait.Duration, "every, ", f.Every.Duration, time.Hour},
		{"late_after", f.LateAfter.Duration, "every, ", f.Every.Duration, time.Hour},
		{"stale_after", f.StaleAfter.Duration, "late_after, ", f.LateAfter.Duration, time.Hour},
	} {
		least := fmt.Sprint(t.from, t.least)
		if t.from != "" {
			least += ","
		}
		if t.d < t.least || t.d > t.most {
			v.wrong(path+t.key, "%v is out of range; %s to %v", t.d, least, t.most)
		}
	}
}

// secret returns what the environment holds under a name that the file gives.
func (v *validator) secret(path, name string, env func(string) (string, bool)) string {
	if name == "" {
		return ""
	}
	value, ok := env(name)
	if !ok || value == "" {
		v.wrong(path, "the environment has no %s; set it before the start", name)
	}
	return value
}
