package clock

import (
	"math/rand/v2"
	"reflect"
	"testing"
	"time"
)

// TestMendLeavesGoodGamesAlone: nothing of a legal game is put right, however badly the
// receipts tell its times.
func TestMendLeavesGoodGamesAlone(t *testing.T) {
	c := control(t, "600+5")
	for seed := range uint64(2000) {
		rnd := rand.New(rand.NewPCG(seed, 4))
		readings, waited := game(rnd, 2+rnd.IntN(120), seed%2 == 0, time.Duration(rnd.IntN(30))*sec)
		if got, why := c.Mend(readings, waited); why != nil || !reflect.DeepEqual(got, readings) {
			t.Fatalf("game %d: put right at %v", seed, why)
		}
	}
}

// TestMendSwappedFeed: a feed that writes the clock of the side now on move. Where the
// receipts tell the times within two seconds it is found, and every clock but the last
// stands where it belongs.
func TestMendSwappedFeed(t *testing.T) {
	c, found := control(t, "600+5"), 0
	for seed := range uint64(200) {
		right, waited := game(rand.New(rand.NewPCG(seed, 5)), 60, false, 2*sec)
		wrong := append([]Reading{clk(600 * sec)}, right[:59]...)
		got, why := c.Mend(wrong, waited)
		if why == nil {
			continue
		}
		found++
		if !reflect.DeepEqual(got[:59], right[:59]) || got[59].Left.OK {
			t.Fatalf("game %d: wrongly put right", seed)
		}
	}
	t.Logf("%d of 200 swapped feeds found at ply 60", found)
	if found < 180 {
		t.Errorf("only %d of 200 swapped feeds are found", found)
	}
}

// TestMendSwappedPair: two clocks once swapped, both sides far apart.
func TestMendSwappedPair(t *testing.T) {
	c := control(t, "600+5")
	right := []Reading{clk(500 * sec), clk(300 * sec), clk(480 * sec), clk(290 * sec), clk(470 * sec), clk(280 * sec)}
	var waited []Value
	for _, spent := range []time.Duration{105, 305, 25, 15, 15, 15} {
		waited = append(waited, Value{spent*sec + 3*sec, true})
	}
	for _, at := range []int{1, 2, 3, 4} {
		wrong := append([]Reading{}, right...)
		wrong[at], wrong[at+1] = right[at+1], right[at]
		if got, why := c.Mend(wrong, make([]Value, len(wrong))); why != nil || !reflect.DeepEqual(got, wrong) {
			t.Errorf("swapped at %d, and nothing to tell by: got %v, %v", at, got, why)
		}
		got, why := c.Mend(wrong, waited)
		if !reflect.DeepEqual(got, right) || why[at] != MendedPair || why[at+1] != MendedPair || len(why) != 2 {
			t.Errorf("swapped at %d: got %v, %v", at, got, why)
		}
	}
	added := []Reading{clk(500 * sec), clk(300 * sec), clk(480 * sec), clk(420 * sec), clk(470 * sec)} // an arbiter gives Black two minutes
	if got, why := c.Mend(added, make([]Value, len(added))); why != nil || !reflect.DeepEqual(got, added) {
		t.Errorf("time added is put right: %v, %v", got, why)
	}
}
