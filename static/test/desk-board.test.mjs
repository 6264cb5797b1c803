// Where squares lie, and which men a FEN puts on them, is the board's: FIDE Laws of Chess, article 2, and the PGN standard, 16.1.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { neighbour, rows, squareAt, squareWords } from '../desk/squares.js';
import { nearest, railWindow } from '../desk/railwindow.js';
import { pieces } from '../lib/placement.js';

const START = 'rnbqkbnr/pppppppp/8/8/8/5N2/PPPPPPPP/RNBQKB1R b KQkq - 1 1';

test('squares are told with who stands there, and what can be done', () => {
  const men = pieces(START);
  assert.equal(squareWords('f3', men), 'white knight on f3');
  assert.equal(squareWords('d8', men), 'black queen on d8');
  assert.equal(squareWords('e4', men), 'e4, empty');
  assert.equal(squareWords('b8', men, { held: 'b8' }), 'black knight on b8, picked up');
  assert.equal(squareWords('c6', men, { targets: new Set(['c6']) }), 'c6, empty, can be gone to');
  assert.equal(squareWords('f3', men, { targets: new Set(['f3']) }), 'white knight on f3, can be taken');
});

test('marks are told where they end', () => {
  const marks = [{ kind: 'danger', from: 'c5', to: 'f2' }, { kind: 'look', from: '', to: 'f2' }, { kind: 'weak', from: '', to: 'e4' }, { kind: 'dance', from: '', to: 'e4' }];
  assert.equal(squareWords('f2', pieces(START), { marks }), 'white pawn on f2, marked: a threat from c5, marked: to look at');
  assert.equal(squareWords('e4', pieces(START), { marks }), 'e4, empty, marked: weak');
});

test('the board is read from the upper left, from either side', () => {
  assert.deepEqual([rows(false)[0][0], rows(false)[7][7], rows(true)[0][0], rows(true)[7][7]], ['a8', 'h1', 'h1', 'a8']);
  for (const turned of [false, true]) assert.equal(new Set(rows(turned).flat()).size, 64);
});

test('arrows go as they point, and stop at the edge', () => {
  assert.deepEqual(['ArrowUp', 'ArrowDown', 'ArrowLeft', 'ArrowRight'].map((k) => neighbour('e4', k, false)), ['e5', 'e3', 'd4', 'f4']);
  assert.deepEqual(['ArrowUp', 'ArrowDown', 'ArrowLeft', 'ArrowRight'].map((k) => neighbour('e4', k, true)), ['e3', 'e5', 'f4', 'd4']);
  assert.deepEqual([neighbour('a8', 'ArrowUp', false), neighbour('a8', 'ArrowLeft', false), neighbour('h1', 'ArrowDown', false)], ['a8', 'a8', 'h1']);
  assert.equal(neighbour('e4', 'a', false), null);
});

test('a point of the board is on a square, or beside it', () => {
  assert.deepEqual([squareAt(0, 0, false), squareAt(0.999, 0.999, false), squareAt(0.56, 0.56, false), squareAt(0, 0, true)], ['a8', 'h1', 'e4', 'h1']);
  for (const [x, y] of [[-0.01, 0.5], [1, 0.5], [0.5, 1.01], [0.5, -0.2]]) assert.equal(squareAt(x, y, false), '');
});

test('the rail shows the end of the game, or has the place in its middle', () => {
  assert.deepEqual(railWindow(3, 3, 5), [0, 1, 2, 3]);
  assert.deepEqual(railWindow(20, 20, 5), [16, 17, 18, 19, 20]);
  assert.deepEqual(railWindow(20, 17, 5), [16, 17, 18, 19, 20], 'it stays while the place is in sight');
  assert.deepEqual(railWindow(20, 10, 5), [8, 9, 10, 11, 12]);
  assert.deepEqual(railWindow(20, 0, 5), [0, 1, 2, 3, 4]);
  for (let room = 1; room < 9; room++) {
    for (let at = 0; at <= 20; at++) {
      const shown = railWindow(20, at, room);
      assert.ok(shown.includes(at) && shown.length === room && shown[0] >= 0 && shown[room - 1] <= 20, `${at} of ${room}: ${shown}`);
    }
  }
});

test('a point of the tell line is at the nearest move', () => {
  const joints = [0, 10, 14, 80];
  assert.deepEqual([-5, 4, 6, 13, 46, 48, 500].map((x) => nearest(joints, x)), [0, 0, 1, 2, 2, 3, 3]);
});
