package overlay

import (
	"bytes"
	"encoding/json"
	"flag"
	"net/http"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"clocktell/overlay/wire"
	"clocktell/relay/desk"
)

var update = flag.Bool("update", false, "rewrite what is compared with")

const actionsFile = "../testdata/wire/actions.json"

// TestActionsDocument keeps the description of all actions in a file, which a test of
// static/lint holds to the schema of OpenAPI 3.1.
func TestActionsDocument(t *testing.T) {
	var got bytes.Buffer
	json.Indent(&got, encode(describeActions(desk.Actions)), "", " ")
	got.WriteByte('\n')
	if *update {
		if err := os.WriteFile(actionsFile, got.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(actionsFile)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got.Bytes(), want) {
		t.Errorf("%s is not what the table of actions says; run: go test ./overlay -run ActionsDocument -update", actionsFile)
	}
}

// described is what a page reads of the description.
type described struct {
	Paths map[string]struct {
		Post struct {
			OperationID string   `json:"operationId"`
			Key         string   `json:"x-key"`
			Tags        []string `json:"tags"`
			RequestBody struct {
				Content map[string]struct {
					Schema struct {
						Properties map[string]struct {
							Type string `json:"type"`
						} `json:"properties"`
						Required []string `json:"required"`
					} `json:"schema"`
				} `json:"content"`
			} `json:"requestBody"`
		} `json:"post"`
	} `json:"paths"`
}

// TestTableIsTheOnlyPlace holds the served description, the routes and what a call may
// say to the table: every action is there once with its key, answers, and takes its
// fields, which an act has, and no others.
func TestTableIsTheOnlyPlace(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		response, err := h.client.Get("http://127.0.0.1:8600/api/actions")
		if err != nil {
			t.Fatal(err)
		}
		defer response.Body.Close()
		var document described
		if err := json.NewDecoder(response.Body).Decode(&document); err != nil || response.StatusCode != http.StatusOK {
			t.Fatal(response.Status, err)
		}
		if len(document.Paths) != len(desk.Actions) {
			t.Errorf("%d actions are described of %d", len(document.Paths), len(desk.Actions))
		}
		types := actFields()
		for _, action := range desk.Actions {
			post := document.Paths["/api/actions/"+action.Name].Post
			if post.OperationID != action.Name || post.Key != action.Key || !slices.Equal(post.Tags, []string{string(action.Group)}) {
				t.Errorf("%s is described as %+v", action.Name, post)
			}
			schema := post.RequestBody.Content["application/json"].Schema
			if len(schema.Properties) != len(action.Takes)+2 { // id and who
				t.Errorf("%s takes %d fields, described are %v", action.Name, len(action.Takes), schema.Properties)
			}
			for name, property := range schema.Properties {
				if types[name] != property.Type {
					t.Errorf("%s: field %s is described as %q, an act has %q", action.Name, name, property.Type, types[name])
				}
			}
			if response, _ := h.postTo("/api/actions/"+action.Name, strings.NewReader("{}"), nil); response.StatusCode != 200 && response.StatusCode != 409 {
				t.Errorf("%s answers %s", action.Name, response.Status)
			}
		}
	})
}

// actFields returns the fields of an act, each with its type in JSON Schema.
func actFields() map[string]string {
	kinds := map[reflect.Kind]string{reflect.String: "string", reflect.Int: "integer", reflect.Bool: "boolean", reflect.Pointer: "boolean", reflect.Slice: "array"}
	out := make(map[string]string)
	for i := range reflect.TypeFor[wire.DeskAct]().NumField() {
		field := reflect.TypeFor[wire.DeskAct]().Field(i)
		out[field.Tag.Get("json")] = kinds[field.Type.Kind()]
	}
	return out
}
