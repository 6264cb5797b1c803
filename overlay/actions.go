package overlay

import (
	"crypto/rand"
	"net/http"
	"strings"
	"time"

	"clocktell/overlay/wire"
	"clocktell/relay"
	"clocktell/relay/desk"
)

// actionsPath is where every action has its call, by its name.
const actionsPath = "/api/actions"

// actionDoors are the calls of all actions, and their description.
func (s *Server) actionDoors() []door {
	document, role := encode(describeActions(desk.Actions)), actRoles[actionsPath]
	doors := []door{{pattern: "GET " + actionsPath, role: role, behind: http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "application/json")
		w.Write(document)
	})}}
	if s.Enter == nil {
		return doors
	}
	for _, action := range desk.Actions {
		doors = append(doors, door{pattern: "POST " + actionsPath + "/" + action.Name, role: role, behind: s.entering(parseAction(action.Name))})
	}
	return doors
}

// parseAction reads the call of an action. A button may send nothing at all: the action's
// name says enough where no field is required.
func parseAction(name string) entryParser {
	return func(body []byte, at time.Time) (string, relay.Event, error) {
		var act wire.DeskAct
		if strings.TrimSpace(string(body)) != "" {
			if err := decodeEntry(body, &act); err != nil {
				return "", nil, err
			}
		}
		if act.ID == "" {
			act.ID = rand.Text()
		}
		return act.ID, relay.AtDesk{
			At: at, ID: act.ID, Who: act.Who, Action: name, Over: act.Over, Board: act.Board, Ply: act.Ply, Move: act.Move, SAN: act.SAN,
			From: act.From, To: act.To, Text: act.Text, On: act.On, Seconds: act.Seconds, Hints: act.Hints, Prompt: act.Prompt, Steps: act.Steps,
		}, nil
	}
}
