package pgn

import (
	"maps"
	"slices"
)

// FaultReasons lists every reason that a Fault can have.
var FaultReasons = slices.Sorted(maps.Keys(faultWords))
