package main

import (
	"crypto/tls"
	"errors"
	"io/fs"
	"net"
	"os"
	"path/filepath"
	"time"

	"clocktell/overlay"
	"clocktell/overlay/access"
	"clocktell/relay/config"
)

// checkEntrance looks who may come in, over what, and makes no tokens.
func checkEntrance(c config.Config) finding {
	f := finding{Area: areaAccess, State: stateFine}
	if c.Server.TLSCert != "" {
		if _, err := tls.LoadX509KeyPair(c.Server.TLSCert, c.Server.TLSKey); err != nil {
			f.State, f.Text, f.Do = stateFails, err.Error(), "name a certificate and its own key, both as PEM, with tls_cert and tls_key under [server]"
			return f
		}
	}
	addr, err := net.ResolveTCPAddr("tcp", c.Server.Listen)
	if err != nil {
		addr = &net.TCPAddr{} // the port's check says what is wrong
	}
	if addr.IP == nil {
		addr.IP = net.IPv4zero // all of this machine's
	}
	switch {
	case c.Access.Dir == "" && overlay.OnlyHere(addr):
		f.Text = "no tokens: whoever is at this machine may do everything, and nobody else reaches it"
	case c.Access.Dir == "":
		f.State, f.Text, f.Do = stateFails, overlay.MayServe(addr, nil).Error(), "name a folder as dir under [access], or listen on 127.0.0.1"
	default:
		f = checkTokens(c.Access.Dir)
	}
	if !overlay.OnlyHere(addr) && c.Server.TLSCert == "" && f.State == stateFine {
		f.State, f.Text = stateWarning, f.Text+"; over plain HTTP the network can read them along"
		f.Do = "name a certificate with tls_cert and tls_key under [server], or use a network of your own"
	}
	return f
}

// checkTokens reads the tokens of a folder, if there are any.
func checkTokens(dir string) finding {
	f := finding{Area: areaAccess, State: stateFine, Text: "tokens are on; they are made at the first start"}
	_, err := os.Stat(filepath.Join(dir, access.FileName))
	if errors.Is(err, fs.ErrNotExist) {
		_, err = writable(dir)
	} else if err == nil {
		f.Text = "tokens are on; clocktell tokens lists them"
		_, _, err = access.Open(dir, time.Now)
	}
	if err != nil {
		f.State, f.Text, f.Do = stateFails, err.Error(), "correct that, or name another folder as dir under [access]"
	}
	return f
}
