package main

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net"
	"time"

	"clocktell/relay"
	"clocktell/relay/bus"
	"clocktell/relay/config"
)

// checkBus looks at the bus of a show that is shared, and at what is there of the show.
func (k *checker) checkBus(ctx context.Context) {
	c := k.config.Bus
	switch {
	case c.Listen != "":
		k.add(checkOwnBus(c))
	case c.URL != "":
		found, err := bus.Look(ctx, bus.Options{URL: c.URL, Token: c.Token, Show: c.Show, ID: processID()})
		if err != nil {
			k.add(noBus(err))
			return
		}
		k.add(checkBusServer(c, found))
		k.add(checkBusRoom(c, found))
		k.add(k.checkSharedShow(found))
	}
}

// checkOwnBus tries whether a bus can be served in this process.
func checkOwnBus(c config.Bus) finding {
	f := finding{Area: areaBus, State: stateFine, Text: fmt.Sprintf("this process will serve it at %s and keep it in %s", c.Listen, c.Dir)}
	l, err := net.Listen("tcp", c.Listen)
	if err == nil {
		err = l.Close()
	}
	if err != nil {
		f.State, f.Text, f.Do = stateFails, err.Error(), "choose another address with listen under [bus], or end what serves there; clocktell may run already"
	} else if _, err = writable(c.Dir); err != nil {
		f.State, f.Text, f.Do = stateFails, err.Error(), "give this user the right to write there, or name another folder as dir under [bus]"
	}
	return f
}

func noBus(err error) finding {
	f := finding{Area: areaBus, State: stateFails, Text: err.Error(), Do: "start the bus, or correct url and token_env under [bus]"}
	if errors.Is(err, bus.ErrNoStreams) {
		f.Do = "start it with JetStream: nats-server -js"
	}
	return f
}

// checkBusServer looks whether the bus carries what is asked of it.
func checkBusServer(c config.Bus, found bus.Found) finding {
	f := finding{Area: areaBus, State: stateFine, Text: "it answers and keeps streams; a message may hold " + inBytes(found.MaxPayload)}
	switch {
	case found.MaxPayload < bus.PayloadLeast:
		f.State, f.Do = stateFails, fmt.Sprintf("set max_payload of the NATS server to %s or more; its default is more", inBytes(bus.PayloadLeast))
	case c.Replicas > 1 && found.Cluster == "":
		f.State, f.Text = stateFails, fmt.Sprintf("replicas = %d, but the bus is one server alone", c.Replicas)
		f.Do = "run three servers as a cluster, or set replicas = 1 under [bus]"
	case c.Pair && c.Replicas == 1:
		f.State, f.Text = stateWarning, "one server alone keeps the show: without it both of the pair stand still"
		f.Do = "run three servers as a cluster, and set replicas = 3 under [bus]"
	}
	return f
}

// roomLeast is the share of its room that a show must still have on the bus.
const roomLeast = 0.2

// checkBusRoom looks whether there is room for the show.
func checkBusRoom(c config.Bus, found bus.Found) finding {
	f := finding{Area: areaBus, State: stateFine}
	left := found.MaxBytes - found.Bytes
	switch {
	case found.Shown:
		f.Text = fmt.Sprintf("the show takes %s of the %s that it may", inBytes(found.Bytes), inBytes(found.MaxBytes))
		if float64(left) < roomLeast*float64(found.MaxBytes) {
			f.State, f.Do = stateWarning, "for the next show name another one with show under [bus], with a larger max_bytes"
		}
	case found.Free >= 0:
		f.Text = fmt.Sprintf("it has %s left for a show that may take %s", inBytes(found.Free), inBytes(c.MaxBytes))
		if found.Free < c.MaxBytes {
			f.State, f.Do = stateFails, "give the account more room, or lower max_bytes under [bus]"
		}
	default:
		f.Text = fmt.Sprintf("the show may take %s; the bus sets no limit but its disk", inBytes(c.MaxBytes))
	}
	return f
}

// checkSharedShow looks what there is of the show, and who leads it.
func (k *checker) checkSharedShow(found bus.Found) finding {
	f := finding{Area: areaBus, State: stateFine}
	if !found.Shown {
		f.Text = fmt.Sprintf("there is no show %q yet; the first process begins it", k.config.Bus.Show)
		return f
	}
	began := fmt.Sprintf("%q, begun %s UTC by %s", found.Begin.Title, found.Begin.Began.UTC().Format(time.DateTime), found.Begin.By)
	leader := cmp.Or(found.Leader, "a process")
	plan, err := json.Marshal(planOf(k.config, relay.NewTimebase(1)))
	switch same := err == nil && string(plan) == found.Begin.Plan; {
	case found.Led && (!k.config.Bus.Pair || found.Alone):
		f.State, f.Text = stateFails, fmt.Sprintf("%s leads the show already: %s", leader, began)
		f.Do = "stop that one; or set pair = true in both, and this one stands by; or name another show with show under [bus]"
	case found.Led && !same:
		f.State, f.Text = stateFails, fmt.Sprintf("%s leads the show with another configuration: %s", leader, began)
		f.Do = "make both configurations the same, or stop that one first"
	case found.Led:
		f.Text = fmt.Sprintf("%s leads the show, and this one will stand by: %s", leader, began)
	case !same:
		f.State, f.Text = stateWarning, fmt.Sprintf("the show there has another configuration, and is begun anew: %s", began)
		f.Do = "take the configuration that it was begun with if it is to go on, or name another show with show under [bus]"
	default:
		f.Text = fmt.Sprintf("nobody leads the show there, which goes on if it is younger than resume_within: %s", began)
	}
	return f
}
