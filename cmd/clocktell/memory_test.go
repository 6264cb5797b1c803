package main

import (
	"runtime/debug"
	"testing"
)

func TestKeepSmall(t *testing.T) {
	was := debug.SetGCPercent(100)
	defer debug.SetGCPercent(was)
	for _, c := range []struct {
		env  string
		want int
	}{{"", garbagePercent}, {"200", 100}} {
		t.Setenv("GOGC", c.env)
		debug.SetGCPercent(100) // what the environment says was taken at the start
		keepSmall()
		if got := debug.SetGCPercent(100); got != c.want {
			t.Errorf("with GOGC=%q it is %d, want %d", c.env, got, c.want)
		}
	}
}
