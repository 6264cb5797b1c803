package overlay

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"testing"

	"clocktell/overlay/wire"
)

// TestPongText holds the pong that is written by hand to what encoding/json reads in it, for
// times that a page sends and for all that it could.
func TestPongText(t *testing.T) {
	times := []float64{0, -0.0, 1, 12.5, 1e-6, 9.9e-7, 1e20, 1e21, 1e22, -1e300, math.MaxFloat64, math.SmallestNonzeroFloat64, math.Pi}
	random := rand.New(rand.NewPCG(7, 7))
	for range 10_000 {
		if at := math.Float64frombits(random.Uint64()); !math.IsNaN(at) && !math.IsInf(at, 0) { // JSON has neither
			times = append(times, at)
		}
	}
	for _, at := range times {
		want := wire.Pong{Type: wire.TypePong, T: at, Now: random.Int64() - random.Int64()}
		text := pongText(&want)
		var got wire.Pong
		if err := json.Unmarshal(text, &got); err != nil || got != want {
			t.Fatalf("pong %+v is written %s and read %+v, %v", want, text, got, err)
		}
	}
}
