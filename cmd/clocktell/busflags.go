package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"net"
	"net/url"
	"os"
	"path/filepath"

	"clocktell/relay/config"
)

// sharedFlags are flags that share a show, in place of what the configuration says.
type sharedFlags struct {
	url, listen *string
	pair        *bool
}

func busFlags(flags *flag.FlagSet) sharedFlags {
	return sharedFlags{
		url:    flags.String("bus", "", "share the show over the NATS server at this `URL`, such as nats://127.0.0.1:4222"),
		listen: flags.String("embed-bus", "", "share the show over a bus in this process, at this `HOST:PORT`"),
		pair:   flags.Bool("pair", false, "two processes serve the show on the bus: one leads, the other stands by"),
	}
}

// into puts what was given into a configuration.
func (f sharedFlags) into(c *config.Config) error {
	switch {
	case *f.url != "" && *f.listen != "":
		return errors.New("give either --bus or --embed-bus")
	case *f.url != "":
		if wrong := config.CheckBusURL(*f.url); wrong != "" {
			return fmt.Errorf("--bus %s", wrong)
		}
		c.Bus.URL, c.Bus.Listen = *f.url, ""
	case *f.listen != "":
		c.Bus.URL, c.Bus.Listen = "", *f.listen
	}
	c.Bus.Pair = c.Bus.Pair || *f.pair
	if c.Bus.Listen != "" && c.Bus.Dir == "" && c.Journal.Dir != "" {
		c.Bus.Dir = filepath.Join(c.Journal.Dir, "bus")
	}
	return c.CheckBus()
}

// print tells how others come to the show.
func (s *sharing) print(w io.Writer) {
	if s == nil {
		return
	}
	token := ""
	if s.options.Token != "" {
		token = " --token-env NAME"
	}
	fmt.Fprintf(w, "  more pages: clocktell edge --bus %s --show %s%s --listen HOST:PORT\n", reachable(s.options.URL), s.options.Show, token)
}

// reachable is an address of a bus as others can use it: where it is served at all addresses of
// this machine, by the machine's name.
func reachable(address string) string {
	u, err := url.Parse(address)
	if err != nil {
		return address // several with commas
	}
	if ip := net.ParseIP(u.Hostname()); ip != nil && ip.IsUnspecified() {
		if host, err := os.Hostname(); err == nil {
			u.Host = net.JoinHostPort(host, u.Port())
		}
	}
	return u.String()
}
