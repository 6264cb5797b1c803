package overlay

import (
	"encoding/json"

	"clocktell/overlay/wire"
	"clocktell/relay"
)

// snapshot is a whole show in the words of the protocol.
type snapshot struct {
	Show    wire.Show    `json:"show"`
	Boards  []wire.Board `json:"boards"` // whole
	Prompts wire.Prompts `json:"prompts"`
	Table   wire.Table   `json:"table"`

	Caption wire.CaptionFrame `json:"caption"`

	Feeds   wire.Feeds     `json:"feeds"`
	Sources wire.Sources   `json:"sources"`
	Log     []wire.LogLine `json:"log"` // every line kept
}

// Snapshot returns the whole show as indented JSON: the frames that a page which
// gets everything would be sent, and the show log. Equal shows give equal bytes.
// Where a journal is kept is no part of a show, only that it fails; nor is how this process
// shares it with others.
func Snapshot(show *relay.Show) []byte {
	alike := *show
	alike.Bus, alike.HereRev = relay.Bus{}, 0
	show = &alike
	s := snapshot{
		Show: showFrame(show), Boards: make([]wire.Board, 0, len(show.Boards)), Prompts: promptsFrame(show),
		Table: tableFrame(show), Caption: captionFrame(show),
		Feeds: feedsFrame(show, "", nil), Sources: sourcesFrame(show), Log: logLines(show.Log.After(0), 0),
	}
	for _, b := range show.Boards {
		s.Boards = append(s.Boards, boardFrame(b, 0))
	}
	data, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		panic(err) // like every frame, structs of strings and numbers
	}
	return append(data, '\n')
}
