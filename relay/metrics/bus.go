package metrics

import (
	"github.com/prometheus/client_golang/prometheus"

	"clocktell/relay"
)

// Bus is what is known of a process's part in a show that several share.
type Bus struct {
	Show            string // its name on the bus, from the configuration
	Role            relay.BusRole
	Last            uint64 // number of the last message that the process knows
	Terms, Appended uint64 // how often it has begun to lead; messages
	Kept            int    // messages that wait for the bus
	Dropped         uint64 // messages that it will never have
	Cut             bool   // it does not hear the others, or they do not hear it
}

var (
	busRole     = desc("bus_role", "1 for what the process does with the show that it shares; without a bus there is no such series.", "show", "role")
	busCut      = desc("bus_cut", "1 while the process does not hear those that it shares the show with, or they do not hear it.", "show")
	busLast     = desc("bus_last_message", "Number of the last message of the show that the process knows.", "show")
	busAppended = desc("bus_appended_messages_total", "Messages that the process has added to the show while it led.", "show")
	busTerms    = desc("bus_terms_total", "Times that the process has begun to lead.", "show")
	busKept     = desc("bus_kept_messages", "Messages that wait in memory because the bus takes none.", "show")
	busDropped  = desc("bus_dropped_messages_total", "Messages that the bus will never have: no room in memory, or no way back to it.", "show")
)

func (m *Metrics) collectBus(out chan<- prometheus.Metric) {
	if m.Bus == nil {
		return
	}
	b := m.Bus()
	for _, role := range []relay.BusRole{relay.BusLeads, relay.BusStandsBy, relay.BusFollows} {
		out <- gauge(busRole, truth(b.Role == role), b.Show, string(role))
	}
	out <- gauge(busCut, truth(b.Cut), b.Show)
	out <- gauge(busLast, float64(b.Last), b.Show)
	out <- counter(busAppended, b.Appended, b.Show)
	out <- counter(busTerms, b.Terms, b.Show)
	out <- gauge(busKept, float64(b.Kept), b.Show)
	out <- counter(busDropped, b.Dropped, b.Show)
}
