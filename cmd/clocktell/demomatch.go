package main

import "clocktell/relay/config"

// demoMatch is the match of the demo: two invented teams on two boards, of whose three
// rounds the feed plays the last, and then the extra round that follows.
func demoMatch() config.Match {
	return config.Match{
		First: "Quayside", Second: "Lighthouse", Games: 6, Boards: 2, TieBreaks: []string{"regular 2"},
		Score: "1.5-2.5", Rounds: []string{"morning 1", "morning 2", "1", "2"},
		Lineup: [][]string{
			{"Quintanilha, Duarte", "Tveiterås, Håkon"}, {"Achterkamp, Joost", "Przybyszewska-Hollenbach, Magdalena"},
		},
	}
}
