package overlay

import "clocktell/relay"

// part is something of a show that is sent whole whenever its revision is another.
type part uint8

const (
	partShow part = iota
	partAir       // the last before the boards, which it may cover
	partPrompts
	partTable
	partCaption
	partDesk
	partOpinions
	partHolds
	partsMost // how many there are
)

// parts says of each which revision it has and how pages are told of it.
var parts = [partsMost]struct {
	rev  func(*relay.Show) uint64
	view func(*relay.Show) any
}{
	partShow:     {func(s *relay.Show) uint64 { return s.HeadRev }, func(s *relay.Show) any { return showFrame(s) }},
	partAir:      {func(s *relay.Show) uint64 { return s.Desk.AirRev }, func(s *relay.Show) any { return airFrame(s) }},
	partPrompts:  {func(s *relay.Show) uint64 { return s.Said.Rev }, func(s *relay.Show) any { return promptsFrame(s) }},
	partTable:    {func(s *relay.Show) uint64 { return s.Table.Rev }, func(s *relay.Show) any { return tableFrame(s) }},
	partCaption:  {func(s *relay.Show) uint64 { return s.OnAir.Rev }, func(s *relay.Show) any { return captionFrame(s) }},
	partDesk:     {func(s *relay.Show) uint64 { return s.Desk.Rev }, func(s *relay.Show) any { return deskFrame(s) }},
	partOpinions: {func(s *relay.Show) uint64 { return s.OpinionsRev }, func(s *relay.Show) any { return opinionsFrame(s) }},
	partHolds:    {func(s *relay.Show) uint64 { return s.Holds.Rev }, func(s *relay.Show) any { return holdsFrame(s) }},
}

// partsOfKinds are the parts that each kind of page is sent, in the order in which it is.
var partsOfKinds = func() map[string][]part {
	all := make(map[string][]part)
	for name, k := range pageKinds {
		wanted := [partsMost]bool{
			partShow: k.show, partAir: k.air, partPrompts: k.prompts, partTable: k.table,
			partCaption: k.caption, partDesk: k.desk, partOpinions: k.opinions, partHolds: k.holds,
		}
		for p := range partsMost {
			if wanted[p] {
				all[name] = append(all[name], p)
			}
		}
	}
	return all
}()
