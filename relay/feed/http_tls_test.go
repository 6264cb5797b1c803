package feed

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"io"
	"log"
	"net/http/httptest"
	"strings"
	"testing"
	"time"
)

// vouched is a certificate for arena.example, and the pool of whoever vouches for it.
func vouched(t *testing.T, from, until time.Time) (tls.Certificate, *x509.CertPool) {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	authority := &x509.Certificate{
		Subject: pkix.Name{CommonName: "Arena Test Authority"}, IsCA: true, BasicConstraintsValid: true,
		NotBefore: time.Now().Add(-1000 * time.Hour), NotAfter: time.Now().Add(1000 * time.Hour),
	}
	leaf := &x509.Certificate{DNSNames: []string{"arena.example"}, NotBefore: from, NotAfter: until}
	ca := signed(t, authority, authority, key)
	pool := x509.NewCertPool()
	pool.AddCert(ca)
	return tls.Certificate{Certificate: [][]byte{signed(t, leaf, ca, key).Raw}, PrivateKey: key}, pool
}

func signed(t *testing.T, what, by *x509.Certificate, key *ecdsa.PrivateKey) *x509.Certificate {
	t.Helper()
	der, err := x509.CreateCertificate(rand.Reader, what, by, key.Public(), key)
	if err != nil {
		t.Fatal(err)
	}
	cert, err := x509.ParseCertificate(der)
	if err != nil {
		t.Fatal(err)
	}
	return cert
}

// Sources: crypto/x509 verifies as RFC 5280 §6 and RFC 6125 §6 say; the words in the middle of
// each text are its own.
func TestHTTPCertificates(t *testing.T) {
	now := time.Now()
	for _, row := range []struct {
		name        string
		from, until time.Time
		as          string // the name asked for
		known       bool   // the authority
		reason      Reason
		says        []string
	}{
		{"good", now.Add(-time.Hour), now.Add(time.Hour), "arena.example", true, "", nil},
		{"wrong name", now.Add(-time.Hour), now.Add(time.Hour), "hall.example", true, ReasonConnect,
			[]string{"certificate is valid for arena.example, not hall.example; ", "right host"}},
		{"unknown authority", now.Add(-time.Hour), now.Add(time.Hour), "arena.example", false, ReasonConnect,
			[]string{"certificate signed by unknown authority", "is it the right host? If the arena vouches for itself, this machine must be told to trust it"}},
		{"expired", now.Add(-2 * time.Hour), now.Add(-time.Hour), "arena.example", true, ReasonConnect,
			[]string{"certificate has expired", "this machine's date right? If so, the arena must renew"}},
		{"not valid yet", now.Add(time.Hour), now.Add(2 * time.Hour), "arena.example", true, ReasonConnect,
			[]string{"is not yet valid", "this machine's date right?"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			cert, pool := vouched(t, row.from, row.until)
			server := httptest.NewUnstartedServer(text(pgn))
			server.Config.ErrorLog = log.New(io.Discard, "", 0)
			server.TLS = &tls.Config{Certificates: []tls.Certificate{cert}}
			server.StartTLS()
			defer server.Close()
			if !row.known {
				pool = x509.NewCertPool()
			}
			transport := limitedTransport(DefaultTimeout)
			transport.TLSClientConfig = &tls.Config{ServerName: row.as, RootCAs: pool}
			defer transport.CloseIdleConnections()
			o := HTTPOptions{URL: server.URL, Transport: transport}
			polled, err := NewHTTP(o)
			if err != nil {
				t.Fatal(err)
			}
			followed, err := NewGrowing(GrowingOptions{HTTPOptions: o})
			if err != nil {
				t.Fatal(err)
			}
			for _, source := range []Source{polled, followed} {
				got := runOutside(t, source)
				if got.reason != row.reason {
					t.Errorf("%T: got %q %q, want %q", source, got.reason, got.err, row.reason)
				}
				for _, words := range row.says {
					if !strings.Contains(got.err, words) {
						t.Errorf("%T: got %q, want it to say %q", source, got.err, words)
					}
				}
			}
		})
	}
}

// The transport NewHTTP makes verifies too: it knows nobody who vouches for this server.
func TestHTTPOwnTransportVerifies(t *testing.T) {
	server := httptest.NewUnstartedServer(text(pgn))
	server.Config.ErrorLog = log.New(io.Discard, "", 0)
	server.StartTLS()
	defer server.Close()
	h, err := NewHTTP(HTTPOptions{URL: server.URL})
	if err != nil {
		t.Fatal(err)
	}
	if h.own.TLSClientConfig != nil && h.own.TLSClientConfig.InsecureSkipVerify {
		t.Error("verification is off")
	}
	if got := runOutside(t, h); got.reason != ReasonConnect || !strings.Contains(got.err, "unknown authority") {
		t.Errorf("got %q %q, want connect, naming the unknown authority", got.reason, got.err)
	}
}
