// When a sentence goes is told by overlay/PROTOCOL.md: "until"; what happens without the relay is our own rule.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { OnAir, ORPHAN_MS, staysFor } from '../scene/onair.js';

/** A clock and a timer in the test's hand. */
function world(rate = 1) {
  const w = { wall: 1000, heard: [], timer: null };
  globalThis.window = { setTimeout: (run, wait) => ((w.timer = { run, at: w.wall + wait }), 1) };
  globalThis.clearTimeout = () => (w.timer = null);
  const time = { now: () => w.wall * rate, pageNow: () => w.wall, rate };
  w.onAir = new OnAir(time, (c) => w.heard.push(c?.text ?? null));
  w.go = (ms) => {
    w.wall += ms;
    if (w.timer && w.timer.at <= w.wall) {
      const { run } = w.timer;
      w.timer = null;
      run();
    }
  };
  return w;
}
const says = (text, until) => ({ caption: { key: 'k', text, until, at: 1, marks: [] } });

test('a sentence comes, changes and goes with the frames', () => {
  const w = world();
  w.onAir.take({ caption: null });
  for (const frame of [says('a', 0), says('b', 0), { caption: null }]) w.onAir.take(frame);
  assert.deepEqual(w.heard, ['a', 'b', null]);
});

test('the same sentence again is no news, nor is another end', () => {
  const w = world();
  for (const until of [0, 0, 90_000]) w.onAir.take(says('a', until));
  assert.deepEqual(w.heard, ['a']);
});

test('without the relay it stays until its own end, in show time', () => {
  const w = world(20);
  w.onAir.take(says('a', 1000 * 20 + 20_000)); // a second from now on the wall
  w.onAir.line('lost');
  w.go(900);
  assert.deepEqual(w.heard, ['a']);
  w.go(101);
  assert.deepEqual(w.heard, ['a', null]);
});

test('without an end of its own it goes a minute after the line was lost', () => {
  const w = world();
  w.onAir.take(says('a', 0));
  w.go(500_000);
  w.onAir.line('lost');
  w.go(ORPHAN_MS - 1);
  w.onAir.line('lost'); // lost again while trying to come back: the minute is the same
  assert.deepEqual(w.heard, ['a']);
  w.go(2);
  assert.deepEqual(w.heard, ['a', null]);
});

test('it comes back by itself with what the relay then says', () => {
  const w = world();
  w.onAir.take(says('a', 3000));
  w.onAir.line('lost');
  w.go(5000);
  w.onAir.line('open');
  w.onAir.take(says('b', 60_000));
  assert.deepEqual(w.heard, ['a', null, 'b']);
});

test('an end that is far away does not overflow the timer of a browser', () => {
  const w = world();
  w.onAir.take(says('a', 1e13));
  assert.ok(w.timer.at - w.wall <= 2 ** 31 - 1);
  assert.equal(staysFor(says('a', 500).caption, 1000, 1, null), 0);
});
