package overlay

import (
	"maps"
	"slices"

	"clocktell/overlay/wire"
	"clocktell/relay"
)

func holdsFrame(show *relay.Show) wire.Holds {
	frame := wire.Holds{Type: wire.TypeHolds, Rev: show.Holds.Rev, MostMs: relay.HoldMost.Milliseconds(), Groups: []wire.HoldGroup{}, Scenes: scenes()}
	for _, g := range show.Holds.Groups {
		frame.Groups = append(frame.Groups, wire.HoldGroup{Group: g.Group, HoldMs: g.For.Milliseconds(), Since: g.Since.UnixMilli()})
	}
	return frame
}

// scenes lists every page that may be held back: those are the scenes.
func scenes() []string {
	names := slices.Sorted(maps.Keys(pageKinds))
	return slices.DeleteFunc(names, func(name string) bool { return !pageKinds[name].held })
}

// milli is by how much a page is held back, on the wire; nil: its group has not been set.
func (h held) milli(holds relay.Holds) *int64 {
	by := h.by
	if h.group != "" {
		hold, known := holds.Of(h.group)
		if !known {
			return nil
		}
		by = hold.For
	}
	ms := by.Milliseconds()
	return &ms
}
