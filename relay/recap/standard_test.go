package recap

import (
	"bytes"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

// roster is the seven tag roster in its order (PGN standard of 1994, 8.1.1).
var roster = []string{"Event", "Site", "Date", "Round", "White", "Black", "Result"}

// exportTag is a tag pair in export format (8.1): left justified, a single space, no other.
var exportTag = regexp.MustCompile(`^\[([A-Za-z0-9][A-Za-z0-9_]*) "((?:[^"\\]|\\["\\])*)"\]$`)

// checkStandard holds text to the export format by the sections of the standard of 1994, with
// nothing of package pgn.
func checkStandard(t *testing.T, text string, games int) {
	t.Helper()
	if !utf8.ValidString(text) {
		t.Error("broken UTF-8")
	}
	found := 0
	for _, game := range strings.Split(strings.TrimSuffix(text, "\n\n"), "\n\n[") {
		found++
		head, moves, ok := strings.Cut("["+strings.TrimPrefix(game, "["), "\n\n") // 8.2: one empty line between
		if !ok || strings.Contains(moves, "\n\n") {
			t.Errorf("a game is not two parts with an empty line between:\n%s", game)
			continue
		}
		checkTags(t, head)
		checkMovetext(t, moves)
		if result := regexp.MustCompile(`\[Result "([^"]*)"\]`).FindStringSubmatch(head)[1]; !strings.HasSuffix(" "+folded(moves), " "+result) {
			t.Errorf("the movetext does not end with the result %s (8.2.6)", result)
		}
	}
	if found != games {
		t.Errorf("%d games found, want %d", found, games)
	}
}

func checkTags(t *testing.T, head string) {
	t.Helper()
	var names []string
	for _, line := range strings.Split(head, "\n") {
		tag := exportTag.FindStringSubmatch(line)
		if tag == nil || strings.ContainsAny(line, "\t\r") { // 4.2, 8.1
			t.Errorf("no tag pair of the export format: %q", line)
			return
		}
		if utf8.RuneCountInString(line) > 254 { // 4.3: at most 255 with its end
			t.Errorf("a line of %d characters", utf8.RuneCountInString(line))
		}
		names = append(names, tag[1])
	}
	if len(names) < 7 || !slices.Equal(names[:7], roster) {
		t.Errorf("the tags begin with %v, not with the roster (8.1.1)", names)
	}
	if rest := names[7:]; !slices.IsSorted(rest) || len(slices.Compact(slices.Clone(rest))) != len(rest) {
		t.Errorf("tags behind the roster are not in ASCII order, each once (8.1.1): %v", rest)
	}
}

// Words of movetext: move number indications as 8.2.2.2 has them, SAN (8.2.3), glyphs (8.2.4).
var (
	moveNumber = regexp.MustCompile(`^[1-9]\d*\.(\.\.)?$`)
	moveSAN    = regexp.MustCompile(`^(O-O(-O)?|[KQRBN]?[a-h]?[1-8]?x?[a-h][1-8](=[QRBN])?)[+#]?$`)
	moveNAG    = regexp.MustCompile(`^\$(\d{1,2}|1\d\d|2[0-4]\d|25[0-5])$`)
)

func checkMovetext(t *testing.T, text string) {
	t.Helper()
	for _, line := range strings.Split(text, "\n") {
		if n := utf8.RuneCountInString(line); n >= 80 || line != strings.TrimSpace(line) || strings.ContainsAny(line, "\t\r") || strings.HasPrefix(line, "%") { // 8.2.1, 4.2, 6
			t.Errorf("a line of %d characters: %q", n, line)
		}
	}
	// 8.2.5: a comment in braces ends at the first closing one.
	plain := regexp.MustCompile(`\{[^}]*\}`).ReplaceAllString(text, " ")
	if strings.ContainsAny(plain, "{};") {
		t.Errorf("braces do not match in %q", text)
		return
	}
	depth := 0
	for _, word := range strings.Fields(strings.NewReplacer("(", " ( ", ")", " ) ").Replace(plain)) {
		switch {
		case word == "(":
			depth++ // 8.2.5
		case word == ")":
			depth--
		case !moveNumber.MatchString(word) && !moveSAN.MatchString(word) && !moveNAG.MatchString(word) && !slices.Contains([]string{"1-0", "0-1", "1/2-1/2", "*"}, word):
			t.Errorf("%q is no word of movetext", word)
		}
		if depth < 0 {
			t.Error("a variation ends that never began")
		}
	}
	if depth != 0 {
		t.Error("a variation does not end")
	}
}

// TestTagsOfFeeds: whatever tags a feed has, those of the recap are of the export format, and
// as long as its lines may be.
func TestTagsOfFeeds(t *testing.T) {
	for name, tag := range map[string]string{
		"quotes": `[Long "` + strings.Repeat(`w\"`, 300) + `"]`, "backslashes": `[Long "` + strings.Repeat(`\\`, 300) + `"]`,
		"letters": `[Long "` + strings.Repeat("ä", 300) + `"]`, "name": "[" + strings.Repeat("Name", 40) + ` "x"]`, "underscore": `[_x "1"]`,
	} {
		var out bytes.Buffer
		if err := WritePGN(&out, &english, gameOf(t, "[White \"A\"]\n[Black \"B\"]\n"+tag+"\n\n1. e4 *\n\n")); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		t.Run(name, func(t *testing.T) { checkStandard(t, out.String(), 1) })
	}
}
