package overlay

import (
	"clocktell/overlay/wire"
	"clocktell/relay"
	"clocktell/relay/prompt"
)

func promptsFrame(show *relay.Show) wire.Prompts {
	frame := wire.Prompts{Type: wire.TypePrompts, Rev: show.Said.Rev, Items: []wire.Prompt{}}
	for i := range show.Said.Items {
		frame.Items = append(frame.Items, promptView(show, &show.Said.Items[i]))
	}
	return frame
}

func promptView(show *relay.Show, item *relay.BoardPrompt) wire.Prompt {
	ply := item.Alert.Ply
	if item.Board > 0 {
		ply = show.Boards[item.Board-1].HalfMove(ply - 1)
	}
	return wire.Prompt{
		Key: item.Key(), Kind: string(item.Kind), Board: item.Board, Side: item.Alert.Side, Ply: ply,
		At: item.Alert.At.UnixMilli(), Priority: string(item.Priority), Text: item.Text, Evidence: item.Evidence,
		Ends: item.Ends, Withdrawn: milli(item.Withdrawn), Marks: marksView(item.Marks),
		State: string(item.Use.Is()), By: item.Use.By, Since: milli(item.Use.At), Pinned: item.Use.Pinned,
	}
}

func marksView(marks []prompt.Mark) []wire.Mark {
	view := make([]wire.Mark, 0, len(marks))
	for _, m := range marks {
		view = append(view, wire.Mark{Kind: string(m.Kind), From: m.From, To: m.To})
	}
	return view
}

func tableFrame(show *relay.Show) wire.Table {
	frame := wire.Table{Type: wire.TypeTable, Rev: show.Table.Rev, Notes: []wire.TableNote{}}
	for _, n := range show.Table.Notes {
		frame.Notes = append(frame.Notes, wire.TableNote{ID: n.ID, By: n.By, At: n.At.UnixMilli(), Text: n.Text})
	}
	return frame
}

func captionFrame(show *relay.Show) wire.CaptionFrame {
	frame := wire.CaptionFrame{Type: wire.TypeCaption, Rev: show.OnAir.Rev}
	if c := show.OnAir.Caption; c != nil {
		frame.Caption = &wire.Caption{
			Key: c.Key, Kind: string(c.Kind), Board: c.Board, Side: c.Side, Text: c.Text, Source: c.Source, Marks: marksView(c.Marks),
			By: c.By, At: c.At.UnixMilli(), Until: milli(c.Until),
		}
	}
	return frame
}
