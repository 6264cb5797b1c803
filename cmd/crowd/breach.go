package main

import "fmt"

// breach is one way in which a relay breaks its word to a page.
type breach int

// The breaches.
const (
	breachLost     breach = iota // something never came, or an update follows on a revision that the page does not hold
	breachDoubled                // the same came twice
	breachOrder                  // something older came after something newer
	breachTooNew                 // newer than the page may see
	breachUntrue                 // not what has been played
	breachUnasked                // a board, or a frame, that this page is not sent
	breachShape                  // no frame of the protocol
	breachCut                    // a page that did nothing wrong was cut off
	breachAnswered               // a hostile one was not turned away as it should be
	breaches                     // how many there are
)

var breachNames = [breaches]string{"lost", "doubled", "out of order", "too new", "untrue", "unasked", "shape", "cut", "not refused"}

func (b breach) String() string { return breachNames[b] }

// String names a breach with what it was of, for the list that is printed.
func (b told) String() string { return fmt.Sprintf("%s: %s: %s", b.kind, b.page, b.text) }

// told is one breach as it is printed.
type told struct {
	kind       breach
	page, text string
}
