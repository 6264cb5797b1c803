package overlay

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"reflect"
	"testing"

	"clocktell/overlay/wire"
)

// TestPlainPing holds the reading of pings by hand to encoding/json: what is read so is read the
// same, and what browsers send is.
func TestPlainPing(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 7))
	for n := range 2000 {
		ping := wire.Ping{Type: wire.TypePing, T: float64(random.Uint64N(1e9)) / float64(1+random.IntN(1000)), Late: []int64{}}
		for range n % 4 {
			ping.Late = append(ping.Late, random.Int64N(1e6))
		}
		if text := encode(ping); !readAlike(t, text) {
			t.Errorf("%s is as browsers write it, and was not read by hand", text)
		}
	}
	for _, text := range []string{
		``, `{}`, pingStart, pingStart + `1`, pingStart + `1,"late":[`, pingStart + `1,"late":[]`, pingStart + `01,"late":[]}`, pingStart + `1.,"late":[]}`,
		pingStart + `.5,"late":[]}`, pingStart + `-1,"late":[]}`, pingStart + `1e400,"late":[]}`, pingStart + `1e3,"late":[]}`,
		pingStart + `1,"late":[1,]}`, pingStart + `1,"late":[,1]}`, pingStart + `1,"late":[1 2]}`, pingStart + `1,"late":[01]}`,
		pingStart + `1,"late":[1.5]}`, pingStart + `1,"late":[-1]}`, pingStart + `1,"late":[99999999999999999999]}`,
		pingStart + `1,"late":[1]}x`, pingStart + `1,"late":[1]}}`, pingStart + `"x","late":[1]}`, pingStart + `1,"late":null}`,
		pingStart + `99999999999999999999999999999999,"late":[]}`, ` ` + pingStart + `1,"late":[]}`,
	} {
		readAlike(t, []byte(text))
	}
}

// readAlike reports whether a text is read by hand, and fails where that says something else
// than encoding/json, or the pong sends another time back.
func readAlike(t *testing.T, text []byte) bool {
	t.Helper()
	at, late, ok := plainPing(text)
	if !ok {
		return false
	}
	var want wire.Ping
	var pong wire.Pong
	if err := json.Unmarshal(text, &want); err != nil {
		t.Errorf("%s is read by hand, and is none: %v", text, err)
	}
	if got := append([]int64{}, late...); !reflect.DeepEqual(got, want.Late) {
		t.Errorf("%s: late %v, want %v", text, got, want.Late)
	}
	if err := json.Unmarshal(pongText(pongBegun(at), -5), &pong); err != nil || pong != (wire.Pong{Type: wire.TypePong, T: want.T, Now: -5}) {
		t.Errorf("%s: pong %+v, %v", text, pong, err)
	}
	return true
}

// TestOtherPings: a ping that is written in another way is one all the same.
func TestOtherPings(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		p := h.open("page=scene/board")
		for _, test := range []struct {
			text string
			want float64
		}{
			{`{"type":"ping","t":12.5,"late":[]}`, 12.5}, {`{"t":-3,"type":"ping"}`, -3}, {`{ "type" : "ping", "t" : 1e3 }`, 1000},
			{`{"type":"ping"}`, 0}, {`{"type":"ping","t":1,"late":null}`, 1}, {fmt.Sprintf(`{"type":"ping","t":%v}`, 1e22), 1e22},
		} {
			p.send(test.text)
			var pong wire.Pong
			p.until(wire.TypePong, &pong)
			if pong.T != test.want || pong.Now != h.tb.Now().UnixMilli() {
				t.Errorf("%s is answered %+v", test.text, pong)
			}
		}
	})
}
