package engine

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// session is the talk with one process. Only the goroutine that serves uses it.
type session struct {
	*Engine
	conn    *conn
	lines   <-chan heard // closed at the end of the output
	name    string
	offered map[string]bool // UCI options, in small letters

	second         time.Time // since when lines and bytes are counted
	inLines, bytes int
	rubbish        int
	empty          int // searches without a line, one after the other
}

// say writes to the engine.
func (s *session) say(format string, args ...any) error {
	if err := s.conn.say(fmt.Sprintf(format+"\n", args...), s.limits.stop); err != nil {
		return s.gone(err)
	}
	return nil
}

// gone says how the engine went: it has ended, or listens or speaks no longer.
func (s *session) gone(err error) error {
	if s.conn.endsWithin(s.limits.end) {
		return &Fault{Reason: FaultExit, Err: s.conn.reason}
	}
	if err != nil {
		return &Fault{Reason: FaultClosed, Err: fmt.Errorf("the engine does not listen: %w", err)}
	}
	return faultf(FaultClosed, "the engine has closed its output and does not end")
}

// words returns what a line says, nothing if it cannot be used. ok is that of the channel.
func (s *session) words(h heard, ok bool) ([]string, error) {
	if !ok {
		return nil, s.gone(nil)
	}
	if now := time.Now(); now.Sub(s.second) >= time.Second {
		s.second, s.inLines, s.bytes = now, 0, 0
	}
	s.inLines++
	s.bytes += h.bytes
	if s.inLines > floodLines || s.bytes > floodBytes {
		return nil, faultf(FaultFlood, "the engine floods: more than %d lines or %d MB in a second", floodLines, floodBytes>>20)
	}
	switch {
	case h.long:
		s.counted(FaultLong)
		return nil, nil
	case h.more:
		return nil, nil
	case !isText(h.text):
		return nil, s.foundRubbish()
	}
	return strings.Fields(h.text), nil
}

func isText(s string) bool {
	return utf8.ValidString(s) && !strings.ContainsFunc(s, func(r rune) bool { return unicode.IsControl(r) && !unicode.IsSpace(r) })
}

// foundRubbish counts a line that cannot be read; there may be so many of them.
func (s *session) foundRubbish() error {
	s.counted(FaultRubbish)
	if s.rubbish++; s.rubbish > rubbishMost {
		return faultf(FaultUseless, "the engine has said more than %d lines that cannot be read", rubbishMost)
	}
	return nil
}

// await hears lines until one begins with the word, and gives the others to hear.
func (s *session) await(ctx context.Context, word string, within time.Duration, hear func([]string)) error {
	timer := time.NewTimer(within)
	defer timer.Stop()
	for {
		select {
		case h, ok := <-s.lines:
			words, err := s.words(h, ok)
			if err != nil {
				return err
			}
			if len(words) > 0 && words[0] == word {
				return nil
			}
			if len(words) > 0 && hear != nil {
				hear(words)
			}
		case <-timer.C:
			return faultf(FaultSilent, "the engine has not said %s within %v", word, within)
		case <-ctx.Done():
			return ctx.Err()
		}
	}
}

// greet makes the engine known and sets its options.
func (s *session) greet(ctx context.Context) error {
	if err := s.say("uci"); err != nil {
		return err
	}
	if err := s.await(ctx, "uciok", s.limits.start, s.introduced); err != nil {
		return err
	}
	for _, option := range s.settings() {
		if err := s.say("setoption name %s value %s", option[0], option[1]); err != nil {
			return err
		}
	}
	// The games of a show are searched in turns: its tables are emptied once, here. What is
	// in them belongs to positions, not to games.
	if err := s.say("ucinewgame"); err != nil {
		return err
	}
	if err := s.ready(ctx); err != nil {
		return err
	}
	s.conn.nice() // threads that it has started since
	return nil
}

// ready waits until all that has been said is done. A bestmove that comes before is one
// too many.
func (s *session) ready(ctx context.Context) error {
	if err := s.say("isready"); err != nil {
		return err
	}
	return s.await(ctx, "readyok", s.limits.ready, s.stray)
}

func (s *session) stray(words []string) {
	if words[0] == "bestmove" {
		s.counted(FaultStray)
	}
}

// introduced hears what an engine says of itself.
func (s *session) introduced(words []string) {
	switch {
	case len(words) > 2 && words[0] == "id" && words[1] == "name":
		name := strings.Join(words[2:], " ")
		if runes := []rune(name); len(runes) > nameMost {
			name = string(runes[:nameMost])
		}
		s.name = name
	case len(words) > 2 && words[0] == "option" && words[1] == "name" && len(s.offered) < offeredMost:
		end := slices.Index(words, "type")
		if end > 2 {
			s.offered[strings.ToLower(strings.Join(words[2:end], " "))] = true
		}
	}
}

// settings are the options to be set, those that the engine offers: ours first.
func (s *session) settings() [][2]string {
	var out [][2]string
	set := func(name, value string) {
		if s.offered[strings.ToLower(name)] {
			out = append(out, [2]string{name, value})
		}
	}
	if s.Threads > 0 {
		set("Threads", strconv.Itoa(s.Threads))
	}
	if s.Memory > 0 {
		set("Hash", strconv.Itoa(s.Memory))
	}
	set("MultiPV", strconv.Itoa(s.Lines))
	set("UCI_Chess960", "false")
	set("UCI_AnalyseMode", "true")
	set("UCI_ShowWDL", "true")
	for _, name := range slices.Sorted(maps.Keys(s.Settings)) {
		out = append(out, [2]string{name, s.Settings[name]})
	}
	return out
}

// several returns how many lines the engine searches at once.
func (s *session) several() int {
	if s.offered["multipv"] {
		return s.Lines
	}
	return 1
}
