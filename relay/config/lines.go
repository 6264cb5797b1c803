package config

import (
	"fmt"
	"regexp"
	"strings"
)

var (
	headerLine = regexp.MustCompile(`^\s*(\[\[?)\s*([\w.-]+)\s*\]\]?`)
	keyLine    = regexp.MustCompile(`^\s*([\w.-]+)\s*=`)
)

// lineNumbers finds the line of every key, under its path with the number of
// the list element, as in "feed[1].every". The TOML library names lines only in
// its own errors. Keys inside inline tables are not found.
func lineNumbers(text string) map[string]int {
	lines := make(map[string]int)
	counts := make(map[string]int)
	prefix, n := "", 0
	for line := range strings.Lines(text) {
		n++
		if header := headerLine.FindStringSubmatch(line); header != nil {
			prefix = header[2]
			if header[1] == "[[" {
				prefix = fmt.Sprintf("%s[%d]", header[2], counts[header[2]])
				counts[header[2]]++
			}
			lines[prefix] = n
			prefix += "."
		} else if key := keyLine.FindStringSubmatch(line); key != nil {
			lines[prefix+key[1]] = n
		}
	}
	return lines
}
