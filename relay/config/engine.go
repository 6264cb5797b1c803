package config

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"
	"unicode"
)

// Engine is a UCI engine and how it is asked.
type Engine struct {
	Command      string            `toml:"command"` // "" none
	Args         []string          `toml:"args"`
	Options      map[string]string `toml:"options"` // of UCI, by name
	Threads      int               `toml:"threads"`
	Memory       int               `toml:"memory"` // MB
	Nice         int               `toml:"nice"`
	Lines        int               `toml:"lines"`
	Movetime     Duration          `toml:"movetime"`      // for a position of a game that goes on
	DeepMovetime Duration          `toml:"deep_movetime"` // for one of a finished game; 0 none
}

var defaultEngine = Engine{
	Threads: 1, Memory: 64, Nice: 10, Lines: 3, Movetime: Duration{5 * time.Second}, DeepMovetime: Duration{15 * time.Second},
}

// ownKeys are UCI options that keys stand for, in small letters, and those keys.
var ownKeys = map[string]string{"threads": "threads", "hash": "memory", "multipv": "lines"}

func (v *validator) engines(c *Config) {
	v.engine("engine.", &c.Engine)
	v.engine("second_engine.", &c.Second)
	if c.Second.Command != "" && c.Engine.Command == "" {
		v.wrong("second_engine.command", "there is no engine to compare it with; set command under [engine] first")
	}
}

func (v *validator) engine(path string, e *Engine) {
	for _, n := range []struct {
		key                string
		value, least, most int
	}{
		{"threads", e.Threads, 1, 512}, {"memory", e.Memory, 1, 1 << 20}, {"nice", e.Nice, 0, 19}, {"lines", e.Lines, 1, 8},
	} {
		if n.value < n.least || n.value > n.most {
			v.wrong(path+n.key, "%d is out of range; %d to %d", n.value, n.least, n.most)
		}
	}
	if d := e.Movetime.Duration; d < 100*time.Millisecond || d > 10*time.Minute {
		v.wrong(path+"movetime", "%v is out of range; 100ms to %v", d, 10*time.Minute)
	}
	if d := e.DeepMovetime.Duration; d != 0 && (d < e.Movetime.Duration || d > time.Hour) {
		v.wrong(path+"deep_movetime", "%v is out of range; movetime, %v, to %v, or 0s", d, e.Movetime, time.Hour)
	}
	for _, name := range slices.Sorted(maps.Keys(e.Options)) {
		v.engineOption(path+"options", name, e.Options[name])
	}
}

func (v *validator) engineOption(path, name, value string) {
	if key, ok := ownKeys[strings.ToLower(name)]; ok {
		v.wrong(path, "%q has a key of its own, %s", name, key)
	}
	if strings.TrimSpace(name) == "" || strings.ContainsFunc(fmt.Sprint(name, value), unicode.IsControl) {
		v.wrong(path, "%q needs a name and a value of one line each", name)
	}
}
