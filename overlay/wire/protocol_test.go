package wire

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"regexp"
	"slices"
	"testing"
)

// shapes is every frame there is.
var shapes = map[string]func() any{
	TypeWelcome:  func() any { return new(Welcome) },
	TypeShow:     func() any { return new(Show) },
	TypeBoard:    func() any { return new(Board) },
	TypePrompts:  func() any { return new(Prompts) },
	TypeTable:    func() any { return new(Table) },
	TypePeople:   func() any { return new(People) },
	TypeCaption:  func() any { return new(CaptionFrame) },
	TypeFeeds:    func() any { return new(Feeds) },
	TypeSources:  func() any { return new(Sources) },
	TypeLog:      func() any { return new(Log) },
	TypePages:    func() any { return new(Pages) },
	TypePong:     func() any { return new(Pong) },
	TypePing:     func() any { return new(Ping) },
	TypeAgain:    func() any { return new(Again) },
	TypeWho:      func() any { return new(Who) },
	TypeTime:     func() any { return new(Time) },
	TypeHolds:    func() any { return new(Holds) },
	TypeAir:      func() any { return new(Air) },
	TypeDesk:     func() any { return new(Desk) },
	TypeOpinions: func() any { return new(Opinions) },
	"deskact":    func() any { return new(DeskAct) },
	"act":        func() any { return new(PanelAct) },
	"entry":      func() any { return new(Entry) },
	"reply":      func() any { return new(EntryReply) },
	"access":     func() any { return new(Access) },
	"renewed":    func() any { return new(Renewed) },
}

// kindOf names the shape of an example: its type, or for what /by-hand,
// /at-panel and /api/actions take and answer the field that only it has.
func kindOf(t *testing.T, example []byte) string {
	t.Helper()
	var head struct {
		Type, Act, Who string
		Done, Tokens   *bool
		Path           string
		Seconds        *int
	}
	if err := json.Unmarshal(example, &head); err != nil {
		t.Fatalf("%v in %s", err, example)
	}
	switch {
	case head.Tokens != nil:
		return "access"
	case head.Path != "":
		return "renewed"
	case head.Seconds != nil:
		return "deskact"
	case head.Who != "":
		return "act"
	case head.Act != "":
		return "entry"
	case head.Done != nil:
		return "reply"
	}
	return head.Type
}

var fenced = regexp.MustCompile("(?s)```json\n(.*?)\n```")

// TestProtocolExamples reads every example of PROTOCOL.md strictly and writes it
// again: nothing unknown, nothing missing, for every frame type.
func TestProtocolExamples(t *testing.T) {
	text, err := os.ReadFile("../PROTOCOL.md")
	if err != nil {
		t.Fatal(err)
	}
	var shown []string
	for _, match := range fenced.FindAllSubmatch(text, -1) {
		shown = append(shown, checkExample(t, match[1]))
	}
	for name := range shapes {
		if !slices.Contains(shown, name) {
			t.Errorf("PROTOCOL.md has no example of %q", name)
		}
	}
	if !bytes.Contains(text, fmt.Appendf(nil, "\nVersion %d.", Version)) {
		t.Errorf("PROTOCOL.md describes another version than %d", Version)
	}
}

func checkExample(t *testing.T, example []byte) string {
	t.Helper()
	kind := kindOf(t, example)
	shape, ok := shapes[kind]
	if !ok {
		t.Fatalf("unknown type %q", kind)
	}
	frame := shape()
	decoder := json.NewDecoder(bytes.NewReader(example))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(frame); err != nil {
		t.Errorf("%s: %v", kind, err)
	}
	again, err := json.Marshal(frame)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(again, example) {
		t.Errorf("%s: the relay would write\n%s\nPROTOCOL.md shows\n%s", kind, again, example)
	}
	return kind
}

var curled = regexp.MustCompile(`(?s)curl .*?-d '(.*?)'`)

// TestCurlExample reads the entry that PROTOCOL.md sends with curl: it has fields of
// an Entry only, and says what its act needs.
func TestCurlExample(t *testing.T) {
	text, err := os.ReadFile("../PROTOCOL.md")
	if err != nil {
		t.Fatal(err)
	}
	match := curled.FindSubmatch(text)
	if match == nil {
		t.Fatal("PROTOCOL.md has no example with curl")
	}
	var entry Entry
	decoder := json.NewDecoder(bytes.NewReader(match[1]))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(&entry); err != nil {
		t.Fatal(err)
	}
	if entry.ID == "" || entry.Board != 1 || entry.Act != "move" || entry.Ply == 0 || entry.SAN == "" {
		t.Errorf("%+v", entry)
	}
}
