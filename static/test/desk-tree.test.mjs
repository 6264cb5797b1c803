import assert from 'node:assert/strict';
import { test } from 'node:test';
import { branches, endOf, lineTo, nameOf } from '../desk/tree.js';

/** A move of a side line, named by its id. */
const line = (id, after, ply, more = {}) => ({ id, after, ply, step: { number: 0, san: `m${id}`, from: '', to: '', fen: '' }, name: '', adrift: false, ...more });
const told = (lines) => branches(lines).map((b) => [b.depth, b.ply, b.moves.map((m) => m.id)]);

test('without side lines there is no tree', () => assert.deepEqual(branches([]), []));

test('moves that follow each other are one line', () => {
  assert.deepEqual(told([line(1, 0, 20), line(2, 1, 20), line(3, 2, 20)]), [[0, 20, [1, 2, 3]]]);
});

test('what was shown in place of a move follows its line, one deeper', () => {
  const lines = [line(1, 0, 20), line(2, 1, 20), line(3, 2, 20), line(4, 1, 20), line(5, 4, 20), line(6, 4, 20), line(7, 2, 20)];
  assert.deepEqual(told(lines), [[0, 20, [1, 2, 3]], [1, 20, [4, 5]], [2, 20, [6]], [1, 20, [7]]]);
});

test('lines come in the order in which they leave the game', () => {
  assert.deepEqual(told([line(1, 0, 30), line(2, 0, 10), line(3, 0, 30)]), [[0, 10, [2]], [0, 30, [1]], [0, 30, [3]]]);
});

test('every move stands in the tree once', () => {
  const lines = Array.from({ length: 60 }, (_, i) => line(i + 1, i === 0 ? 0 : Math.floor((i * 7) / 9), 5));
  const ids = branches(lines).flatMap((b) => b.moves.map((m) => m.id)).sort((a, b) => a - b);
  assert.deepEqual(ids, lines.map((l) => l.id));
});

test('a line bears the name of the move it begins with, and is adrift with any of its moves', () => {
  const lines = [line(1, 0, 8, { name: 'The quiet way' }), line(2, 1, 8, { adrift: true }), line(3, 1, 8, { name: 'Or this' })];
  assert.deepEqual(branches(lines).map((b) => [b.name, b.adrift]), [['The quiet way', true], ['Or this', false]]);
  assert.deepEqual([1, 2, 3, 9].map((id) => nameOf(lines, id)), ['The quiet way', 'The quiet way', 'Or this', '']);
});

test('the way to a move, and the end of its line', () => {
  const lines = [line(1, 0, 8), line(2, 1, 8), line(3, 2, 8), line(4, 1, 8)];
  assert.deepEqual(lineTo(lines, 3).map((m) => m.id), [1, 2, 3]);
  assert.deepEqual(lineTo(lines, 4).map((m) => m.id), [1, 4]);
  assert.deepEqual(lineTo(lines, 0), []);
  assert.deepEqual([endOf(lines, 1)?.id, endOf(lines, 4)?.id, endOf(lines, 9)], [3, 4, undefined]);
});
