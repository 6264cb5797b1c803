package main

import (
	"fmt"
	"io"
	"net"
	"net/url"
	"strings"

	"clocktell/overlay/access"
	"clocktell/relay/config"
)

// link is an address that somebody may need, and who it is for.
type link struct {
	path, about string
	role        access.Role
}

var links = []link{
	{"/scene/board", "a board; this scene and the next four are for the streaming software, 1920 x 1080, transparent", access.Viewer},
	{"/scene/clocks", "players and clocks of a board, as a lower third", access.Viewer},
	{"/scene/wall", "2 to 12 boards; the one where it burns is seen large", access.Viewer},
	{"/scene/caption", "the sentence on the air", access.Viewer},
	{"/scene/challenge", "the question put to the viewers", access.Viewer},
	{"/desk", "for the commentator; every action has a call under /api/actions", access.Desk},
	{"/panel", "for the co-host", access.Panel},
	{"/health", "for the producer; /metrics beside it", access.Producer},
}

// printLinks tells which addresses to open, with the tokens that were made just now.
func (e entrance) printLinks(w io.Writer, l net.Listener) {
	base, made := e.baseOf(l.Addr()), e.made
	if e.kept && !onTerminal(w) {
		made = nil
	}
	for _, link := range links {
		path := link.path
		if token := tokenFor(made, link.role); token != "" {
			path += "?" + url.Values{"token": {token}}.Encode()
		}
		fmt.Fprintf(w, "  %s%-16s %s\n", base, path, link.about)
	}
	if addr, ok := l.Addr().(*net.TCPAddr); ok && addr.IP.IsUnspecified() {
		fmt.Fprintf(w, "  (this machine's other names and addresses do as well)\n")
	}
	e.printTokens(w, base)
}

// printPushes tells where feeds are pushed to.
func (e entrance) printPushes(w io.Writer, l net.Listener, feeds []config.Feed) {
	for _, f := range feeds {
		if f.Kind() == config.KindPush {
			fmt.Fprintf(w, "  push %-7s %s/push/%s   PUT or POST, with the token that $%s holds\n", f.Name, strings.TrimSuffix(e.baseOf(l.Addr()), "/"), f.Name, f.TokenEnv)
		}
	}
}
