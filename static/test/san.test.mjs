// Forms of moves: the PGN standard, section 8.2.3 (SAN).
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { grouped, isWhite, moveNumber, parts, point, resultText } from '../lib/san.js';

/** Figurines written as <N>. */
const drawn = (san) => parts(san).map((p) => (p.piece ? `<${p.piece}>` : p.text)).join('');

test('piece letters become figurines and x the sign for a capture', () => {
  const cases = [
    ['e4', 'e4'],
    ['Nf3', '<N>f3'],
    ['Nxb5', '<N>×b5'],
    ['exd4', 'e×d4'],
    ['bxa8=Q+', 'b×a8=<Q>+'],
    ['e8=N', 'e8=<N>'],
    ['R1d2', '<R>1d2'],
    ['Qh4e1', '<Q>h4e1'],
    ['Qh4xe1#', '<Q>h4×e1#'],
    ['O-O-O', 'O-O-O'],
    ['Kd7', '<K>d7'],
    ['bxc3', 'b×c3'],
    ['', ''],
  ];
  for (const [san, want] of cases) assert.equal(drawn(san), want, san);
});

test('two plies make a move', () => {
  assert.deepEqual([1, 2, 3, 22].map(moveNumber), [1, 1, 2, 11]);
  assert.deepEqual([1, 2, 21].map(isWhite), [true, false, true]);
});

test('results in words of the score', () => {
  assert.equal(resultText('1-0'), '1–0');
  assert.equal(resultText('1/2-1/2'), '½–½');
  assert.equal(resultText('*'), '');
  assert.equal(point('0-1', 'black'), '1');
  assert.equal(point('1/2-1/2', 'white'), '½');
  assert.equal(point('*', 'white'), '');
});

test('gains are grouped by piece', () => {
  assert.deepEqual(grouped('QPPP'), [
    { piece: 'Q', count: 1 },
    { piece: 'P', count: 3 },
  ]);
  assert.deepEqual(grouped(''), []);
});
