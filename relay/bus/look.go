package bus

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"github.com/nats-io/nats.go/jetstream"
)

// Found is what a bus is and holds, as somebody sees it who takes no part in the show.
type Found struct {
	Cluster    string    // its name; "" a server alone
	MaxPayload int64     // bytes of a message
	Begin      Beginning // of the show
	Shown      bool      // there is a show, and Begin is its beginning
	Led        bool      // a process leads it now
	Leader     string    // the one that led last, for people
	Alone      bool      // that one goes on without the bus: nobody may stand by
	Bytes      int64     // that the show takes
	MaxBytes   int64     // that it may take
	Free       int64     // bytes that the bus has left for streams; -1 as many as it has
}

// PayloadLeast is the least size of a message with which a show can be shared.
const PayloadLeast = 8 * headerMost

// ErrNoStreams says that the bus keeps nothing.
var ErrNoStreams = errors.New("the bus keeps no streams")

// Look tells what there is, and changes nothing. It waits for up to Options.Lease to find
// out whether a process leads. The error wraps ErrNoBus, or is ErrNoStreams.
func Look(ctx context.Context, o Options) (Found, error) {
	b := &Bus{o: o.withDefaults()}
	if err := CheckShow(b.o.Show); err != nil {
		return Found{}, err
	}
	var err error
	if b.stream, err = connect(&b.o); err != nil {
		return Found{}, fmt.Errorf("bus at %s: %w", redacted(b.o.URL), err)
	}
	defer b.Close()
	found, err := b.look(ctx)
	if err != nil {
		return found, fmt.Errorf("bus at %s: %w", redacted(b.o.URL), err)
	}
	return found, nil
}

func (b *Bus) look(ctx context.Context) (Found, error) {
	conn := b.stream.conn
	f := Found{Cluster: conn.ConnectedClusterName(), MaxPayload: conn.MaxPayload()}
	account, err := b.stream.js.AccountInfo(ctx)
	switch {
	case errors.Is(err, jetstream.ErrJetStreamNotEnabled), errors.Is(err, jetstream.ErrJetStreamNotEnabledForAccount):
		return f, ErrNoStreams
	case err != nil:
		return f, fmt.Errorf("%w: %w", ErrNoBus, err)
	}
	if f.Free = account.Limits.MaxStore; f.Free >= 0 {
		f.Free = max(0, f.Free-int64(account.Store))
	}
	if err := b.find(ctx); err != nil || b.beginAt == 0 {
		return f, err
	}
	f.Begin, f.Shown = b.begin, true
	if f.Leader, f.Alone, err = b.lastLeader(ctx); err != nil {
		return f, err
	}
	there, err := b.stream.js.Stream(ctx, b.stream.name)
	if err != nil {
		return f, fmt.Errorf("%w: %w", ErrNoBus, err)
	}
	info := there.CachedInfo()
	f.Bytes, f.MaxBytes = int64(info.State.Bytes), info.Config.MaxBytes
	f.Led, err = b.grows(ctx, info.State.LastSeq)
	return f, err
}

// lastLeader returns who began the show, or has led it since, and whether alone.
func (b *Bus) lastLeader(ctx context.Context) (id string, alone bool, err error) {
	m, err := b.stream.lastOf(ctx, ofLead)
	if err != nil || m == nil || m.Sequence < b.beginAt || m.Header.Get(headerEpoch) != b.begin.Epoch {
		return b.begin.By, b.begin.Alone, err
	}
	var lead Lead
	if err := json.Unmarshal(m.Data, &lead); err != nil {
		return "", false, fmt.Errorf("message %d of the show: %w", m.Sequence, err)
	}
	return lead.ID, lead.Alone, nil
}

// grows reports whether a message comes within the lease.
func (b *Bus) grows(ctx context.Context, last uint64) (bool, error) {
	for until := time.Now().Add(b.o.Lease); time.Now().Before(until); {
		now, _, err := b.stream.end(ctx)
		if err != nil || now > last {
			return now > last, err
		}
		if !pause(ctx, b.o.BeatEvery/4) {
			return false, ctx.Err()
		}
	}
	return false, nil
}
