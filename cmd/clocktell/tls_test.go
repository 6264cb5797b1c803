package main

import (
	"context"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"fmt"
	"io"
	"log/slog"
	"math/big"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/coder/websocket"

	"clocktell/overlay/access"
	"clocktell/relay"
	"clocktell/relay/config"
)

// certificate makes one for loopback that the test trusts, and returns its two files.
func certificate(t *testing.T) (certFile, keyFile string) {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	template := &x509.Certificate{
		SerialNumber: big.NewInt(1), NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().Add(time.Hour),
		IPAddresses: []net.IP{net.IPv4(127, 0, 0, 1)},
	}
	der, err := x509.CreateCertificate(rand.Reader, template, template, &key.PublicKey, key)
	if err != nil {
		t.Fatal(err)
	}
	private, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	certFile, keyFile = filepath.Join(dir, "cert.pem"), filepath.Join(dir, "key.pem")
	for name, block := range map[string]*pem.Block{certFile: {Type: "CERTIFICATE", Bytes: der}, keyFile: {Type: "PRIVATE KEY", Bytes: private}} {
		if err := os.WriteFile(name, pem.EncodeToMemory(block), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return certFile, keyFile
}

// TestOverTLS: pages, cookie and socket over TLS with a certificate of one's own; without TLS
// nothing is served there.
func TestOverTLS(t *testing.T) {
	cert, key := certificate(t)
	c, err := loadConfig(keptTokens(t, fmt.Sprintf("tls_cert = '%s'\ntls_key = '%s'", cert, key)), "test", io.Discard)
	if err != nil {
		t.Fatal(err)
	}
	st, address := startStation(t, c, slog.New(slog.DiscardHandler))
	pool := x509.NewCertPool()
	text, _ := os.ReadFile(cert)
	pool.AppendCertsFromPEM(text)
	transport := &http.Transport{TLSClientConfig: &tls.Config{RootCAs: pool}, DisableKeepAlives: true}
	request, _ := http.NewRequestWithContext(t.Context(), "GET", "https://"+address+"/panel?token="+tokenFor(st.way.made, access.Panel), nil)
	response, err := transport.RoundTrip(request)
	if err != nil {
		t.Fatal(err)
	}
	response.Body.Close()
	_, port, _ := net.SplitHostPort(address)
	if cookies := response.Cookies(); len(cookies) != 1 || !cookies[0].Secure || cookies[0].Name != "__Host-clocktell-"+port { // RFC 6265bis, 4.1.3.2
		t.Fatalf("%d, cookies %v", response.StatusCode, cookies)
	}
	if policy := response.Header.Get("Content-Security-Policy"); !strings.Contains(policy, "wss://"+address) || strings.Contains(policy, " ws://") {
		t.Errorf("policy %q", policy)
	}
	conn, _, err := websocket.Dial(t.Context(), "wss://"+address+"/live?page=panel", &websocket.DialOptions{
		HTTPClient: &http.Client{Transport: transport},
		HTTPHeader: http.Header{"Cookie": {response.Cookies()[0].Name + "=" + response.Cookies()[0].Value}, "Origin": {"https://" + address}},
	})
	if err != nil {
		t.Fatal(err)
	}
	if _, welcome, err := conn.Read(t.Context()); err != nil || !strings.Contains(string(welcome), `"welcome"`) {
		t.Errorf("%s, %v", welcome, err)
	}
	conn.CloseNow()
	plainly, err := http.Get("http://" + address + "/panel")
	if err != nil {
		t.Fatal(err)
	}
	defer plainly.Body.Close()
	if body, _ := io.ReadAll(plainly.Body); plainly.StatusCode != http.StatusBadRequest || strings.Contains(string(body), "html") {
		t.Errorf("without TLS: %d %q", plainly.StatusCode, body)
	}
}

// startStation runs a show until the test ends.
func startStation(t *testing.T, c config.Config, log *slog.Logger) (*station, string) {
	t.Helper()
	st, err := newStation(t.Context(), c, relay.NewTimebase(1), log)
	if err != nil {
		t.Fatal(err)
	}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error)
	go func() { done <- st.run(ctx, l) }()
	t.Cleanup(func() {
		cancel()
		if err := <-done; err != nil {
			t.Error(err)
		}
	})
	return st, l.Addr().String()
}
