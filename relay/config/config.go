// Package config reads the configuration file. Everything that can be wrong in
// it is found before anything starts, and told with file, line and key.
package config

import (
	"time"
)

// Config is a whole configuration.
type Config struct {
	Show   Show   `toml:"show"`
	Server Server `toml:"server"`
	Log    Log    `toml:"log"`
	Feeds  []Feed `toml:"feed"`
}

// Show is what is shown.
type Show struct {
	Title       string `toml:"title"`
	MaxBoards   int    `toml:"max_boards"`
	TimeControl string `toml:"time_control"` // form of the PGN TimeControl tag; "" none
}

// Server is where pages are served.
type Server struct {
	Listen   string `toml:"listen"`
	MaxPages int    `toml:"max_pages"`
}

// Log is how much is logged.
type Log struct {
	Level string `toml:"level"`
}

// Feed is one source of PGN. Exactly one of URL and File is given. Keys left
// out take the value of DefaultFeed.
type Feed struct {
	Name        string   `toml:"name"`
	URL         string   `toml:"url"`
	File        string   `toml:"file"`
	Every       Duration `toml:"every"`
	Timeout     Duration `toml:"timeout"`
	MaxWait     Duration `toml:"max_wait"`
	LateAfter   Duration `toml:"late_after"`
	StaleAfter  Duration `toml:"stale_after"`
	MaxBytes    int64    `toml:"max_bytes"`
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
		Show:   Show{Title: "clocktell", MaxBoards: 64},
		Server: Server{Listen: "127.0.0.1:8600", MaxPages: 500},
		Log:    Log{Level: "info"},
	}
}

// DefaultFeed returns a feed of which only the name and the address are missing.
func DefaultFeed() Feed {
	return Feed{
		Every: Duration{time.Second}, Timeout: Duration{10 * time.Second}, MaxWait: Duration{30 * time.Second},
		LateAfter: Duration{6 * time.Second}, StaleAfter: Duration{15 * time.Second}, MaxBytes: 16 << 20,
	}
}
