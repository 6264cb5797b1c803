package main

import (
	"strconv"

	"clocktell/overlay/wire"
	"clocktell/relay/config"
	"clocktell/relay/journal"
	"clocktell/relay/metrics"
)

// newFigures returns the metrics of a show that is still to be wired.
func newFigures() *metrics.Metrics {
	return metrics.New(metrics.Sources{Reasons: reasons(), Version: version(), Protocol: strconv.Itoa(wire.Version)})
}

// figures are those of this process's part in the show.
func (s *sharing) figures() metrics.Bus {
	now := s.bus.Now()
	return metrics.Bus{
		Show: s.options.Show, Role: now.Role, Last: now.Last, Terms: now.Terms, Appended: now.Appended,
		Kept: now.Kept, Dropped: now.Dropped, Cut: now.Cut,
	}
}

func journalFigures(kept *journal.Journal, c config.Journal) metrics.Journal {
	s := kept.Stats()
	figures := metrics.Journal{
		Bytes: folderBytes(c.Dir), Limit: c.MaxBytes, Records: s.Records, Lost: s.Lost, Dropped: s.Dropped,
		Unwritten: int(s.Unwritten), DiskFree: -1,
	}
	if free, err := diskFree(c.Dir); err == nil {
		figures.DiskFree = free
	}
	return figures
}
