package bus

import (
	"testing"

	"clocktell/relay"
)

// note is an entry that tells itself from others.
func note(n *node, id string) relay.AtPanel {
	return relay.AtPanel{At: n.now(), ID: id, Who: "Ada", Act: relay.PanelNote, Text: id}
}

// has reports that the show of a process has an entry.
func (n *node) has(id string) bool {
	_, known := n.show.Load().Entry(id)
	return known
}

// leading waits until one of them leads, and returns it.
func leading(t *testing.T, nodes ...*node) (leader *node) {
	t.Helper()
	until(t, "one leads", func() bool {
		for _, n := range nodes {
			if n.leads.Load() {
				leader = n
			}
		}
		return leader != nil
	})
	return leader
}
