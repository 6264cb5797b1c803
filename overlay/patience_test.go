package overlay

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"fmt"
	"io"
	"math/big"
	"net"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"clocktell/relay/relaytest"
)

// trickling opens a panel with many boards on a line that takes some bytes every 3 s, less than
// writeWait. The page is well but for that: it goes on to send pings. At the end of the function
// it takes nothing any more.
func (h *hall) trickling(piece int, d time.Duration) net.Conn {
	h.t.Helper()
	var games []relaytest.Game
	for n := range 8 {
		games = append(games, relaytest.Game{White: fmt.Sprintf("White%d, W", n), Table: fmt.Sprint(n + 1), Moves: strings.Repeat("Nf3 Nf6 Ng1 Ng8 ", 30)})
	}
	h.events <- h.intake.Read(h.tb.Now(), []byte(relaytest.Packet(games...)))
	conn := h.listener.dialFrom(net.IPv4(127, 0, 0, 1))
	if _, err := io.WriteString(conn, shake("page=panel")); err != nil {
		h.t.Fatal(err)
	}
	for answer, one := "", make([]byte, 1); !strings.HasSuffix(answer, "\r\n\r\n"); answer += string(one) {
		if _, err := io.ReadFull(conn, one); err != nil {
			h.t.Fatal(err)
		}
	}
	for begun := time.Now(); time.Since(begun) < d; time.Sleep(3 * time.Second) {
		if _, err := io.ReadFull(conn, make([]byte, piece)); err != nil {
			h.t.Fatalf("after %v: %v", time.Since(begun), err)
		}
		if _, err := conn.Write(frame(fin|opText, `{"type":"ping","t":1,"late":[]}`)); err != nil {
			h.t.Fatalf("after %v: %v", time.Since(begun), err)
		}
	}
	return conn
}

// TestSlowLine: a page that takes a little now and then stays, though that takes much longer than
// writeWait for a frame; once it takes nothing it is dropped.
func TestSlowLine(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		conn := h.trickling(100, 20*writeWait)
		defer conn.Close()
		if got := h.server.Pages(); got.Dropped != 0 || got.Connected["panel"] != 1 {
			t.Errorf("pages = %+v, want one connected and none dropped", got)
		}
		time.Sleep(writeWait + 2*writeStep)
		synctest.Wait()
		if got := h.server.Pages(); got.Dropped != 1 || got.Connected["panel"] != 0 {
			t.Errorf("pages = %+v, want one dropped", got)
		}
	})
}

// TestSlowLineHoldsNobodyUp: a relay that stops waits no longer for a page that takes a little now
// and then than for others.
func TestSlowLineHoldsNobodyUp(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := newHall(t, 0)
		conn := h.trickling(100, 4*writeWait)
		defer conn.Close()
		gone := make(chan struct{})
		go func() { // goes on so until it is cut off
			for err := error(nil); err == nil; time.Sleep(3 * time.Second) {
				_, err = io.ReadFull(conn, make([]byte, 100))
			}
			close(gone)
		}()
		begun := time.Now()
		h.stop()
		if took := time.Since(begun); took > writeWait+2*writeStep {
			t.Errorf("stopping took %v", took)
		}
		<-gone
	})
}

// TestPatienceBelowTLS: what a page takes slowly arrives whole through TLS, too.
func TestPatienceBelowTLS(t *testing.T) {
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	template := &x509.Certificate{SerialNumber: big.NewInt(1)}
	certificate, err := x509.CreateCertificate(rand.Reader, template, template, key.Public(), key)
	if err != nil {
		t.Fatal(err)
	}
	synctest.Test(t, func(t *testing.T) {
		here, there := net.Pipe()
		config := &tls.Config{Certificates: []tls.Certificate{{Certificate: [][]byte{certificate}, PrivateKey: key}}}
		sealed := tls.Server(&counted{Conn: there, limits: newLimits(1, 1)}, config)
		if err := becomesPage(sealed, newMailbox()); err != nil {
			t.Fatal(err)
		}
		o := &outlet{Conn: sealed}
		sent := strings.Repeat("a", 1000)
		done := make(chan error)
		go func() { done <- o.send([]message{message(sent), message(sent)}) }()
		page := tls.Client(slowReader{here}, &tls.Config{InsecureSkipVerify: true})
		got := make([]byte, 2*len(sent))
		begun := time.Now()
		if _, err := io.ReadFull(page, got); err != nil || string(got) != sent+sent || time.Since(begun) < 2*writeWait {
			t.Errorf("%d bytes in %v, %v", len(got), time.Since(begun), err)
		}
		if err := <-done; err != nil {
			t.Error(err)
		}
		if _, err := o.Write([]byte(sent)); !errors.Is(err, errSlowPage) {
			t.Errorf("a page that takes nothing: %v", err)
		}
		_ = here.Close()
	})
}

// slowReader takes 200 bytes every 3 s.
type slowReader struct{ net.Conn }

func (s slowReader) Read(p []byte) (int, error) {
	time.Sleep(3 * time.Second)
	return s.Conn.Read(p[:min(len(p), 200)])
}
