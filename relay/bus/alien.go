package bus

import (
	"context"
	"errors"
)

// errAlien says that a message was left out.
var errAlien = errors.New("a message that is not of this show")

// alien reports that a message that is not of this show stands in its stream all the same: somebody
// wrote it who has no part in the show, or a process that led another one when the bus lost that,
// and found as many messages here as it had written. No process of the show takes anything from
// it. The error is ErrAnew when the stream is that of another show by now; else nobody knows.
func (b *Bus) alien(ctx context.Context, kind, epoch string) (bool, error) {
	if epoch == b.begin.Epoch {
		return false, nil
	}
	m, err := b.stream.lastOf(ctx, ofBegin)
	switch {
	case err != nil:
		return false, err
	case kind == ofBegin || m == nil || m.Sequence != b.beginAt || m.Header.Get(headerEpoch) != b.begin.Epoch:
		return false, ErrAnew
	}
	return true, nil
}

// passOver notes that a message was left out, and says so once: there may be many.
func (b *Bus) passOver(seq uint64) {
	b.stream.last = seq
	b.state.set(func(n *Now) { n.Last = seq })
	if !b.alienTold {
		b.alienTold = true
		b.o.Log.Error("a message on the bus is not of this show, and is left out, as others will be; see who else writes to it", "message", seq)
	}
}

// appendAll writes messages, and returns how many it has written.
func (b *Bus) appendAll(ctx context.Context, messages []message) (int, error) {
	for i, m := range messages {
		if err := b.append(ctx, m); err != nil {
			return i, err
		}
	}
	return len(messages), nil
}

// append writes a message of the show, behind what is alien to it; see stream.append.
func (b *Bus) append(ctx context.Context, m message) error {
	for {
		err := b.stream.append(ctx, m.kind, m.data)
		if !errors.Is(err, errElse) || !b.passAlien(ctx) {
			return err
		}
	}
}

// passAlien goes past the message behind the last one that this process knows, if it is alien.
func (b *Bus) passAlien(ctx context.Context) bool {
	m, err := b.stream.get(ctx, b.stream.last+1)
	if err != nil {
		return false
	}
	is, err := b.alien(ctx, b.stream.kindOf(m.Subject), m.Header.Get(headerEpoch))
	if is && err == nil {
		b.passOver(m.Sequence)
	}
	return is && err == nil
}
