package relay

// Totals counts what happened since the start, for the metrics.
type Totals struct {
	Packets, Plies, Corrections, TellChanges, AlertsRaised uint64
	ByHand, AtPanel, AtDesk, OlderStates, FeedSwitches     uint64
	Faults                                                 map[FaultKey]uint64
}

func (s *Show) countFault(e FeedFailed) {
	faults := make(map[FaultKey]uint64, len(s.Totals.Faults)+1)
	for key, n := range s.Totals.Faults {
		faults[key] = n
	}
	faults[FaultKey{e.Feed, e.Reason}]++
	s.Totals.Faults = faults
}
