package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"net"
	"path/filepath"
	"strings"
	"time"

	"clocktell/overlay"
	"clocktell/overlay/access"
	"clocktell/relay/config"
)

const tokensHelp = `Usage: clocktell tokens --config FILE [--renew ROLE]

List the tokens that let people in, or make a new one and show its link, this once.
The old one is worth nothing from then on: a relay that runs cuts off whoever came
with it, within seconds. Roles: viewer, panel, desk, producer, each of which may do
what those before it may; or all.

Example:
  clocktell tokens --config configs/clocktell.toml --renew panel

Flags:
`

// everyRole stands for all roles after --renew.
const everyRole = "all"

func runTokens(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	flags := flag.NewFlagSet("tokens", flag.ContinueOnError)
	file := flags.String("config", "", "configuration `FILE`")
	renew := flags.String("renew", "", "make a new token for this `ROLE`, or for all")
	address := flags.String("listen", "", "links for a relay that serves at this `HOST:PORT` instead of the configured one")
	if err := parseFlags(flags, tokensHelp, args, stdout, stderr); err != nil {
		return err
	}
	roles, err := rolesToRenew(*renew)
	if err != nil {
		fmt.Fprintf(stderr, "clocktell tokens: --renew: %v, or %s\n", err, everyRole)
		return errUsage
	}
	if *file == "" {
		_, err := loadConfig(*file, "tokens", stderr)
		return err
	}
	c, err := config.Load(*file, func(string) (string, bool) { return "not needed here", true })
	if err != nil {
		return err
	}
	if *address != "" {
		c.Server.Listen = *address
	}
	return listTokens(ctx, c, roles, stdout)
}

func rolesToRenew(name string) ([]access.Role, error) {
	switch name {
	case "":
		return nil, nil
	case everyRole:
		return access.Roles, nil
	}
	role, err := access.ParseRole(name)
	return []access.Role{role}, err
}

// listTokens renews roles and says of each when its token was made; of a new one, its link.
// What could be wrong with links is looked at first: a token that is made is shown only once.
func listTokens(ctx context.Context, c config.Config, renew []access.Role, w io.Writer) error {
	if c.Access.Dir == "" {
		return errors.New("no tokens are asked for: access.dir in the configuration names no folder to keep them in")
	}
	secured, err := openTLS(c.Server)
	if err != nil {
		return err
	}
	base, err := baseFor(ctx, entrance{tls: secured}, c.Server.Listen)
	if err != nil {
		return err
	}
	e, err := openEntrance(c)
	if err != nil {
		return err
	}
	if len(e.made) == 0 {
		e.made, err = renewAll(e.keys, renew)
	}
	e.list(w, base)
	if dir, wrong := filepath.Abs(c.Access.Dir); wrong == nil {
		fmt.Fprintf(w, "Kept, hashed, in %s: the relay must use the same folder.\n", dir)
	}
	return err
}

// renewAll renews roles up to the first that fails, and returns the tokens that were made.
func renewAll(keys *access.Keys, roles []access.Role) (made []access.Token, err error) {
	for _, role := range roles {
		token, err := keys.Renew(role)
		if err != nil {
			return made, err
		}
		made = append(made, token)
	}
	return made, nil
}

// list says of each role's token when it was made; of one that was made just now, its link.
func (e entrance) list(w io.Writer, base string) {
	for _, role := range access.Roles {
		if token := tokenFor(e.made, role); token != "" {
			fmt.Fprintf(w, "%-8s %s%s\n", role, base, overlay.LinkPath(role, token))
			continue
		}
		fmt.Fprintf(w, "%-8s made %s; its link was shown then\n", role, e.keys.Made(role).Local().Format(time.DateTime))
	}
	if token := tokenFor(e.made, access.Viewer); token != "" {
		fmt.Fprintf(w, "Any address of a scene takes the viewers' token behind ? or &: token=%s\n", token)
	}
	printCodes(w, base, e.made)
}

// baseFor is how links begin of a relay that listens there.
func baseFor(ctx context.Context, e entrance, listen string) (string, error) {
	host, port, err := net.SplitHostPort(listen)
	if err != nil {
		return "", fmt.Errorf("--listen %q is not host:port", listen)
	}
	number, err := net.DefaultResolver.LookupPort(ctx, "tcp", port)
	if err != nil {
		return "", fmt.Errorf("--listen: %w", err)
	}
	if host == "" {
		host = "0.0.0.0"
	}
	ip := net.ParseIP(strings.Trim(host, "[]"))
	if ip == nil { // a name, as people type it
		return strings.TrimSuffix(e.baseOf(&net.TCPAddr{IP: net.IPv4(127, 0, 0, 1)}), "127.0.0.1:0") + net.JoinHostPort(host, port), nil
	}
	return e.baseOf(&net.TCPAddr{IP: ip, Port: number}), nil
}
