import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Marks } from '../panel/marks.js';

/** A store as the browser's: strings by key. */
const store = (held = {}) => ({ held, getItem: (k) => held[k] ?? null, setItem: (k, v) => void (held[k] = v) });

test('marks survive a reload', () => {
  const s = store();
  new Marks(s).set('a', 'said', 7);
  assert.deepEqual(new Marks(s).get('a'), { kind: 'said', at: 7 });
});

test('undo takes back the latest that matters', () => {
  const marks = new Marks(null);
  marks.set('a', 'said', 1);
  marks.set('b', 'dropped', 2);
  marks.set('a', 'dropped', 3);
  assert.equal(marks.undo((key) => key !== 'a'), 'b');
  assert.equal(marks.undo(() => true), 'a');
  assert.equal(marks.undo(() => true), undefined);
});

test('the number of marks is limited, the oldest go', () => {
  const marks = new Marks(null);
  for (let i = 0; i < 400; i++) marks.set(`k${i}`, 'said', i);
  assert.equal(marks.get('k99'), undefined);
  assert.equal(marks.get('k100')?.at, 100);
});

test('foreign text in the store is passed over', () => {
  for (const text of ['{', '{}', '[1,["a"],["b",{"kind":"x","at":1}]]', 'null']) {
    const marks = new Marks(store({ 'clocktell.panel.marks': text }));
    assert.equal(marks.undo(() => true), undefined, text);
  }
});

test('a full store does not stop the panel', () => {
  const full = { getItem: () => null, setItem: () => { throw new Error('full'); } };
  const marks = new Marks(full);
  marks.set('a', 'said', 1);
  assert.equal(marks.get('a')?.kind, 'said');
});
