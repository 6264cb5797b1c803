package bus

import (
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/desk"
)

var at = time.Date(2026, 10, 17, 15, 0, 0, 123456789, time.UTC)

// latin is a text as old programs write it: not UTF-8.
const latin = "[White \"M\xfcller, \xc9va\"]\r\n\x00\xff"

// shared has an event of every type that is shared, and alone of every other one.
var (
	shared = map[string]relay.Event{
		"PacketRead": relay.PacketRead{}, "FeedAnswered": relay.FeedAnswered{}, "FeedFailed": relay.FeedFailed{},
		"ByHand": relay.ByHand{}, "AtPanel": relay.AtPanel{}, "Act": desk.Act{}, "ReferenceAttached": relay.ReferenceAttached{},
		"ReferenceAnswered": relay.ReferenceAnswered{}, "EngineChanged": relay.EngineChanged{}, "EngineAnswered": relay.EngineAnswered{},
		"OpeningsLoaded": relay.OpeningsLoaded{}, "TimePassed": relay.TimePassed{},
	}
	alone = map[string]relay.Event{"JournalState": relay.JournalState{}, "BusState": relay.BusState{}}
)

// names is an opening book for tests.
type names struct{ relay.OpeningBook }

func book() relay.OpeningBook { return names{} }

// TestEveryEvent finds the types of events in the sources, so that a new one needs a row.
func TestEveryEvent(t *testing.T) {
	found := eventTypes(t, "..", "../desk")
	if len(found) < 12 {
		t.Fatalf("found only %v", found)
	}
	for _, name := range found {
		e, isShared := shared[name]
		if _, isAlone := alone[name]; isShared == isAlone {
			t.Errorf("%s: say in this test, and in code.go, whether it is shared", name)
		} else if isAlone {
			if _, err := encode([]relay.Event{alone[name]}); !errors.Is(err, errNotShared) {
				t.Errorf("%s is not refused: %v", name, err)
			}
		} else {
			wantBack(t, filled(t, e), filled(t, e))
		}
	}
}

// eventTypes lists the types that have the method of relay.Event.
func eventTypes(t *testing.T, dirs ...string) (out []string) {
	t.Helper()
	for _, dir := range dirs {
		packages, err := filepath.Glob(dir + "/*.go")
		if err != nil || len(packages) == 0 {
			t.Fatal(dir, err)
		}
		for _, path := range packages {
			file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
			if err != nil {
				t.Fatal(err)
			}
			for _, d := range file.Decls {
				if f, ok := d.(*ast.FuncDecl); ok && f.Recv != nil && f.Name.Name == "When" && !strings.HasSuffix(path, "_test.go") {
					out = append(out, f.Recv.List[0].Type.(*ast.Ident).Name)
				}
			}
		}
	}
	return out
}

// filled returns an event of the type of e in which nothing is left out that is sent.
func filled(t *testing.T, e relay.Event) relay.Event {
	t.Helper()
	if _, ok := e.(relay.OpeningsLoaded); ok {
		return relay.OpeningsLoaded{At: at, Book: book()}
	}
	v := reflect.New(reflect.TypeOf(e)).Elem()
	fill(t, v, v.Type().Name())
	switch e := v.Interface().(type) {
	case relay.PacketRead: // what it holds is read again from what changed
		e.Keys, e.Games, e.More = nil, nil, false
		for i := range e.Parts {
			e.Parts[i].Text = latin
		}
		return e
	case relay.FeedFailed:
		e.Text = latin
		return e
	}
	return v.Interface().(relay.Event)
}

func fill(t *testing.T, v reflect.Value, path string) {
	t.Helper()
	switch {
	case !v.CanSet():
		t.Fatalf("%s cannot be sent: it is not exported", path)
	case v.Type() == reflect.TypeFor[time.Time]():
		v.Set(reflect.ValueOf(at))
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		if strings.HasSuffix(path, ".Games[]") {
			return // of a packet: not sent
		}
		for i := range v.NumField() {
			fill(t, v.Field(i), path+"."+v.Type().Field(i).Name)
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		for i := range v.Len() {
			fill(t, v.Index(i), path+"[]")
		}
	case reflect.Array:
		for i := range v.Len() {
			fill(t, v.Index(i), path+"[]")
		}
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fill(t, v.Elem(), path)
	case reflect.String:
		v.SetString("a<b>&\"c\" Brücke \u2028 " + path)
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		v.SetInt(int64(1)<<(v.Type().Bits()-1) - 1)
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		v.SetUint(^uint64(0) >> (64 - v.Type().Bits()))
	case reflect.Float32, reflect.Float64:
		v.SetFloat(0.1)
	default:
		t.Fatalf("%s: the test cannot fill a %s", path, v.Kind())
	}
}

func wantBack(t *testing.T, sent, want relay.Event) {
	t.Helper()
	message, err := encode([]relay.Event{sent, relay.TimePassed{At: at}})
	if err != nil {
		t.Fatalf("%T: %v", sent, err)
	}
	back, err := decode(message, book)
	if err != nil || len(back) != 2 {
		t.Fatalf("%T: %v, %v", sent, back, err)
	}
	if !reflect.DeepEqual(back[0], want) {
		t.Errorf("%T comes back as\n%#v\nwant\n%#v", sent, back[0], want)
	}
}

// TestTimesOfEvents holds that an event of a clock in another zone, with a monotonic part,
// comes back as the same instant in UTC, whatever its kind.
func TestTimesOfEvents(t *testing.T) {
	here := time.Now().In(time.FixedZone("hall", 3600))
	for name, e := range shared {
		v := reflect.New(reflect.TypeOf(e)).Elem()
		v.Set(reflect.ValueOf(e))
		v.FieldByName("At").Set(reflect.ValueOf(here))
		message, err := encode([]relay.Event{v.Interface().(relay.Event)})
		if err != nil {
			t.Fatal(err)
		}
		back, err := decode(message, book)
		if err != nil {
			t.Fatal(err)
		}
		if got := back[0].When(); got != here.UTC().Round(0) {
			t.Errorf("%s: %v comes back as %v", name, here, got)
		}
	}
}

// TestUnknownKind is a message of a later version.
func TestUnknownKind(t *testing.T) {
	_, err := decode([]byte(`[{"kind":"passed","at":1},{"kind":"applause","at":1}]`), book)
	if err == nil || !strings.Contains(err.Error(), "applause") || !strings.Contains(err.Error(), "same version") {
		t.Errorf("got %v", err)
	}
}

// FuzzDecode holds that no message makes trouble, and that what is read is read the same
// when it is written again.
func FuzzDecode(f *testing.F) {
	var t testing.T
	for _, e := range shared {
		message, err := encode([]relay.Event{filled(&t, e)})
		if err != nil {
			f.Fatal(err)
		}
		f.Add(message)
	}
	for _, text := range []string{"", "null", "[]", "[{}]", `[{"kind":"packet"}]`, `[{"kind":"hand","at":1,"event":null}]`, `[{"kind":"packet","at":-1,"event":{"parts":[{"from":-1,"count":9}]}}]`} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, message []byte) {
		events, err := decode(message, book)
		if err != nil {
			return
		}
		again, err := encode(events)
		if err != nil {
			t.Fatal(err)
		}
		back, err := decode(again, book)
		if err != nil || len(back) != len(events) {
			t.Fatalf("%v, %v", back, err)
		}
		for i := range back {
			if !reflect.DeepEqual(back[i], events[i]) {
				t.Errorf("%#v, then %#v", events[i], back[i])
			}
		}
	})
}
