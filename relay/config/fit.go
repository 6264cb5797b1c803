package config

import "fmt"

// fitDefaults gives keys left out the values that go with the other keys: feeds that
// speak only when a move is made have long silences, and no idle rhythm is faster
// than the usual one.
func (v *validator) fitDefaults(feeds []Feed) {
	for i := range feeds {
		f := &feeds[i]
		given := func(key string) bool {
			_, ok := v.lines[fmt.Sprintf("feed[%d].%s", i, key)]
			return ok
		}
		if !given("every_idle") {
			f.EveryIdle.Duration = max(f.EveryIdle.Duration, f.Every.Duration)
		}
		if kind := f.Kind(); kind != KindPush && kind != KindStdin {
			continue
		}
		if !given("late_after") {
			f.LateAfter.Duration = quietLate
		}
		if !given("stale_after") {
			f.StaleAfter.Duration = quietStale
		}
	}
}
