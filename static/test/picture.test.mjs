// When steps are played is told by overlay/wire/wire.go ("a move every StepMs from At on"); how moves are counted
// when somebody says "two moves behind" is common practice, no source.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { airWords, inPlace, toMove } from '../scene/airwords.js';
import { movesBehind } from '../lib/san.js';
import { isStep, pictureOf, questionOf, stepsShown } from '../scene/picture.js';

const step = (number, san, fen = `after ${san}`) => ({ number, san, from: 'a1', to: 'a2', fen });
const LINE = [step(4, 'Nc6'), step(5, 'Bb5'), step(6, 'a6')];
const board = (plies, more = {}) => ({
  board: 1, fen: 'live', correction: null, plies: Array.from({ length: plies }, (_, i) => ({ number: i + 1, san: `m${i + 1}`, from: 'e2', to: 'e4' })), ...more,
});
const explained = (more = {}) => ({
  challenge: null,
  explained: { board: 1, way: 'follow', ply: 3, fen: 'root', last: step(3, 'Nf3'), moves: LINE, name: '', at: 1000, stepMs: 500, live: false, turned: false, marks: [], ...more },
});
const asked = (more = {}) => ({
  explained: null,
  challenge: { id: 1, board: 1, state: 'asked', number: 4, fen: '8/8/8/8/8/8/8/8 b - - 0 2', last: null, turned: false, question: 'Which?', asked: 0, ends: 9, hints: [], answer: [], revealed: 0, stepMs: 500, ...more },
});

test('a line is played from the position before it, a move for every step of time, and stands at its end', () => {
  assert.deepEqual([-50, 0, 499, 500, 999, 1000, 1499, 1500, 1e9].map((gone) => stepsShown(1000, 500, 3, 1000 + gone)), [0, 0, 0, 1, 1, 2, 2, 3, 3]);
  assert.equal(stepsShown(0, 0, 3, 5), 3);
  const whole = explained({ way: 'whole' });
  const at = (now) => pictureOf(board(3), whole, now);
  assert.deepEqual([at(1000).fen, at(1000).last.san, at(1000).wait], ['root', 'Nf3', 500]);
  assert.deepEqual([at(1700).fen, at(1700).last.san, at(1700).wait], ['after Nc6', 'Nc6', 300]);
  assert.deepEqual([at(9999).fen, at(9999).wait], ['after a6', Infinity]);
});

test('what viewers follow is shown at once, what is text or only marks leaves the board live', () => {
  assert.deepEqual([pictureOf(board(9), explained(), 0).fen, pictureOf(board(9), explained(), 0).state], ['after a6', 'explained']);
  assert.equal(pictureOf(board(9), explained({ moves: [] }), 0).fen, 'root');
  for (const air of [explained({ way: 'text' }), explained({ live: true }), explained({ board: 2 }), { explained: null, challenge: null }, null]) {
    const live = pictureOf(board(9), air, 0);
    assert.deepEqual([live.fen, live.state, live.ply, live.last.san], ['live', 'live', 9, 'm9']);
  }
});

test('a question stands before all else, and shows nothing of its answer until that is revealed', () => {
  const both = { ...explained(), challenge: asked({ answer: LINE }).challenge };
  const before = pictureOf(board(3), both, 1e9);
  assert.deepEqual([before.state, before.steps, before.shown, before.ply], ['asked', [], 0, 3]);
  const air = asked({ state: 'revealed', answer: LINE, revealed: 1000 });
  assert.deepEqual([1000, 1500, 2600].map((now) => pictureOf(board(3), air, now).shown), [0, 1, 3]);
  assert.equal(questionOf(air.challenge, null, 1000).ply, 3); // of a board that has not come
});

test('men move from a picture to its neighbours, forth and back, and jump to all others', () => {
  const live = (plies, more) => pictureOf(board(plies, more), null, 0);
  const line = (count, ply = 3) => pictureOf(board(9), explained({ moves: LINE.slice(0, count), ply }), 0);
  const near = [[live(3), live(4)], [live(3), live(5)], [live(4), live(3)], [live(3), line(1)], [line(1), line(2)], [line(3), line(2)], [line(2), line(0)], [line(1), live(3)], [live(4), line(1)]];
  const far = [[null, live(3)], [live(3), live(6)], [live(9), line(1)], [line(3), line(0)], [line(3), live(3)], [line(1), live(5)], [live(3), live(4, { correction: { at: 7 } })], [live(3), live(4, { board: 2 })]];
  for (const [i, [a, b]] of near.entries()) assert.ok(isStep(a, b), `near ${i}`);
  for (const [i, [a, b]] of far.entries()) assert.ok(!isStep(a, b), `far ${i}`);
  const other = { ...line(2), steps: [step(4, 'Nf6'), step(5, 'd4')] };
  assert.ok(!isStep(line(2), other)); // two back and two forth
});

test('moves behind are counted as people count them', () => {
  assert.deepEqual([[3, 3], [4, 3], [5, 3], [6, 3], [7, 3], [2, 3]].map(([plies, ply]) => movesBehind(plies, ply)), [0, 1, 1, 2, 2, 0]);
});

test('the strip says what stands in place of the game, in the language of the show', () => {
  const told = (air, plies, lang = 'en', now = 0) => inPlace(board(plies), air, pictureOf(board(plies), air, now), airWords(lang));
  const sans = (t) => t.steps.map((s) => s.san);
  assert.equal(told(null, 5), null);
  assert.equal(told(explained({ live: true }), 5), null);
  const line = told(explained(), 3);
  assert.deepEqual([line.label, line.note, sans(line), line.last, line.whole], ['Side line', '', ['Nc6', 'Bb5', 'a6'], true, false]);
  assert.deepEqual([told(explained({ name: 'Old way' }), 4).label, told(explained(), 4).note, told(explained(), 7).note], ['Old way', '1 move behind', '2 moves behind']);
  const back = told(explained({ moves: [] }), 7, 'de-CH');
  assert.deepEqual([back.label, back.note, sans(back)], ['Rückblick', '2 Züge zurück', ['m1', 'm2', 'm3']]);
  const text = told(explained({ way: 'text' }), 7);
  assert.deepEqual([text.note, text.of.map((p) => p.san), text.last, text.whole, sans(text).length], ['instead of', ['m4'], false, true, 3]);
  const next = told(explained({ way: 'text' }), 3, 'de');
  assert.deepEqual([next.note, next.of], ['nicht gespielt', []], 'it begins where the game stands');
  assert.deepEqual(told(asked(), 3).label + ', ' + told(asked(), 3).note, 'Black to move, move 2');
  const twice = told(asked({ question: 'Black to move: which piece?' }), 3);
  assert.deepEqual([twice.label, twice.note], ['Move 2', ''], 'the question says whose move it is');
  const answer = told(asked({ state: 'revealed', answer: LINE, revealed: 1000 }), 3, 'de', 2100);
  assert.deepEqual([answer.label, sans(answer)], ['Die Lösung', ['Nc6', 'Bb5']]);
  assert.equal(toMove(airWords('de'), 'x w - -'), 'Weiß am Zug');
  assert.deepEqual(Object.keys(airWords('de')), Object.keys(airWords('en')));
});
