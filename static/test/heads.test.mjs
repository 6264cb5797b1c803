import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Heads } from '../surface/heads.js';

globalThis.window ??= globalThis;
const board = (board, white, black, result = '*') => ({ board, white: { short: white }, black: { short: black }, result });

/** Heads, what they told last in a line, and how often they told. */
function bench() {
  const told = [];
  const heads = new Heads((all) => told.push(all.map((h) => `${h.board} ${h.white}-${h.black} ${h.result}`).join(', ')));
  return { heads, told };
}

test('before a board has come it has no names, then those of its frame', (t) => {
  t.mock.timers.enable({ apis: ['setTimeout'] });
  const { heads, told } = bench();
  heads.show({ boards: 2 });
  assert.deepEqual(told, ['1 - *, 2 - *']);
  heads.board(board(2, 'Quaas', 'Rimaru'));
  heads.board(board(1, 'Orsolic', 'Pellinen', '1-0'));
  assert.deepEqual(told.slice(1), ['1 Orsolic-Pellinen 1-0, 2 Quaas-Rimaru *'], 'at once, when the last has come');
  t.mock.timers.tick(1000);
  assert.equal(told.length, 2);
});

test('while boards are still to come, those that have are not told of one by one', (t) => {
  t.mock.timers.enable({ apis: ['setTimeout'] });
  const { heads, told } = bench();
  heads.show({ boards: 4 });
  heads.board(board(1, 'Orsolic', 'Pellinen'));
  heads.board(board(2, 'Quaas', 'Rimaru'));
  t.mock.timers.tick(100);
  assert.equal(told.length, 1);
  t.mock.timers.tick(500);
  assert.deepEqual(told.slice(1), ['1 Orsolic-Pellinen *, 2 Quaas-Rimaru *, 3 - *, 4 - *']);
  heads.show({ boards: 5 });
  heads.board(board(3, 'Sabel', 'Tovik'));
  heads.board(board(4, 'Uhl', 'Vasko'));
  heads.board(board(5, 'Wenz', 'Yrjo'));
  assert.equal(told.length, 4);
});

test('results of one packet are told together', (t) => {
  t.mock.timers.enable({ apis: ['setTimeout'] });
  const { heads, told } = bench();
  heads.show({ boards: 2 });
  for (const result of ['*', '1-0']) for (const n of [1, 2]) heads.board(board(n, 'Orsolic', 'Pellinen', result));
  t.mock.timers.tick(100);
  assert.deepEqual(told.slice(2), ['1 Orsolic-Pellinen 1-0, 2 Orsolic-Pellinen 1-0']);
});

test('only a name or a result is news', (t) => {
  t.mock.timers.enable({ apis: ['setTimeout'] });
  const { heads, told } = bench();
  heads.show({ boards: 1 });
  heads.board(board(1, 'Orsolic', 'Pellinen'));
  t.mock.timers.tick(100);
  heads.board(board(1, 'Orsolic', 'Pellinen'));
  t.mock.timers.tick(100);
  assert.equal(told.length, 2);
  for (const news of [board(1, 'Orsolic', 'Pellinen', '0-1'), board(1, 'Orsolic', 'Pelinen', '0-1'), board(1, 'Orsolik', 'Pelinen', '0-1')]) {
    heads.board(news);
    t.mock.timers.tick(100);
  }
  assert.deepEqual(told.slice(2), ['1 Orsolic-Pellinen 0-1', '1 Orsolic-Pelinen 0-1', '1 Orsolik-Pelinen 0-1']);
});

test('of boards that are no longer there nothing is kept', () => {
  const { heads, told } = bench();
  heads.show({ boards: 2 });
  heads.board(board(2, 'Quaas', 'Rimaru'));
  for (const boards of [1, 2, 0]) heads.show({ boards });
  assert.deepEqual(told.slice(1), ['1 - *', '1 - *, 2 - *', '']);
});
