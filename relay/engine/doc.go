// Package engine keeps a UCI engine at work as a process of its own: started, watched,
// ended, and started again. It knows positions and nothing of games or shows.
//
// An Engine is told by Want what is wanted now; queue.go says what it searches first.
// live.go is the life of one process, talk.go what is said to it and heard from it,
// search.go one search, gather.go what comes of its lines; fault.go has everything that
// can be wrong with an engine. What was found stays in store.go, by position.
package engine
