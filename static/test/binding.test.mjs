import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Binding } from '../health/binding.js';
import { ARMED_MS, SLIP_MS, Twice } from '../surface/twice.js';

const ply = (n) => ({ ply: n, label: `ply ${n}` });

test('a text is meant for the ply that was there when the typing began', () => {
  const b = new Binding();
  assert.deepEqual(b.target(ply(3)), ply(3));
  b.typed('N', ply(3));
  b.typed('Nf', ply(3));
  b.heard('Nf', ply(4));
  assert.deepEqual(b.target(ply(4)), ply(3));
  assert.ok(b.isPast(ply(4)));
  b.typed(' ', ply(4));
  assert.ok(!b.isPast(ply(4)));
  b.typed('e', ply(4));
  assert.deepEqual(b.target(ply(5)), ply(4));
});

test('another move on the same ply is another target', () => {
  const b = new Binding();
  b.typed('R', { ply: 4, label: '2...Rd8' });
  assert.ok(!b.isPast({ ply: 4, label: '2...Rd8' }));
  assert.ok(b.isPast({ ply: 4, label: '2...Re8' }));
});

test('typed after an entry, before the relay has told of it: meant for the ply behind', () => {
  const b = new Binding();
  b.typed('Nf3', ply(3));
  b.sent();
  b.done();
  b.typed('N', ply(3));
  assert.ok(!b.isPast(ply(3)));
  b.heard('Nc', ply(4));
  assert.deepEqual(b.target(ply(4)), ply(4));
  b.heard('Nc6', ply(5));
  assert.ok(b.isPast(ply(5)), 'it moved on with the feed');
});

test('when the relay told of the entry before its answer came, nothing is left open', () => {
  const b = new Binding();
  b.typed('Nf3', ply(3));
  b.sent();
  b.heard('Nf3', ply(4));
  b.done();
  b.typed('N', ply(4));
  b.heard('Nc', ply(5));
  assert.deepEqual(b.target(ply(5)), ply(4), 'a move of the feed took the text over');
});

test('a second press does it', () => {
  const t = new Twice();
  assert.equal(t.press('back', 1000), false);
  assert.equal(t.armed(1000), 'back');
  assert.equal(t.press('back', 1000 + SLIP_MS), true);
  assert.equal(t.armed(1000 + SLIP_MS), '');
});

test('what is no second press', () => {
  for (const [why, ...presses] of [
    ['a double click', ['a', 0], ['a', SLIP_MS - 1]],
    ['another thing', ['a', 0], ['b', 1000]],
    ['too late', ['a', 0], ['a', ARMED_MS]],
    ['after a third thing', ['a', 0], ['b', 1000], ['a', 2000]],
  ]) {
    const t = new Twice();
    const done = presses.map(([key, at]) => t.press(key, at + 1000));
    assert.deepEqual(done, presses.map(() => false), why);
  }
});

test('a dropped press counts no more, and a slip does not disarm', () => {
  const t = new Twice();
  t.press('a', 1000);
  t.press('a', 1010);
  assert.equal(t.press('a', 2000), true);
  t.press('a', 3000);
  t.drop();
  assert.equal(t.press('a', 4000), false);
});
