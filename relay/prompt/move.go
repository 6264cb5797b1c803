package prompt

import "strings"

// spokenMove is a move in SAN, taken apart to be read aloud.
type spokenMove struct {
	castles    string // "O-O" or "O-O-O", and then nothing below but check and mate; else ""
	man        byte   // 0 for a pawn
	from       string // what tells it from others: "b", "7", "a6", or ""
	takes      bool
	to         string
	makes      byte // the man that a pawn becomes; 0 none
	check      bool
	mate, none bool // none: there is no move
}

func apart(san string) spokenMove {
	m := spokenMove{check: strings.HasSuffix(san, "+"), mate: strings.HasSuffix(san, "#")}
	rest := strings.TrimRight(san, "+#!?")
	switch rest {
	case "":
		m.none = true
		return m
	case "O-O", "O-O-O":
		m.castles = rest
		return m
	}
	if strings.IndexByte("KQRBN", rest[0]) >= 0 {
		m.man, rest = rest[0], rest[1:]
	}
	rest, promoted, _ := strings.Cut(rest, "=")
	if promoted != "" {
		m.makes = promoted[0]
	}
	from, to, takes := strings.Cut(rest, "x")
	if !takes {
		at := max(0, len(rest)-2) // what stands before the square tells two men apart
		from, to = rest[:at], rest[at:]
	}
	m.from, m.takes, m.to = from, takes, to
	return m
}

// aloud joins what is not empty with spaces.
func aloud(words ...string) string {
	return strings.Join(strings.Fields(strings.Join(words, " ")), " ")
}
