package config

import (
	"fmt"
	"net"
	"net/url"
	"regexp"
	"strings"
)

// Bus is where the show is shared with other processes, over NATS.
type Bus struct {
	URL      string `toml:"url"`    // of the NATS server, several with commas; "" and no Listen: the show is not shared
	Listen   string `toml:"listen"` // where this process itself serves a bus; "" it does not
	Dir      string `toml:"dir"`    // where that bus keeps its stream
	Show     string `toml:"show"`   // name of the show on the bus
	Pair     bool   `toml:"pair"`   // two processes serve the show, and one of them leads
	Replicas int    `toml:"replicas"`
	MaxBytes int64  `toml:"max_bytes"` // of the stream
	TokenEnv string `toml:"token_env"`

	Token string `toml:"-"` // what the environment holds under that name; never in the file
}

// On reports that the show is shared.
func (b Bus) On() bool { return b.URL != "" || b.Listen != "" }

var showName = regexp.MustCompile(`^[a-z][a-z0-9-]{0,31}$`)

// CheckBusURL returns what is wrong with the addresses of a bus, and the way out; "" nothing.
func CheckBusURL(addresses string) string {
	for address := range strings.SplitSeq(addresses, ",") {
		u, err := url.Parse(strings.TrimSpace(address))
		switch {
		case err != nil || u.Scheme != "nats" && u.Scheme != "tls" || u.Host == "":
			return "is not an address of a bus, such as nats://127.0.0.1:4222; several are separated by commas"
		case u.User != nil:
			return "holds a user or a token, which belongs into the environment; see token_env"
		}
	}
	return ""
}

func (v *validator) bus(b *Bus, feeds []Feed, env func(string) (string, bool)) {
	if wrong := CheckBusURL(b.URL); b.URL != "" && wrong != "" {
		v.wrong("bus.url", "%s", wrong)
	}
	if !showName.MatchString(b.Show) {
		v.wrong("bus.show", "%.40q is not a name of 1 to 32 small letters, figures and hyphens that begins with a letter", b.Show)
	}
	if b.Replicas < 1 || b.Replicas > 5 {
		v.wrong("bus.replicas", "%d is out of range; 1 to 5", b.Replicas)
	}
	if b.MaxBytes < 1<<20 || b.MaxBytes > 1<<40 {
		v.wrong("bus.max_bytes", "%d is out of range; 1048576 to 1099511627776 bytes", b.MaxBytes)
	}
	if b.TokenEnv != "" {
		token, found := env(b.TokenEnv)
		if !found || token == "" {
			v.wrong("bus.token_env", "the environment has no %s", b.TokenEnv)
		}
		b.Token = token
	}
	if key, wrong := b.wrong(feeds); wrong != "" {
		v.wrong("bus."+key, "%s", wrong)
	}
}

// CheckBus returns what cannot be of the bus, where flags have changed it.
func (c Config) CheckBus() error {
	if key, wrong := c.Bus.wrong(c.Feeds); wrong != "" {
		return fmt.Errorf("bus.%s: %s", key, wrong)
	}
	return nil
}

// wrong returns the key with which something cannot be, and what.
func (b *Bus) wrong(feeds []Feed) (key, what string) {
	if key, what = b.ownWrong(); what == "" {
		key, what = b.pairWrong(feeds)
	}
	return key, what
}

// ownWrong checks the bus that this process serves itself.
func (b *Bus) ownWrong() (key, what string) {
	host, _, err := net.SplitHostPort(b.Listen)
	switch {
	case b.Listen == "":
	case err != nil:
		return "listen", fmt.Sprintf("%q is not host:port, such as 127.0.0.1:4222", b.Listen)
	case b.URL != "":
		return "listen", "give either url, of a bus that is there, or listen, for one in this process"
	case b.Dir == "":
		return "dir", "is missing: the folder where the bus in this process keeps the show"
	case b.Token == "" && !onlyHere(host):
		return "token_env", fmt.Sprintf("is missing: other machines reach %s, and whoever reaches a bus without a token can write the show", b.Listen)
	}
	return "", ""
}

func onlyHere(host string) bool {
	ip := net.ParseIP(host)
	return host == "localhost" || ip != nil && ip.IsLoopback()
}

// pairWrong checks what a pair cannot do.
func (b *Bus) pairWrong(feeds []Feed) (key, what string) {
	switch {
	case !b.Pair:
		return "", ""
	case b.Listen != "":
		return "pair", "a pair needs a bus of its own, named by url: one inside this process would end with it"
	case b.URL == "":
		return "pair", "needs url, the bus where the two find each other"
	}
	for i := range feeds {
		if feeds[i].Stdin {
			return "pair", fmt.Sprintf("feed %q reads standard input, which only one process has", feeds[i].Name)
		}
	}
	return "", ""
}
