package wire

import (
	"bytes"
	"encoding/json"
	"os"
	"regexp"
	"slices"
	"testing"
)

// shapes is every frame there is.
var shapes = map[string]func() any{
	TypeWelcome: func() any { return new(Welcome) },
	TypeShow:    func() any { return new(Show) },
	TypeBoard:   func() any { return new(Board) },
	TypePrompts: func() any { return new(Prompts) },
	TypeFeeds:   func() any { return new(Feeds) },
	TypePages:   func() any { return new(Pages) },
	TypePong:    func() any { return new(Pong) },
	TypePing:    func() any { return new(Ping) },
	TypeAgain:   func() any { return new(Again) },
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
	if !bytes.Contains(text, []byte("\nVersion 1.")) || Version != 1 {
		t.Errorf("PROTOCOL.md describes another version than %d", Version)
	}
}

func checkExample(t *testing.T, example []byte) string {
	t.Helper()
	var head struct{ Type string }
	if err := json.Unmarshal(example, &head); err != nil {
		t.Fatalf("%v in %s", err, example)
	}
	shape, ok := shapes[head.Type]
	if !ok {
		t.Fatalf("unknown type %q", head.Type)
	}
	frame := shape()
	decoder := json.NewDecoder(bytes.NewReader(example))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(frame); err != nil {
		t.Errorf("%s: %v", head.Type, err)
	}
	again, err := json.Marshal(frame)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(again, example) {
		t.Errorf("%s: the relay would write\n%s\nPROTOCOL.md shows\n%s", head.Type, again, example)
	}
	return head.Type
}
