//go:build !race

package main

// raced says that the race detector is on: everything takes ten times as long.
const raced = false
