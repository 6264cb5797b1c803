package relay

import (
	"errors"
	"fmt"
	"slices"
	"time"
)

// pastMost is how many prompts that are no longer listed can still be marked as said, by
// a panel that was cut off meanwhile.
const pastMost = 60

// Key names a prompt in what co-hosts do: the same condition may be raised again, and is
// another prompt then.
func (b *BoardPrompt) Key() string {
	return fmt.Sprintf("%s@%d", b.Alert.ID, b.Alert.At.UnixMilli())
}

func indexOf(items []BoardPrompt, key string) int {
	return slices.IndexFunc(items, func(i BoardPrompt) bool { return i.Key() == key })
}

func (p Prompts) find(key string) (*BoardPrompt, error) {
	i := indexOf(p.Items, key)
	if i < 0 {
		return nil, errors.New("that sentence is no longer listed")
	}
	return &p.Items[i], nil
}

// holds reports that a prompt is listed and true.
func (p Prompts) holds(key string) bool {
	i := indexOf(p.Items, key)
	return i >= 0 && p.Items[i].Withdrawn.IsZero()
}

// past returns a prompt that is no longer listed; nil: that long ago it is forgotten.
func (p Prompts) past(key string) *BoardPrompt {
	if i := indexOf(p.gone, key); i >= 0 {
		return &p.gone[i]
	}
	return nil
}

// used returns the list with the next state of one of its prompts, or of one that was
// listed.
func (p Prompts) used(item BoardPrompt, at time.Time) (Prompts, error) {
	items := slices.Clone(p.Items)
	if i := indexOf(items, item.Key()); i >= 0 {
		items[i] = item
	} else {
		items = append(items, item) // it is older than all that are listed
		p.gone = slices.DeleteFunc(slices.Clone(p.gone), func(g BoardPrompt) bool { return g.Key() == item.Key() })
	}
	if count(items, func(u Use) bool { return u.State == UseTaken || u.Pinned != "" }) > heldMost {
		return p, fmt.Errorf("%d sentences are taken or pinned already: say, drop or unpin some first", heldMost)
	}
	p.Rev, p.Items = p.Rev+1, items
	if count(items, func(u Use) bool { return u.State == UseSaid }) > saidMost {
		p = p.without(oldestSaid(items))
	}
	return p.faded(at), nil
}

func count(items []BoardPrompt, is func(Use) bool) int {
	n := 0
	for _, item := range items {
		if is(item.Use) {
			n++
		}
	}
	return n
}

// oldestSaid returns the index of the prompt said longest ago, pinned ones aside if
// there are others.
func oldestSaid(items []BoardPrompt) int {
	oldest := -1
	for i, item := range items {
		if item.Use.State != UseSaid || item.Use.Pinned != "" {
			continue
		}
		if oldest < 0 || item.Use.At.Before(items[oldest].Use.At) {
			oldest = i
		}
	}
	return oldest
}

// without drops the prompt at an index from the list.
func (p Prompts) without(i int) Prompts {
	if i < 0 {
		return p
	}
	item := p.Items[i]
	item.Use = Use{}
	p.gone = append(slices.Clip(p.gone[max(0, len(p.gone)-pastMost+1):]), item)
	p.Items = slices.Delete(slices.Clone(p.Items), i, i+1)
	return p
}
