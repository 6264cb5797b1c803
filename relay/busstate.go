package relay

// Bus is how a process shares the show with others.
type Bus struct {
	Role    BusRole
	Leader  string // the process that leads, for people, as far as this one knows; "" it does not
	Wrong   string // and what to do; "" nothing
	Waiting int    // messages that are kept until the bus takes them again
}

// CutOff reports that this process does not hear what happens to the show: what it has may be
// long past.
func (b Bus) CutOff() bool { return b.Wrong != "" && b.Role != BusLeads }

// BusRole is what a process does with a show that is shared.
type BusRole string

// The roles.
const (
	BusNone     BusRole = ""         // the show is not shared
	BusLeads    BusRole = "leads"    // it reads the feeds, and what it takes is the show
	BusStandsBy BusRole = "standsBy" // it follows, and leads when the other does not
	BusFollows  BusRole = "follows"  // it serves pages and never leads
)
