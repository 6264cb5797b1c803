package main

import (
	"os"
	"testing"
)

// TestReachableBus tells others no address that is their own.
func TestReachableBus(t *testing.T) {
	t.Parallel()
	host, err := os.Hostname()
	if err != nil {
		t.Fatal(err)
	}
	for address, want := range map[string]string{
		"nats://0.0.0.0:4222":                  "nats://" + host + ":4222",
		"nats://[::]:4222":                     "nats://" + host + ":4222",
		"nats://127.0.0.1:4222":                "nats://127.0.0.1:4222",
		"nats://10.0.0.1:4222,nats://10.0.0.2": "nats://10.0.0.1:4222,nats://10.0.0.2",
	} {
		if got := reachable(address); got != want {
			t.Errorf("%s: %s, want %s", address, got, want)
		}
	}
}
