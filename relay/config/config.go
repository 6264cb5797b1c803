// Package config reads the configuration file. Everything that can be wrong in
// it is found before anything starts, and told with file, line and key.
package config

import (
	"time"

	"clocktell/relay/prompt"
)

// Config is a whole configuration.
type Config struct {
	Show      Show      `toml:"show"`
	Server    Server    `toml:"server"`
	Access    Access    `toml:"access"`
	Journal   Journal   `toml:"journal"`
	Reference Reference `toml:"reference"`
	Engine    Engine    `toml:"engine"`
	Second    Engine    `toml:"second_engine"`
	Match     Match     `toml:"match"`
	Bus       Bus       `toml:"bus"`
	Log       Log       `toml:"log"`
	Feeds     []Feed    `toml:"feed"`
}

// Show is what is shown.
type Show struct {
	Title       string `toml:"title"`
	MaxBoards   int    `toml:"max_boards"`
	TimeControl string `toml:"time_control"` // form of the PGN TimeControl tag; "" none
	Language    string `toml:"language"`     // a code of prompt.Codes

	Caption Duration `toml:"caption"` // how long a sentence stays on the air; 0 until it is taken off
}

// Server is where pages are served.
type Server struct {
	Listen      string `toml:"listen"`
	MaxPages    int    `toml:"max_pages"`
	MaxConns    int    `toml:"max_connections"`
	MaxConnsOne int    `toml:"max_connections_each"` // from one address
	TLSCert     string `toml:"tls_cert"`             // "" plain HTTP
	TLSKey      string `toml:"tls_key"`
}

// Access is who may do what.
type Access struct {
	Dir string `toml:"dir"` // where the tokens are kept, hashed; "" none are asked for

	ThisRun bool `toml:"-"` // without a folder, tokens are asked for that end with the process
}

// Journal is where everything that reaches the show is written down.
type Journal struct {
	Dir          string   `toml:"dir"` // "" none
	MaxBytes     int64    `toml:"max_bytes"`
	ResumeWithin Duration `toml:"resume_within"`
}

// Reference is the index of finished games that moves are looked up in, and which of
// its games count.
type Reference struct {
	File         string `toml:"file"`       // "" none
	MinRating    int    `toml:"min_rating"` // both players; in hundreds, 0 any
	FromYear     int    `toml:"from_year"`  // 0 any
	ToYear       int    `toml:"to_year"`
	OverTheBoard bool   `toml:"over_the_board"` // only games whose tags say so
	TimeClass    string `toml:"time_class"`     // "rapid", "blitz" or "standard"; "" any
}

// Log is how much is logged.
type Log struct {
	Level string `toml:"level"`
}

// Feed is one source of PGN. Exactly one of URL, File, Folder, Push and Stdin is
// given. Keys left out take the value of DefaultFeed.
type Feed struct {
	Name        string   `toml:"name"`
	URL         string   `toml:"url"`
	Growing     bool     `toml:"growing"`
	File        string   `toml:"file"`
	Folder      string   `toml:"folder"`
	Push        bool     `toml:"push"`
	Stdin       bool     `toml:"stdin"`
	BackupOf    string   `toml:"backup_of"`
	Every       Duration `toml:"every"`
	EveryIdle   Duration `toml:"every_idle"`
	Timeout     Duration `toml:"timeout"`
	MaxWait     Duration `toml:"max_wait"`
	LateAfter   Duration `toml:"late_after"`
	StaleAfter  Duration `toml:"stale_after"`
	MaxBytes    int64    `toml:"max_bytes"`
	TimeControl string   `toml:"time_control"` // as of Show; "" that of the show
	Delay       Duration `toml:"delay"`
	DelayKind   string   `toml:"delay_kind"`  // "simple" or "bronstein"
	WhiteClock  string   `toml:"white_clock"` // h:mm:ss at the start; "" the base time
	BlackClock  string   `toml:"black_clock"`
	ClockRead   string   `toml:"clock_read"` // "auto", "after" or "before" the increment
	TokenEnv    string   `toml:"token_env"`
	UserEnv     string   `toml:"user_env"`
	PasswordEnv string   `toml:"password_env"`

	// What the environment holds under those names; never in the file.
	Token, User, Password string `toml:"-"`
}

// Duration is a length of time, written as "1.5s" or "2m".
type Duration struct{ time.Duration }

// UnmarshalText reads what time.ParseDuration reads.
func (d *Duration) UnmarshalText(text []byte) error {
	parsed, err := time.ParseDuration(string(text))
	if err != nil {
		return errDuration
	}
	d.Duration = parsed
	return nil
}

// Default returns the configuration of an empty file.
func Default() Config {
	return Config{
		Show:    Show{Title: "clocktell", MaxBoards: 64, Language: prompt.Codes()[0], Caption: Duration{20 * time.Second}},
		Server:  Server{Listen: "127.0.0.1:8600", MaxPages: 500, MaxConns: 2000, MaxConnsOne: 200},
		Journal: Journal{MaxBytes: 1 << 30, ResumeWithin: Duration{12 * time.Hour}},
		Engine:  defaultEngine,
		Second:  defaultEngine,
		Match:   Match{Boards: 1},
		Bus:     Bus{Show: "show", MaxBytes: 1 << 30, Replicas: 1},
		Log:     Log{Level: "info"},
	}
}

// DefaultFeed returns a feed of which only the name and the address are missing.
func DefaultFeed() Feed {
	return Feed{
		Every: Duration{time.Second}, EveryIdle: Duration{5 * time.Second}, Timeout: Duration{10 * time.Second}, MaxWait: Duration{30 * time.Second},
		LateAfter: Duration{6 * time.Second}, StaleAfter: Duration{15 * time.Second}, MaxBytes: 16 << 20,
		DelayKind: "simple", ClockRead: ReadAuto,
	}
}

// Silences that make a feed late and stale which speaks only when a move is made.
const (
	quietLate  = 10 * time.Minute
	quietStale = 30 * time.Minute
)

// What ClockRead may be.
const (
	ReadAuto   = "auto"
	ReadAfter  = "after"
	ReadBefore = "before"
)

// Kinds of feeds.
const (
	KindHTTP    = "http"
	KindGrowing = "growing"
	KindFile    = "file"
	KindFolder  = "folder"
	KindPush    = "push"
	KindStdin   = "stdin"
)

// Kind says which kind of source the feed is; "" when it is none or several.
func (f *Feed) Kind() string {
	kind, n := "", 0
	for _, c := range []struct {
		given bool
		kind  string
	}{
		{f.URL != "" && !f.Growing, KindHTTP}, {f.URL != "" && f.Growing, KindGrowing}, {f.File != "", KindFile},
		{f.Folder != "", KindFolder}, {f.Push, KindPush}, {f.Stdin, KindStdin},
	} {
		if c.given {
			kind = c.kind
			n++
		}
	}
	if n != 1 {
		return ""
	}
	return kind
}
