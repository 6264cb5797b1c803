package overlay

import (
	"fmt"
	"slices"
	"time"

	"clocktell/overlay/wire"
	"clocktell/relay"
)

// parseAtPanel reads what a co-host does.
func parseAtPanel(body []byte, at time.Time) (string, relay.Event, error) {
	var act wire.PanelAct
	if err := decodeEntry(body, &act); err != nil {
		return "", nil, err
	}
	e := relay.AtPanel{
		At: at, ID: act.ID, Who: act.Who, Act: relay.PanelAct(act.Act), Prompt: act.Prompt, Over: act.Over, Text: act.Text, Note: act.Note,
	}
	if !slices.Contains(relay.PanelActs, e.Act) {
		return e.ID, e, fmt.Errorf("there is no act %q; the acts are %v", e.Act, relay.PanelActs)
	}
	return e.ID, e, nil
}
