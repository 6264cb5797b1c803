package pgn

import "fmt"

// The reasons a Fault can have, all of them. None stops the reading.
const (
	FaultBadToken          = "bad_token"          // a word, sign or tag pair that means nothing where it stands; left out
	FaultBadMove           = "bad_move"           // a word that was meant for a move and is none; kept in its place, since leaving it out would shift the sides
	FaultBadCommand        = "bad_command"        // "[%" that begins no complete command; kept in the text as "(%"
	FaultUnclosedComment   = "unclosed_comment"   // no "}" before the next tag section or the end; what stood there is kept
	FaultUnclosedTag       = "unclosed_tag"       // a tag pair or its string ends with the line; the value is kept
	FaultUnclosedVariation = "unclosed_variation" // no ")" before the game ended; the moves are kept
	FaultNoResult          = "no_result"          // another game follows without a result before it; never the last game's fault
	FaultEncoding          = "encoding"           // the game is not UTF-8 and was read as ISO 8859-1

	// FaultOpenEnd says that the packet ends inside the last move or directly
	// behind it, as a half-written file does. The last element of Moves may be
	// cut: "Rd" and "Rd1" both may become "Rd1xd8". It is told of the main line
	// only, and always means that line's last move.
	FaultOpenEnd = "open_end"

	FaultLimitGames     = "limit_games"      // told of the last game read; the rest of the packet was not read
	FaultLimitPlies     = "limit_plies"      // moves beyond the limit are left out, to the end of their line
	FaultLimitTags      = "limit_tags"       // further tag pairs are left out
	FaultLimitTag       = "limit_tag"        // the tag value is cut
	FaultLimitWord      = "limit_word"       // a word too long to be anything; left out
	FaultLimitComment   = "limit_comment"    // the comment is cut
	FaultLimitNesting   = "limit_nesting"    // a variation nested too deep is left out
	FaultLimitMoveNotes = "limit_move_notes" // further glyphs, comments or variations of one move are left out
	FaultLimitFaults    = "limit_faults"     // further faults of this game are not told
)

// faultWords says the reasons to people.
var faultWords = map[string]string{
	FaultBadToken:          "means nothing here and was left out",
	FaultBadMove:           "meant for a move, but is none",
	FaultBadCommand:        "an embedded command that is not complete",
	FaultUnclosedComment:   "a comment is not closed; what follows in this game was taken for comment",
	FaultUnclosedTag:       "a tag pair is not closed",
	FaultUnclosedVariation: "a variation is not closed",
	FaultNoResult:          "the moves end without a result",
	FaultEncoding:          "not UTF-8; read as ISO 8859-1",
	FaultOpenEnd:           "the text ends inside a move or right behind it",
	FaultLimitGames:        "more games than are read from one packet",
	FaultLimitPlies:        "more moves than are read of one game",
	FaultLimitTags:         "more tag pairs than are read of one game",
	FaultLimitTag:          "a tag value was cut",
	FaultLimitWord:         "a word too long to be anything was left out",
	FaultLimitComment:      "a comment was cut",
	FaultLimitNesting:      "a variation nested too deep was left out",
	FaultLimitMoveNotes:    "further notes on one move were left out",
	FaultLimitFaults:       "further faults of this game are not told",
}

// String says the fault to people, with its line.
func (f Fault) String() string {
	if f.Detail == "" {
		return fmt.Sprintf("line %d: %s", f.Line, faultWords[f.Reason])
	}
	return fmt.Sprintf("line %d: %s: %q", f.Line, faultWords[f.Reason], f.Detail)
}

// Harmless reports a fault that hides nothing of the game.
func (f Fault) Harmless() bool {
	switch f.Reason {
	case FaultNoResult, FaultEncoding, FaultBadCommand:
		return true
	}
	return false
}

// detailBytes is the length a Fault's detail is cut to.
const detailBytes = 48

// fault records what was wrong at byte offset at of the text. Offsets must not
// go back from call to call, because lines are counted on the way.
func (r *reader) fault(reason string, at int, detail string) {
	r.faultLine(reason, r.lineOf(at), detail)
}

func (r *reader) faultLine(reason string, line int, detail string) {
	if !tellAlways(reason) {
		r.told++
	}
	if r.told > r.lim.Faults && !tellAlways(reason) {
		if r.told > r.lim.Faults+1 {
			return
		}
		reason, detail = FaultLimitFaults, ""
	}
	detail = fold(cut(detail, detailBytes))
	r.g.Faults = append(r.g.Faults, Fault{Line: line, Reason: reason, Detail: detail})
}

// tellAlways reports the faults of a game as a whole: they come once, and what
// they say must not drown in the faults of its words.
func tellAlways(reason string) bool {
	switch reason {
	case FaultOpenEnd, FaultNoResult, FaultEncoding, FaultLimitGames:
		return true
	}
	return false
}
