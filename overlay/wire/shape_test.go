package wire

import (
	"fmt"
	"os"
	"reflect"
	"strings"
	"testing"
)

// shapesOnTheWire is every frame, and what /by-hand, /at-panel and /api/actions take and answer.
var shapesOnTheWire = []any{
	Welcome{}, Show{}, Board{}, Prompts{}, Table{}, People{}, CaptionFrame{}, Feeds{}, Sources{}, Log{}, Pages{}, Pong{}, Ping{}, Again{},
	Time{}, Holds{}, Who{}, Entry{}, PanelAct{}, EntryReply{}, Air{}, Desk{}, DeskAct{}, Opinions{},
}

// TestShapeKeepsItsVersion compares the shapes of all frames with those written
// down for this version. A difference needs a new Version, and with it a new
// file; -update writes a file only where there is none.
func TestShapeKeepsItsVersion(t *testing.T) {
	var got strings.Builder
	for _, frame := range shapesOnTheWire {
		describe(&got, reflect.TypeOf(frame), "")
	}
	file := fmt.Sprintf("../../testdata/wire/shape-%d.txt", Version)
	want, err := os.ReadFile(file)
	if os.IsNotExist(err) && *update {
		if err := os.WriteFile(file, []byte(got.String()), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if err != nil {
		t.Fatal(err)
	}
	if got.String() != string(want) {
		t.Errorf("the shape of frames is no longer that of version %d in %s: raise Version, then run with -update", Version, file)
	}
}

// describe writes a type, its fields and theirs.
func describe(out *strings.Builder, typ reflect.Type, indent string) {
	if indent == "" {
		fmt.Fprintf(out, "%s\n", typ.Name())
		indent = "  "
	}
	for i := range typ.NumField() {
		field := typ.Field(i)
		fmt.Fprintf(out, "%s%s %s\n", indent, field.Tag.Get("json"), field.Type)
		inner := field.Type
		for inner.Kind() == reflect.Slice || inner.Kind() == reflect.Pointer {
			inner = inner.Elem()
		}
		if inner.Kind() == reflect.Struct {
			describe(out, inner, indent+"  ")
		}
	}
}
