package feed

import (
	"fmt"
	"time"
)

// DefaultQuietMost is how long a growing response may bring no byte before it is
// asked for anew: a line that is dead is silent as well.
const DefaultQuietMost = 30 * time.Second

// GrowingOptions say which growing response to follow and how.
type GrowingOptions struct {
	// HTTPOptions are as for polling, with these differences: Every is how often an open
	// but quiet response counts as an answer without news, and the shortest time from one
	// request to the next; Timeout is for the header, and for the first content Check
	// takes; MaxBytes limits what one response brings in all; Idle and Busy say nothing.
	HTTPOptions

	QuietMost time.Duration // without a byte before it is asked for anew, at least Every; 0: DefaultQuietMost, or Every if longer
}

// Growing follows one address whose response goes on for as long as the show does:
// a single GET, answered with the content so far and then with each addition.
type Growing struct {
	http      *HTTP
	quietMost time.Duration
}

var _ Source = (*Growing)(nil)

// NewGrowing returns a source that follows o.URL once Run is called. Its errors are
// those of NewHTTP.
func NewGrowing(o GrowingOptions) (*Growing, error) {
	h, err := NewHTTP(o.HTTPOptions)
	if err != nil {
		return nil, err
	}
	o.QuietMost = orDefault(o.QuietMost, max(DefaultQuietMost, h.o.Every))
	switch {
	case o.QuietMost < 0:
		err = fmt.Errorf("quiet limit %v is negative; give the longest time without a byte, or nothing for %v", o.QuietMost, DefaultQuietMost)
	case o.QuietMost < h.o.Every:
		err = fmt.Errorf("quiet limit %v is shorter than every %v; make it at least as long", o.QuietMost, h.o.Every)
	}
	if err != nil {
		return nil, fmt.Errorf("feed %s: %w", shownURL(h.address), err)
	}
	return &Growing{h, o.QuietMost}, nil
}
