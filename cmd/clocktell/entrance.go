package main

import (
	"crypto/tls"
	"fmt"
	"io"
	"net"
	"os"
	"time"

	"golang.org/x/term"

	"clocktell/overlay"
	"clocktell/overlay/access"
	"clocktell/relay/config"
)

// entrance is how people come in: with which tokens, and over what.
type entrance struct {
	keys *access.Keys   // nil: none are asked for
	made []access.Token // just now, in clear
	tls  *tls.Config    // nil: plain HTTP
	kept bool           // the tokens outlive this process
}

// openEntrance reads the certificate and the tokens that a configuration names, and makes
// the tokens at the first start.
func openEntrance(c config.Config) (entrance, error) {
	var e entrance
	var err error
	if e.tls, err = openTLS(c.Server); err != nil {
		return e, err
	}
	switch {
	case c.Access.Dir != "":
		if e.keys, e.made, err = access.Open(c.Access.Dir, time.Now); err != nil {
			return e, err
		}
		e.kept = true
	case c.Access.ThisRun:
		e.keys, e.made = access.New(time.Now)
	}
	return e, nil
}

// openTLS reads the certificate that a configuration names; without one it returns nil.
func openTLS(c config.Server) (*tls.Config, error) {
	if c.TLSCert == "" {
		return nil, nil
	}
	pair, err := tls.LoadX509KeyPair(c.TLSCert, c.TLSKey)
	if err != nil {
		return nil, fmt.Errorf("server.tls_cert and tls_key: %w; name a certificate and its own key, both as PEM", err)
	}
	// HTTP/2 has no use here: it cannot carry our sockets.
	return &tls.Config{Certificates: []tls.Certificate{pair}, MinVersion: tls.VersionTLS12, NextProtos: []string{"http/1.1"}}, nil
}

// tokenFor returns the token of a role if it was made just now, else "".
func tokenFor(made []access.Token, role access.Role) string {
	for _, token := range made {
		if token.Role == role {
			return token.Text
		}
	}
	return ""
}

// onTerminal reports a person who reads along. What goes anywhere else may be kept, in the
// log of a service for one, and so holds no token.
func onTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

// baseOf is how addresses of pages begin that are served at an address. Where all of this
// machine's are meant, it is the first that other machines reach.
func (e entrance) baseOf(addr net.Addr) string {
	scheme := "http://"
	if e.tls != nil {
		scheme = "https://"
	}
	tcp, ok := addr.(*net.TCPAddr)
	if !ok || !tcp.IP.IsUnspecified() {
		return scheme + addr.String()
	}
	reached := net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: tcp.Port}
	if addrs, err := net.InterfaceAddrs(); err == nil {
		for _, a := range addrs {
			if network, ok := a.(*net.IPNet); ok && network.IP.To4() != nil && network.IP.IsGlobalUnicast() {
				reached.IP = network.IP
				break
			}
		}
	}
	return scheme + reached.String()
}

// printTokens says what becomes of the tokens, and shows tablets the way to panel and desk.
func (e entrance) printTokens(w io.Writer, base string) {
	switch {
	case e.keys == nil:
		return
	case len(e.made) == 0:
		fmt.Fprintln(w, "  (tokens are on: these open where a link with a token has been opened once; new links: clocktell tokens -h, or the health page)")
		return
	case e.kept && !onTerminal(w):
		fmt.Fprintln(w, "  (tokens have been made; they are shown on a terminal only: clocktell tokens --config FILE --renew all)")
		return
	}
	fmt.Fprintln(w, "  (the tokens in these links are shown this once; keep the links from whoever plays)")
	printCodes(w, base, e.made)
}

// printCodes draws the links of panel and desk for the cameras of tablets.
func printCodes(w io.Writer, base string, made []access.Token) {
	if !onTerminal(w) {
		return
	}
	for _, role := range []access.Role{access.Panel, access.Desk} {
		if token := tokenFor(made, role); token != "" {
			fmt.Fprintf(w, "\n  the %s, for a tablet:\n", role)
			printCode(w, base+overlay.LinkPath(role, token))
		}
	}
}
