// Which cards stand on the panel, in which order. The figures are the panel's own
// rules (a card that ends stays 6 s; nothing moves while the panel is touched).
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Marks } from '../panel/marks.js';
import { LINGER_MS, Stream, passes } from '../panel/stream.js';

const ALL = { board: 0, kind: '' };

const prompt = (id, more = {}) => ({
  id, kind: 'tell', board: 1, side: 'white', ply: 1, at: 100, priority: 'soon', text: id, evidence: '', ends: '', withdrawn: 0, ...more,
});
const make = () => {
  const marks = new Marks(null);
  return { marks, stream: new Stream(marks) };
};
const ids = (view) => view.cards.map((c) => c.prompt.id + (c.state === 'open' ? '' : `:${c.state}`) + (c.settled ? '.' : '')).join(' ');

test('the relay’s order holds', () => {
  const { stream } = make();
  stream.receive([prompt('b'), prompt('a')], 0);
  assert.equal(ids(stream.view(0, false, ALL)), 'b a');
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

test('a withdrawn card says so in its place, then leaves', () => {
  const { stream } = make();
  stream.receive([prompt('a'), prompt('b'), prompt('c')], 0);
  stream.view(0, false, ALL);
  // The relay may list it elsewhere once it is withdrawn, or not at all.
  stream.receive([prompt('a'), prompt('c'), prompt('b', { withdrawn: 5 })], 1000);
  assert.equal(ids(stream.view(1000, false, ALL)), 'a b:withdrawn c');
  assert.equal(ids(stream.view(1000 + LINGER_MS - 1, false, ALL)), 'a b:withdrawn c');
  assert.equal(ids(stream.view(1000 + LINGER_MS, false, ALL)), 'a c');
});

test('a withdrawn card never leaves under a finger', () => {
  const { stream } = make();
  stream.receive([prompt('a')], 0);
  stream.view(0, false, ALL);
  stream.receive([prompt('a', { withdrawn: 5 })], 1000);
  assert.equal(ids(stream.view(60_000, true, ALL)), 'a:withdrawn');
  assert.equal(ids(stream.view(60_001, false, ALL)), '');
});

test('a card the relay lists no more goes the same way, in other words', () => {
  const { stream } = make();
  stream.receive([prompt('a'), prompt('b')], 0);
  stream.view(0, false, ALL);
  stream.receive([prompt('b')], 1000);
  assert.equal(ids(stream.view(1000, false, ALL)), 'a:gone b');
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
  stream.receive([prompt('a')], 2000);
  assert.equal(ids(stream.view(2000, false, ALL)), 'a');
});

test('said stays in place, then moves below the open ones', () => {
  const { marks, stream } = make();
  stream.receive([prompt('a'), prompt('b')], 0);
  stream.view(0, false, ALL);
  marks.set('a@100', 'said', 1000);
  assert.equal(ids(stream.view(1000, false, ALL)), 'a:said b');
  assert.equal(ids(stream.view(1000 + LINGER_MS, true, ALL)), 'a:said b');
  assert.equal(ids(stream.view(1000 + LINGER_MS, false, ALL)), 'b a:said.');
  assert.equal(ids(stream.view(2000 + LINGER_MS, true, ALL)), 'b a:said.');
  marks.clear('a@100');
  assert.equal(ids(stream.view(3000 + LINGER_MS, false, ALL)), 'a b');
});

test('dropped leaves after its line was seen, and can be brought back', () => {
  const { marks, stream } = make();
  stream.receive([prompt('a'), prompt('b')], 0);
  marks.set('a@100', 'dropped', 0);
  assert.equal(ids(stream.view(1, false, ALL)), 'a:dropped b');
  assert.equal(ids(stream.view(LINGER_MS, false, ALL)), 'b');
  assert.deepEqual(stream.dropped(), ['a@100']);
  marks.clear('a@100');
  assert.equal(ids(stream.view(LINGER_MS, false, ALL)), 'a b');
});

test('an id used again after a restart of the relay is another prompt', () => {
  const { marks, stream } = make();
  stream.receive([prompt('a')], 0);
  marks.set('a@100', 'dropped', 0);
  stream.receive([prompt('a', { at: 900 })], 10_000);
  assert.equal(ids(stream.view(10_000, false, ALL)), 'a');
});

test('filters', () => {
  const show = prompt('s', { board: 0, kind: 'feed' });
  assert.equal(passes(prompt('a'), ALL), true);
  assert.equal(passes(prompt('a'), { board: 2, kind: '' }), false);
  assert.equal(passes(prompt('a'), { board: 1, kind: 'clock' }), false);
  assert.equal(passes(show, { board: 2, kind: '' }), true, 'what concerns the whole show passes every board');
});

test('how many a filter hides: open ones only', () => {
  const { marks, stream } = make();
  stream.receive([prompt('a'), prompt('b', { board: 2 }), prompt('c', { board: 2 }), prompt('d', { board: 2, withdrawn: 1 })], 0);
  marks.set('c@100', 'said', 0);
  assert.equal(stream.hidden(ALL), 0);
  assert.equal(stream.hidden({ board: 1, kind: '' }), 1);
  assert.equal(stream.hidden({ board: 0, kind: 'clock' }), 2);
});

test('counts leave out what ended, was said or was dropped', () => {
  const { marks, stream } = make();
  stream.receive([prompt('a', { priority: 'now' }), prompt('b'), prompt('c', { board: 2 }), prompt('d', { withdrawn: 1 })], 0);
  marks.set('b@100', 'said', 0);
  assert.deepEqual([...stream.counts()], [[1, { open: 1, now: 1 }], [2, { open: 1, now: 0 }]]);
});
