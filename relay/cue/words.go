package cue

import (
	"fmt"

	"clocktell/relay"
	"clocktell/relay/prompt"
)

// words are the titles of chapters in a language: short, and as they are read aloud.
type words struct {
	board     string            // with its number and its players
	players   string            // where there is but one board
	alerts    map[string]string // by kind of alert, with the player's name
	novelty   string            // with the move
	won       string            // winner, loser
	drawn     string            // the two players
	line      string            // with the number of the move where it departs, and the players
	named     string            // a side line that has a name
	question  string
	answer    string
	replaced  string // was, is
	takenBack string // was
	undecided string // the two players
}

var english = words{
	board: "Board %d: %s – %s", players: "%s – %s",
	alerts: map[string]string{
		"leftPreparation": "%s is out of preparation", "timeTrouble": "%s in time trouble", "flagNear": "%s has seconds left",
		"longThink": "%s thinks for long", "firstThink": "%s thinks for the first time",
	},
	novelty: "A new move: %s", won: "%s beats %s", drawn: "%s – %s: a draw",
	line: "A side line at move %d, %s – %s", named: "A side line: %s", question: "A question to the viewers", answer: "The answer",
	replaced: "%s, no longer %s", takenBack: "%s taken back", undecided: "%s – %s goes on",
}

var german = words{
	board: "Brett %d: %s – %s", players: "%s – %s",
	alerts: map[string]string{
		"leftPreparation": "%s ist aus der Vorbereitung", "timeTrouble": "%s in Zeitnot", "flagNear": "%s hat noch Sekunden",
		"longThink": "%s denkt lange nach", "firstThink": "%s denkt zum ersten Mal nach",
	},
	novelty: "Ein neuer Zug: %s", won: "%s schlägt %s", drawn: "%s – %s: remis",
	line: "Eine Variante im %d. Zug, %s – %s", named: "Eine Variante: %s", question: "Eine Frage an die Zuschauer", answer: "Die Antwort",
	replaced: "%s, nicht mehr %s", takenBack: "%s zurückgenommen", undecided: "%s – %s geht weiter",
}

// wordsOf returns the words of a language by its code; English where there are none.
func wordsOf(code string) words {
	if code == prompt.German.Code() {
		return german
	}
	return english
}

// segment names a board.
func (w words) segment(show *relay.Show, board int) string {
	white, black := called(show, board)
	if white == "" {
		return ""
	}
	if len(show.Boards) == 1 {
		return fmt.Sprintf(w.players, white, black)
	}
	return fmt.Sprintf(w.board, board, white, black)
}

func (w words) result(show *relay.Show, board int, result string) string {
	white, black := called(show, board)
	switch result {
	case "1-0":
		return fmt.Sprintf(w.won, white, black)
	case "0-1":
		return fmt.Sprintf(w.won, black, white)
	case "1/2-1/2":
		return fmt.Sprintf(w.drawn, white, black)
	}
	return fmt.Sprintf(w.undecided, white, black)
}

// alert names a sentence of the panel, "" for a kind that makes no chapter.
func (w words) alert(show *relay.Show, item *relay.BoardPrompt) string {
	b := boardOf(show, item.Board)
	if b == nil {
		return ""
	}
	if i := item.Alert.Ply - 1; item.Alert.Kind == relay.AlertNovelty && i >= 0 && i < len(b.Plies) {
		return fmt.Sprintf(w.novelty, spoken(show).Spoken(b.Plies[i].SAN))
	}
	format := w.alerts[string(item.Alert.Kind)]
	forecast := item.Alert.Kind == relay.AlertTimeTrouble && item.Alert.Level < relay.TroubleShows
	if format == "" || item.Alert.Side == "" || forecast {
		return ""
	}
	white, black := called(show, item.Board)
	if item.Alert.Side == "black" {
		white = black
	}
	return fmt.Sprintf(format, white)
}

func spoken(show *relay.Show) prompt.Language {
	if in, err := prompt.LanguageOf(show.Language()); err == nil {
		return in
	}
	return prompt.English
}

// called returns how the players of a board are spoken of; "" where there is no board.
func called(show *relay.Show, board int) (white, black string) {
	if b := boardOf(show, board); b != nil {
		return b.Called(0), b.Called(1)
	}
	return "", ""
}

func boardOf(show *relay.Show, board int) *relay.Board {
	if board < 1 || board > len(show.Boards) {
		return nil
	}
	return show.Boards[board-1]
}
