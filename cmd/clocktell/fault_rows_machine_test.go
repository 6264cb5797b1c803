package main

import (
	"bytes"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"errors"
	"fmt"
	"math/big"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"sync/atomic"
	"testing"
	"time"

	"clocktell/relay/feed"
)

// machineAlone marks a process of its own: whom the machine trusts, and which proxy it
// has, are read once in a process, from its environment.
const machineAlone = "CLOCKTELL_TEST_MACHINE"

// machineRowsRun runs the rows that need such a process, one by one, and returns how
// many ran.
func machineRowsRun(t *testing.T) int32 {
	if os.Getenv(machineAlone) == "" {
		return machineRowsAlone(t)
	}
	proxy := freeAddress(t)
	authority := newAuthority(t, "Fault Test Authority")
	trusted := filepath.Join(t.TempDir(), "trusted.pem")
	if err := os.WriteFile(trusted, pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: authority.cert.Raw}), 0o600); err != nil {
		t.Fatal(err)
	}
	for name, value := range map[string]string{
		"SSL_CERT_FILE": trusted, "SSL_CERT_DIR": t.TempDir(), "HTTP_PROXY": "http://" + proxy, "NO_PROXY": "", "no_proxy": "",
	} {
		t.Setenv(name, value)
	}
	rows := append(certificateRows(t, authority), proxyRows(proxy)...)
	rows = append(rows, faultRow{
		name: "connection refused", begin: (*faultScene).leave, end: (*faultScene).open, // here nobody else takes the port meanwhile
		want: faultWant{reason: feed.ReasonConnect, says: "connection refused"},
	})
	for i := range rows {
		t.Run(rows[i].name, func(t *testing.T) { rows[i].run(t) })
	}
	fmt.Printf("machine rows: %d\n", len(rows))
	return int32(len(rows))
}

// machineRowsAlone runs them in a process of this test's program.
func machineRowsAlone(t *testing.T) int32 {
	program, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	c := exec.Command(program, "-test.run=^TestFaultTable$/^machine$")
	c.Env = append(os.Environ(), machineAlone+"=1", "GOCOVERDIR="+t.TempDir(), "GORACE=atexit_sleep_ms=0")
	out, err := c.CombinedOutput()
	if err != nil {
		t.Errorf("%v\n%s", err, out)
	}
	var n int32
	if _, rest, found := bytes.Cut(out, []byte("machine rows: ")); found {
		fmt.Sscan(string(rest), &n)
	}
	return n
}

func freeAddress(t *testing.T) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().String()
}

// authority vouches for certificates.
type authority struct {
	cert *x509.Certificate
	key  *ecdsa.PrivateKey
}

func newAuthority(t *testing.T, name string) *authority {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	a := &authority{key: key, cert: &x509.Certificate{
		SerialNumber: big.NewInt(1), Subject: pkix.Name{CommonName: name}, IsCA: true, BasicConstraintsValid: true,
		NotBefore: time.Now().Add(-24 * time.Hour), NotAfter: time.Now().Add(24 * time.Hour),
	}}
	a.cert = a.signed(t, a.cert)
	return a
}

func (a *authority) signed(t *testing.T, what *x509.Certificate) *x509.Certificate {
	t.Helper()
	der, err := x509.CreateCertificate(rand.Reader, what, a.cert, a.key.Public(), a.key)
	if err != nil {
		t.Fatal(err)
	}
	cert, err := x509.ParseCertificate(der)
	if err != nil {
		t.Fatal(err)
	}
	return cert
}

// vouched is a certificate for this machine or, instead, for a name.
func (a *authority) vouched(t *testing.T, name string, from, until time.Duration) *tls.Certificate {
	t.Helper()
	leaf := &x509.Certificate{SerialNumber: big.NewInt(2), NotBefore: time.Now().Add(from), NotAfter: time.Now().Add(until)}
	if name == "" {
		leaf.IPAddresses = []net.IP{net.IPv4(127, 0, 0, 1)}
	} else {
		leaf.DNSNames = []string{name}
	}
	return &tls.Certificate{Certificate: [][]byte{a.signed(t, leaf).Raw}, PrivateKey: a.key}
}

// papers are what a server shows of itself: good ones, and during the fault bad ones.
type papers struct {
	good, bad *tls.Certificate // bad nil: it breaks the handshake off
	faulty    atomic.Bool
}

var errNoPapers = errors.New("no certificate")

func (p *papers) show(*tls.ClientHelloInfo) (*tls.Certificate, error) {
	switch {
	case !p.faulty.Load():
		return p.good, nil
	case p.bad == nil:
		return nil, errNoPapers
	}
	return p.bad, nil
}

// certificateRows are TLS faults; none where Go asks the system whom it trusts, and not
// the environment.
func certificateRows(t *testing.T, trusted *authority) []faultRow {
	t.Helper()
	if runtime.GOOS == "darwin" || runtime.GOOS == "windows" {
		return nil
	}
	row := func(name, basis string, bad *tls.Certificate, says string) faultRow {
		return faultRow{
			name: name, basis: basis, secure: &papers{good: trusted.vouched(t, "", -time.Hour, time.Hour), bad: bad},
			begin: func(s *faultScene) { s.row.secure.faulty.Store(true) },
			end:   func(s *faultScene) { s.row.secure.faulty.Store(false) },
			want:  faultWant{reason: feed.ReasonConnect, says: says},
		}
	}
	return []faultRow{
		row("TLS with a wrong name", "RFC 9525 §6", trusted.vouched(t, "hall.example", -time.Hour, time.Hour), "is it the right host"),
		row("TLS expired", "RFC 5280 §4.1.2.5", trusted.vouched(t, "", -2*time.Hour, -time.Hour), "the arena must renew its certificate"),
		row("TLS not valid yet", "RFC 5280 §4.1.2.5", trusted.vouched(t, "", time.Hour, 2*time.Hour), "is this machine's date right"),
		row("TLS of an unknown authority", "RFC 5280 §6.1", newAuthority(t, "Somebody Else").vouched(t, "", -time.Hour, time.Hour), "must be told to trust it"),
		row("TLS broken off", "RFC 8446 §6.2", nil, "no connection"),
	}
}

// proxyRows are faults of a proxy, which the machine's environment names.
func proxyRows(proxy string) []faultRow {
	const beyond = "http://hall.invalid/games.pgn" // RFC 6761 §6.4: no such host; only the proxy needs to find it
	return []faultRow{
		{name: "proxy refused", url: beyond, at: proxy, begin: (*faultScene).leave, end: (*faultScene).open,
			want: faultWant{reason: feed.ReasonConnect, says: "proxyconnect"}},
		{name: "proxy wants credentials", basis: "RFC 9110 §15.5.8", url: beyond, at: proxy, serve: status(http.StatusProxyAuthRequired),
			want: faultWant{reason: feed.ReasonStatus, says: "status 407 Proxy Authentication Required; the proxy wants credentials"}},
		{name: "proxy cannot reach the arena", basis: "RFC 9110 §15.6.3", url: beyond, at: proxy, serve: status(http.StatusBadGateway),
			want: faultWant{reason: feed.ReasonStatus, says: "status 502 Bad Gateway"}},
		{name: "proxy asks to sign in", basis: "RFC 6585 appendix B: captive portals answer for others", url: beyond, at: proxy, serve: body("<html><p>Accept our terms"),
			want: faultWant{reason: feed.ReasonNotPGN, says: "does not hold PGN"}},
	}
}
