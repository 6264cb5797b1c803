package main

import "clocktell/relay"

// intakes are the intakes of all feeds, by name.
type intakes map[string]*relay.Intake

func (in intakes) of(feed string) *relay.Intake {
	if in[feed] == nil {
		in[feed] = relay.NewIntake(feed)
	}
	return in[feed]
}
