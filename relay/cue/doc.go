// Package cue turns what happened in a show into what an editor works with: chapters
// (WebVTT), a cue list (CSV) and a marked cut list (EDL), each against the recording of
// one channel.
//
// A Collector watches the states of a show, live or played again, and keeps a Log. A Tape
// says how the times of the show lie in a recording: where that began, which timecode it
// had there, at which rate, and by how much its channel was held back at every moment.
package cue
