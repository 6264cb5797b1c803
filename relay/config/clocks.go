package config

import (
	"slices"

	"clocktell/relay/clock"
)

// clocks checks what a feed is said to do with its clocks.
func (v *validator) clocks(path string, f *Feed) {
	if _, err := clock.ParseControl(f.TimeControl); f.TimeControl != "" && err != nil {
		v.wrong(path+"time_control", "%v", err)
	}
	if _, err := clock.ParseDelay(f.DelayKind, 0); err != nil {
		v.wrong(path+"delay_kind", "%v", err)
	} else if _, err := clock.ParseDelay(f.DelayKind, f.Delay.Duration); err != nil {
		v.wrong(path+"delay", "%v", err)
	}
	for _, c := range []struct{ key, text string }{{"white_clock", f.WhiteClock}, {"black_clock", f.BlackClock}} {
		if _, err := clock.ParseReading(c.text); c.text != "" && err != nil {
			v.wrong(path+c.key, "%v", err)
		}
	}
	if !slices.Contains([]string{ReadAuto, ReadAfter, ReadBefore}, f.ClockRead) {
		v.wrong(path+"clock_read", "%q is none of auto, after, before", f.ClockRead)
	}
}
