package config

import (
	"errors"
	"fmt"
	"os"
	"regexp"
	"strings"

	"github.com/BurntSushi/toml"
)

var errDuration = errors.New(`needs a time with its unit, such as "1.5s" or "2m"`)

// KeyError is one thing wrong with one key of a file.
type KeyError struct {
	File string
	Line int    // from 1; 0 when no line can be named
	Key  string // such as "feed.every"; "" when the file is not TOML
	What string // what is wrong and the way out
}

func (e *KeyError) Error() string {
	var out strings.Builder
	out.WriteString(e.File)
	if e.Line > 0 {
		fmt.Fprintf(&out, ":%d", e.Line)
	}
	if e.Key != "" {
		fmt.Fprintf(&out, ": %s", e.Key)
	}
	return out.String() + ": " + e.What
}

// Load reads a file. env looks a name up in the environment, as os.LookupEnv
// does. The error joins a KeyError for everything that is wrong.
func Load(file string, env func(string) (string, bool)) (Config, error) {
	text, err := os.ReadFile(file)
	if err != nil {
		return Config{}, fmt.Errorf("configuration: %w; name a file with --config, or start from configs/clocktell.toml", err)
	}
	return Parse(file, string(text), env)
}

// Parse is Load for a text already read.
func Parse(file, text string, env func(string) (string, bool)) (Config, error) {
	c := Default()
	var raw struct {
		Config
		Feeds []toml.Primitive `toml:"feed"`
	}
	raw.Config = c
	meta, err := toml.Decode(text, &raw)
	if err != nil {
		return c, keyError(file, err)
	}
	c = raw.Config
	for _, primitive := range raw.Feeds {
		feed := DefaultFeed()
		if err := meta.PrimitiveDecode(primitive, &feed); err != nil {
			return c, keyError(file, err)
		}
		c.Feeds = append(c.Feeds, feed)
	}
	v := validator{file: file, lines: lineNumbers(text)}
	v.fitDefaults(c.Feeds)
	v.unknown(meta.Undecoded())
	v.config(&c, env)
	return c, errors.Join(v.errs...)
}

var (
	decodeError = regexp.MustCompile(`^toml: line (\d+)(?: \(last key "([^"]*)"\))?: (.*)$`)
	typeError   = regexp.MustCompile(`incompatible types: TOML value has type (\w+)[^;]*; destination has type (\w+)`)
)

// typeWords says the library's names of types to people.
var typeWords = map[string]string{
	"string": "a text in quotes", "integer": "a whole number", "int64": "a whole number", "float64": "a number with a point",
	"bool": "true or false", "slice": "a list", "map": "a table", "Time": "a date",
}

// keyError turns the library's error, which names line and key in its text,
// into ours.
func keyError(file string, err error) error {
	parts := decodeError.FindStringSubmatch(err.Error())
	if parts == nil {
		return &KeyError{File: file, What: err.Error()}
	}
	e := &KeyError{File: file, Key: parts[2], What: parts[3]}
	fmt.Sscan(parts[1], &e.Line)
	if types := typeError.FindStringSubmatch(e.What); types != nil {
		e.What = fmt.Sprintf("needs %s, not %s", typeWords[types[2]], typeWords[types[1]])
	} else if strings.HasPrefix(e.What, "type mismatch") {
		e.What = "is a table: write its name in brackets on a line of its own"
	}
	if e.Key == "feed" {
		e.What = "is a list of tables: write [[feed]], in double brackets"
	}
	return e
}
