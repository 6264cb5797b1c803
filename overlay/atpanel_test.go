package overlay

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"clocktell/overlay/wire"
	"clocktell/relay"
)

// act posts what a co-host does, and returns the status and why it was refused.
func (h *hall) act(a wire.PanelAct) (status int, why string) {
	h.t.Helper()
	h.said++
	if a.ID == "" {
		a.ID = fmt.Sprintf("act-%d", h.said)
	}
	response, reply := h.postTo("/at-panel", strings.NewReader(string(encode(a))), nil)
	return response.StatusCode, reply.Error
}

// panels opens that many panels, of co-hosts Ada, Ben, Cleo, on a hall whose feed has
// fallen silent, and returns the key of the prompt about it.
func (h *hall) panels(n int) ([]*page, string) {
	h.t.Helper()
	h.play("e4 e5")
	time.Sleep(16 * time.Second)
	var pages []*page
	var prompts wire.Prompts
	for i := range n {
		p := h.open("page=panel")
		p.send(string(encode(wire.Who{Type: wire.TypeWho, Name: []string{"Ada", "Ben", "Cleo"}[i]})))
		p.until(wire.TypePrompts, &prompts)
		pages = append(pages, p)
	}
	if len(prompts.Items) != 1 || prompts.Items[0].State != wire.PromptOpen {
		h.t.Fatalf("prompts %+v, want one that is open", prompts.Items)
	}
	return pages, prompts.Items[0].Key
}

// TestTakeIsSeen: what one co-host takes is seen on every panel without time passing, and
// who comes second is told at once who has it.
func TestTakeIsSeen(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		pages, key := h.panels(3)
		began := time.Now()
		if status, why := h.act(wire.PanelAct{Who: "Ada", Act: "take", Prompt: key}); status != 200 {
			t.Fatalf("%d %s", status, why)
		}
		for i, p := range pages {
			var prompts wire.Prompts
			p.until(wire.TypePrompts, &prompts)
			if item := prompts.Items[0]; item.State != wire.PromptTaken || item.By != "Ada" {
				t.Errorf("panel %d: %s by %q, want taken by Ada", i, item.State, item.By)
			}
		}
		if took := time.Since(began); took > 0 {
			t.Errorf("it waited %v of show time for something", took)
		}
		if status, why := h.act(wire.PanelAct{Who: "Ben", Act: "take", Prompt: key}); status != 409 || !strings.Contains(why, "Ada has it") {
			t.Errorf("the second is told %d %q", status, why)
		}
	})
}

// TestPeople: panels hear who sits at them, each name once, and who leaves.
func TestPeople(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		pages, _ := h.panels(3)
		heard := func(want ...string) {
			t.Helper()
			for {
				var people wire.People
				pages[0].until(wire.TypePeople, &people)
				if slices.Equal(people.Names, want) {
					return
				}
			}
		}
		heard("Ada", "Ben", "Cleo")
		pages[2].send(`{"type":"who","name":"Ada"}`)
		heard("Ada", "Ben")
		pages[1].conn.CloseNow()
		heard("Ada")
		pages[2].send(`{"type":"who","name":"` + strings.Repeat("x", relay.WhoMost+1) + `"}`)
		if code := pages[2].closed(); code != wire.CloseBadFrame {
			t.Errorf("a name too long: close code %d", code)
		}
	})
}

// TestCaptionReachesScenes: a sentence put on the air reaches scenes and panels, and
// leaves them.
func TestCaptionReachesScenes(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		pages, key := h.panels(1)
		pages = append(pages, h.open("page=scene/caption"), h.open("page=scene/board"))
		for _, p := range pages {
			var frame wire.CaptionFrame
			if p.until(wire.TypeCaption, &frame); frame.Caption != nil {
				t.Fatalf("before anything was put there %+v is on the air", frame.Caption)
			}
		}
		h.act(wire.PanelAct{Who: "Ada", Act: "air", Prompt: key})
		for i, p := range pages {
			var frame wire.CaptionFrame
			if p.until(wire.TypeCaption, &frame); frame.Caption == nil || frame.Caption.Key != key || frame.Caption.Text == "" {
				t.Errorf("page %d: %+v", i, frame.Caption)
			}
		}
		h.act(wire.PanelAct{Who: "Ada", Act: "off"})
		for i, p := range pages {
			var frame wire.CaptionFrame
			if p.until(wire.TypeCaption, &frame); frame.Caption != nil {
				t.Errorf("page %d still shows %q", i, frame.Caption.Text)
			}
		}
	})
}

// TestNotesReachPanels: a note reaches the others, and is wiped there too.
func TestNotesReachPanels(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		pages, _ := h.panels(2)
		h.act(wire.PanelAct{ID: "n", Who: "Ada", Act: "note", Text: "ask about board 2"})
		table := func() (table wire.Table) {
			synctest.Wait()
			pages[1].until(wire.TypeTable, &table)
			return table
		}
		for len(table().Notes) == 0 {
		}
		h.act(wire.PanelAct{Who: "Ben", Act: "wipe", Note: "n"})
		if left := table().Notes; len(left) != 0 {
			t.Errorf("%+v is left", left)
		}
	})
}

// TestAtPanelStatuses: what makes no sense is refused with its reason, like an entry by
// hand.
func TestAtPanelStatuses(t *testing.T) {
	const good = `{"id":"a","who":"Ada","act":"note","text":"hello"}`
	for name, test := range map[string]struct {
		change func(*hall, *Options)
		body   string
		status int
		says   string
	}{
		"done":             {func(*hall, *Options) {}, good, 200, ""},
		"unknown act":      {func(*hall, *Options) {}, `{"id":"a","who":"Ada","act":"shout"}`, 400, `no act "shout"`},
		"unknown field":    {func(*hall, *Options) {}, `{"id":"a","who":"Ada","act":"note","note_text":"x"}`, 400, `no field "note_text"`},
		"no id":            {func(*hall, *Options) {}, `{"who":"Ada","act":"note","text":"x"}`, 400, "an id has"},
		"nobody":           {func(*hall, *Options) {}, `{"id":"a","act":"note","text":"x"}`, 409, "who you are"},
		"no such prompt":   {func(*hall, *Options) {}, `{"id":"a","who":"Ada","act":"take","prompt":"x"}`, 409, "no longer listed"},
		"without a token":  {withToken, good, 401, "open the page with the link"},
		"nothing is taken": {withoutHand, good, 404, ""},
	} {
		t.Run(name, func(t *testing.T) {
			inHallOf(t, test.change, func(t *testing.T, h *hall) {
				response, reply := h.postTo("/at-panel", strings.NewReader(test.body), nil)
				if response.StatusCode != test.status || !strings.Contains(reply.Error, test.says) {
					t.Errorf("%d %q, want %d and %q", response.StatusCode, reply.Error, test.status, test.says)
				}
			})
		})
	}
}

// TestPromptOnTheWire: everything people did with a prompt, and what it points at, is
// sent.
func TestPromptOnTheWire(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		pages, key := h.panels(1)
		h.act(wire.PanelAct{Who: "Ben", Act: "pin", Prompt: key})
		h.act(wire.PanelAct{Who: "Ada", Act: "said", Prompt: key})
		var prompts wire.Prompts
		for prompts.Items == nil || prompts.Items[0].State != wire.PromptSaid {
			pages[0].until(wire.TypePrompts, &prompts)
		}
		item := prompts.Items[0]
		if item.By != "Ada" || item.Pinned != "Ben" || item.Since != h.tb.Now().UnixMilli() || item.Marks == nil {
			said, _ := json.Marshal(item)
			t.Errorf("%s", said)
		}
	})
}
