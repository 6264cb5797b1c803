// How long marks stand is our own rule: they are meant for one position.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Aims } from '../scene/board/aims.js';

const board = (plies, fen = `position ${plies}`, number = 1) => ({ board: number, plies: Array(plies).fill({}), fen });
const marks = [{ kind: 'look', from: '', to: 'e8' }];
const caption = (more = {}) => ({ key: 'k', board: 1, at: 2000, marks, ...more });

/** A scene whose line opened at 1000, and a sentence that came when so many plies were played. */
function aiming(at = board(20), said = caption()) {
  const aims = new Aims();
  aims.opened(1000);
  aims.caption(said, at);
  return aims;
}

test('marks stand while the sentence does and nobody moves', () => {
  const aims = aiming();
  assert.deepEqual(aims.on(board(20)), marks);
  aims.caption(caption(), board(20));
  assert.deepEqual(aims.on(board(20)), marks);
  aims.caption(null, board(20));
  assert.deepEqual(aims.on(board(20)), []);
});

test('the next move ends them for good, also when it is taken back or put right', () => {
  const moved = aiming();
  assert.deepEqual(moved.on(board(21)), []);
  assert.deepEqual(moved.on(board(20)), []);
  assert.deepEqual(aiming().on(board(19)), []);
  assert.deepEqual(aiming().on(board(20, 'another position')), []);
});

test('only a sentence about this board points at it', () => {
  assert.deepEqual(aiming(board(20), caption({ board: 2 })).on(board(20)), []);
  assert.deepEqual(aiming(board(20), caption({ board: 0 })).on(board(20)), []);
  assert.deepEqual(aiming(null).on(board(20)), []);
});

test('a page that came after the sentence does not guess which position was meant', () => {
  assert.deepEqual(aiming(board(20), caption({ at: 999 })).on(board(20)), []);
});

test('marks seen coming outlast a lost line, if the board has not moved on', () => {
  for (const [plies, want] of [[20, marks], [21, []]]) {
    const aims = aiming();
    aims.opened(5000);
    assert.deepEqual(aims.on(board(plies)), want);
    aims.caption(caption(), board(plies));
    assert.deepEqual(aims.on(board(plies)), want);
  }
});

test('another sentence points anew', () => {
  const aims = aiming();
  aims.on(board(21));
  aims.caption(caption({ at: 3000 }), board(21));
  assert.deepEqual(aims.on(board(21)), marks);
});
