// Which cards stand on the panel, in which order. The figures are the panel's own
// rules (urgent before new; a card that ends stays 6 s; nothing moves while somebody is at the panel).
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
  assert.equal(ids(stream.view(1000, true, ALL)), 'a:withdrawn b c', 'in its place while somebody is at the panel');
  assert.equal(ids(stream.view(1000, false, ALL)), 'b c a:withdrawn.');
  assert.equal(ids(stream.view(1000 + LINGER_MS - 1, false, ALL)), 'b c a:withdrawn.');
  assert.equal(ids(stream.view(1000 + LINGER_MS, false, ALL)), 'b c');
});

test('what is said stands below what ended', () => {
  const { marks, stream } = make();
  stream.receive([prompt('a'), prompt('b'), prompt('c')], 0);
  marks.set('a@100', 'said', 0);
  stream.view(LINGER_MS, false, ALL);
  stream.receive([prompt('a'), prompt('b', { withdrawn: 5 }), prompt('c')], LINGER_MS);
  assert.equal(ids(stream.view(LINGER_MS, false, ALL)), 'c b:withdrawn. a:said.');
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
  assert.equal(ids(stream.view(1000, false, ALL)), 'b a:gone.');
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
  assert.equal(ids(stream.view(1000, false, ALL)), 'a:withdrawn.');
  stream.receive([prompt('a')], 2000);
  assert.equal(ids(stream.view(2000, true, ALL)), 'a', 'large again at once');
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
