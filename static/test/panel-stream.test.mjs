// Which cards stand on the panel, in which order and how. The figures are the panel's own
// rules (urgent before new; a card that ends stays 6 s; nothing moves while somebody is at the panel).
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { LINGER_MS, Stream, passes } from '../panel/stream.js';

const ALL = { board: 0, kind: '', hideSaid: false };
const OPEN = { state: 'open', by: '', since: 0, pinned: '' };

const prompt = (id, more = {}) => ({
  id, key: id, kind: 'tell', board: 1, side: 'white', ply: 1, at: 100, priority: 'soon', text: id, evidence: '', ends: '', withdrawn: 0, ...OPEN, ...more,
});
/** A stream whose prompts are used as the test says; Nadja looks at it. */
const make = () => {
  const uses = new Map();
  const stream = new Stream(({ key, state, by, since, pinned }) => ({ state, by, since, pinned, own: false, waits: false, ...uses.get(key) }), () => 'Nadja');
  const use = (key, state, by = 'Nadja', more = {}) => uses.set(key, { ...OPEN, state, by, own: by === 'Nadja', ...more });
  return { stream, use, uses };
};
const list = (cards) => cards.map((c) => c.key + (c.form === 'full' ? '' : `:${c.form}`) + (c.end && `!${c.end}`) + (c.held ? '=' : '') + (c.settled ? '.' : '')).join(' ');
const ids = (view) => list(view.cards);

test('the urgent first, then the newest, then as the relay lists them', () => {
  const { stream } = make();
  stream.receive(
    [prompt('d', { priority: 'background', at: 900 }), prompt('c'), prompt('b', { at: 101 }), prompt('e', { priority: 'odd', at: 999 }),
      prompt('a', { priority: 'now', at: 1 }), prompt('c2')],
    0,
  );
  assert.equal(ids(stream.view(0, false, ALL)), 'a b c c2 d e');
});

test('where the new cards that wait will stand', () => {
  const above = (...fresh) => {
    const { stream } = make();
    stream.receive(held, 0);
    stream.view(0, false, ALL);
    stream.receive([...fresh, ...held], 10);
    return stream.view(10, true, ALL).above;
  };
  let held = [prompt('n', { priority: 'now' }), prompt('s')];
  assert.equal(above(prompt('x', { priority: 'now', at: 200 })), true);
  assert.equal(above(prompt('x', { at: 200 })), true, 'above the last one');
  assert.equal(above(prompt('x', { priority: 'background', at: 200 })), false);
  assert.equal(above(prompt('x', { priority: 'background', at: 200 }), prompt('y', { at: 200 })), true);
  held = [];
  assert.equal(above(prompt('x')), true, 'above what is left where no card is open');
});

test('new cards wait while the panel is touched', () => {
  const { stream } = make();
  stream.receive([prompt('a')], 0);
  stream.view(0, false, ALL);
  stream.receive([prompt('b'), prompt('a')], 10);
  const held = stream.view(10, true, ALL);
  assert.equal(ids(held), 'a');
  assert.equal(held.waiting, 1);
  const free = stream.view(20, false, ALL);
  assert.equal(ids(free), 'b a');
  assert.equal(free.waiting, 0);
});

test('a withdrawn card says so below every true one, then leaves', () => {
  const { stream } = make();
  stream.receive([prompt('a', { priority: 'now' }), prompt('b'), prompt('c', { priority: 'background' })], 0);
  stream.view(0, false, ALL);
  stream.receive([prompt('a', { priority: 'now', withdrawn: 5 }), prompt('b'), prompt('c', { priority: 'background' })], 1000);
  assert.equal(ids(stream.view(1000, true, ALL)), 'a!withdrawn b c', 'in its place while somebody is at the panel');
  assert.equal(ids(stream.view(1000, false, ALL)), 'b c a:line!withdrawn.');
  assert.equal(ids(stream.view(1000 + LINGER_MS - 1, false, ALL)), 'b c a:line!withdrawn.');
  assert.equal(ids(stream.view(1000 + LINGER_MS, false, ALL)), 'b c');
});

test('a withdrawn card never leaves under a finger', () => {
  const { stream } = make();
  stream.receive([prompt('a')], 0);
  stream.view(0, false, ALL);
  stream.receive([prompt('a', { withdrawn: 5 })], 1000);
  assert.equal(ids(stream.view(60_000, true, ALL)), 'a!withdrawn');
  assert.equal(ids(stream.view(60_001, false, ALL)), '');
});

test('what somebody has taken stays when it is no longer true', () => {
  const { stream } = make();
  stream.receive([prompt('a'), prompt('b')], 0);
  stream.view(0, false, ALL);
  stream.receive([prompt('a', { withdrawn: 5, state: 'taken', by: 'Nadja' }), prompt('b')], 1000);
  assert.equal(ids(stream.view(1000 + LINGER_MS, false, ALL)), 'a!withdrawn b');
});

test('a card the relay lists no more goes the same way, in other words', () => {
  const { stream } = make();
  stream.receive([prompt('a'), prompt('b')], 0);
  stream.view(0, false, ALL);
  stream.receive([prompt('b')], 1000);
  assert.equal(ids(stream.view(1000, false, ALL)), 'b a:line!gone.');
  assert.equal(ids(stream.view(1000 + LINGER_MS, false, ALL)), 'b');
});

test('what was never on the screen does not come to say that it is not true', () => {
  const { stream } = make();
  stream.receive([prompt('a', { withdrawn: 5 })], 0);
  assert.equal(ids(stream.view(0, false, ALL)), '');
});

test('a prompt that holds again is open again', () => {
  const { stream } = make();
  stream.receive([prompt('a')], 0);
  stream.view(0, false, ALL);
  stream.receive([prompt('a', { withdrawn: 5 })], 1000);
  assert.equal(ids(stream.view(1000, true, ALL)), 'a!withdrawn');
  stream.receive([prompt('a')], 2000);
  assert.equal(ids(stream.view(2000, true, ALL)), 'a');
});

test('said stays in place, then moves to the list of what was said', () => {
  const { stream, use, uses } = make();
  stream.receive([prompt('a'), prompt('b')], 0);
  stream.view(0, false, ALL);
  use('a', 'said');
  assert.equal(ids(stream.view(1000, true, ALL)), 'a:line b', 'her own act is seen at once');
  assert.equal(ids(stream.view(1000 + LINGER_MS, true, ALL)), 'a:line b');
  const later = stream.view(1000 + LINGER_MS, false, ALL);
  assert.equal(ids(later), 'b');
  assert.equal(list(later.said), 'a:line.');
  assert.equal(list(stream.view(1000 + LINGER_MS, false, { ...ALL, hideSaid: true }).said), '');
  uses.clear();
  assert.equal(ids(stream.view(3000 + LINGER_MS, false, ALL)), 'a b');
});

test('what was said before this page came does not linger', () => {
  const { stream } = make();
  stream.receive([prompt('a', { state: 'said', by: 'Ilja', since: 5 }), prompt('b', { state: 'said', by: 'Ilja', since: 9 })], 0);
  const view = stream.view(0, false, ALL);
  assert.equal(ids(view), '');
  assert.equal(list(view.said), 'b:line. a:line.', 'the latest first');
});

test('dropped leaves after its line was seen, for a list from which it can be brought back', () => {
  const { stream, use, uses } = make();
  stream.receive([prompt('a'), prompt('b')], 0);
  stream.view(0, false, ALL);
  use('a', 'dropped', 'Ilja');
  assert.equal(ids(stream.view(1, false, ALL)), 'a:line b');
  const later = stream.view(1 + LINGER_MS, false, ALL);
  assert.equal(ids(later), 'b');
  assert.equal(list(later.dropped), 'a:line.');
  uses.clear();
  assert.equal(ids(stream.view(2 + LINGER_MS, false, ALL)), 'a b');
});

test('what another takes says so at once, in the room it has while somebody is at the panel', () => {
  const { stream, use, uses } = make();
  stream.receive([prompt('a'), prompt('b')], 0);
  stream.view(0, false, ALL);
  use('a', 'taken', 'Ilja');
  assert.equal(ids(stream.view(1, true, ALL)), 'a:saying= b');
  uses.clear();
  assert.equal(ids(stream.view(2, true, ALL)), 'a= b', 'given back: it fits in its room');
  use('a', 'taken', 'Ilja');
  assert.equal(ids(stream.view(3, false, ALL)), 'a:saying b');
  uses.clear();
  assert.equal(ids(stream.view(4, true, ALL)), 'a:saying b', 'it does not grow under a finger');
  assert.equal(ids(stream.view(5, false, ALL)), 'a b');
});

test('what another says or drops does not shrink under a finger', () => {
  const { stream, use } = make();
  stream.receive([prompt('a'), prompt('b')], 0);
  stream.view(0, false, ALL);
  use('a', 'said', 'Ilja');
  assert.equal(ids(stream.view(1, true, ALL)), 'a b');
  assert.equal(ids(stream.view(2, false, ALL)), 'a:line b');
});

test('her own taking over is large at once', () => {
  const { stream, use } = make();
  stream.receive([prompt('a')], 0);
  use('a', 'taken', 'Ilja');
  assert.equal(ids(stream.view(0, false, ALL)), 'a:saying');
  use('a', 'taken');
  assert.equal(ids(stream.view(1, true, ALL)), 'a');
});

test('what is pinned stands on the shelf, true or not, and moves there when nobody is at the panel', () => {
  const { stream } = make();
  stream.receive([prompt('a'), prompt('b')], 0);
  stream.view(0, false, ALL);
  stream.receive([prompt('a', { pinned: 'Ilja' }), prompt('b')], 1);
  assert.equal(ids(stream.view(1, true, ALL)), 'a b');
  let view = stream.view(2, false, { ...ALL, board: 2 });
  assert.equal(ids(view), '');
  assert.equal(list(view.shelf), 'a', 'no filter hides the shelf');
  stream.receive([prompt('a', { pinned: 'Ilja', withdrawn: 5 }), prompt('b')], 3);
  view = stream.view(60_000, false, ALL);
  assert.equal(list(view.shelf), 'a!withdrawn');
  stream.receive([prompt('a', { pinned: 'Ilja', withdrawn: 5, state: 'said', by: 'Ilja' }), prompt('b')], 4);
  assert.equal(list(stream.view(60_000, false, ALL).shelf), 'a!withdrawn');
  stream.receive([prompt('b')], 61_000);
  view = stream.view(61_000, false, ALL);
  assert.equal(list(view.shelf), '');
});

test('filters', () => {
  const show = prompt('s', { board: 0, kind: 'feed' });
  assert.equal(passes(prompt('a'), ALL), true);
  assert.equal(passes(prompt('a'), { board: 2, kind: '' }), false);
  assert.equal(passes(prompt('a'), { board: 1, kind: 'clock' }), false);
  assert.equal(passes(show, { board: 2, kind: '' }), true, 'what concerns the whole show passes every board');
});

test('how many a filter hides: open ones only', () => {
  const { stream, use } = make();
  stream.receive([prompt('a'), prompt('b', { board: 2 }), prompt('c', { board: 2 }), prompt('d', { board: 2, withdrawn: 1 })], 0);
  use('c', 'said', 'Ilja');
  assert.equal(stream.hidden(ALL), 0);
  assert.equal(stream.hidden({ board: 1, kind: '' }), 1);
  assert.equal(stream.hidden({ board: 0, kind: 'clock' }), 2);
});

test('counts leave out what ended, is somebody’s, or is pinned', () => {
  const { stream, use } = make();
  stream.receive([prompt('a', { priority: 'now' }), prompt('b'), prompt('c', { board: 2 }), prompt('d', { withdrawn: 1 }), prompt('e', { pinned: 'Ilja' })], 0);
  use('b', 'taken', 'Ilja');
  assert.deepEqual([...stream.counts()], [[1, { open: 1, now: 1 }], [2, { open: 1, now: 0 }]]);
});
