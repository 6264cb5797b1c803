// The starting position and the three after it are the worked example of FEN in
// the PGN standard, section 16.1.4. The other positions are made up.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { change, pieces, placement, spoken } from '../lib/placement.js';

const START = 'rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1';
const E4 = 'rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq e3 0 1';
const C5 = 'rnbqkbnr/pp1ppppp/8/2p5/4P3/8/PPPP1PPP/RNBQKBNR w KQkq c6 0 2';

const step = (a, b) => change(pieces(a), pieces(b));

test('a placement field is read', () => {
  const map = pieces(START);
  assert.equal(map.size, 32);
  assert.equal(map.get('e1'), 'K');
  assert.equal(map.get('d8'), 'q');
  assert.equal(placement(E4), 'rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR');
});

test('bad input gives what could be read', () => {
  assert.equal(pieces('').size, 0);
  assert.equal(pieces('kz9K7/9p').get('a8'), 'k');
});

test('a move is one slide', () => {
  assert.deepEqual(step(START, E4), { slides: [{ from: 'e2', to: 'e4', piece: 'P' }], gone: [], fresh: [], cut: false });
  assert.equal(step(START, C5).slides.length, 2);
});

test('a capture slides one piece and takes one away', () => {
  const got = step('8/8/8/3p4/4P3/8/8/8', '8/8/8/3P4/8/8/8/8');
  assert.deepEqual(got, { slides: [{ from: 'e4', to: 'd5', piece: 'P' }], gone: ['d5'], fresh: [], cut: false });
});

test('en passant takes the pawn beside', () => {
  const got = step('8/8/8/3pP3/8/8/8/8', '8/8/3P4/8/8/8/8/8');
  assert.deepEqual(got.slides, [{ from: 'e5', to: 'd6', piece: 'P' }]);
  assert.deepEqual(got.gone, ['d5']);
});

test('castling slides king and rook', () => {
  const got = step('8/8/8/8/8/8/8/4K2R', '8/8/8/8/8/8/8/5RK1');
  assert.deepEqual(got.slides.map((s) => s.piece + s.from + s.to).sort(), ['Ke1g1', 'Rh1f1']);
});

test('a pawn that promotes slides to its new piece', () => {
  const got = step('r7/1P6/8/8/8/8/8/8', 'Q7/8/8/8/8/8/8/8');
  assert.deepEqual(got, { slides: [{ from: 'b7', to: 'a8', piece: 'Q' }], gone: ['a8'], fresh: [], cut: false });
});

test('many squares at once are a cut', () => {
  assert.equal(step(START, '4k3/8/8/8/8/8/8/4K3').cut, true);
});

test('a position in words', () => {
  assert.equal(spoken('4k3/p7/8/8/8/8/8/R3K2R'), 'White: king e1, rooks a1 h1. Black: king e8, pawn a7.');
});
