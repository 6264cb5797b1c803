import assert from 'node:assert/strict';
import { test } from 'node:test';
import './fakedom.mjs';
import { chancesWords, depthWords, headWords, isVerdict, lineName, opening, opinionAt, otherAt, whyNone } from '../desk/opinionwords.js';
import { Keymap } from '../desk/keymap.js';
import { engineWords } from '../health/engine.js';
import { tileWords } from '../panel/opinion.js';

const moves = ['Nf6', 'd3', 'Bc5', 'c3', 'O-O', 'Nbd2', 'd6', 'h3', 'a6', 'Bb3', 'Ba7', 'O-O'].map((san, i) => ({ number: 6 + i, san }));
const line = (more = {}) => ({ score: '+0.62', words: 'White is slightly better, by half a pawn', side: 'white', exact: true, wdl: { win: 312, draw: 610, loss: 78 }, moves, ...more });
const opinion = (more = {}) => ({ board: 1, ply: 5, move: 0, fen: '', depth: 18, final: false, words: '', lines: [line()], engine: 'Sounding 3', ...more });
const opinions = (more = {}) => ({ state: 'ready', engine: 'Sounding 3', text: '', kept: 0, desk: opinion(), other: null, differ: false, boards: [opinion()], ...more });
const place = (more = {}) => ({ board: 1, live: true, ply: 5, move: 0, fen: '', last: null, ...more });
const engine = (more = {}) => ({ state: 'ready', name: 'Sounding 3', text: '', since: 1000, board: 2, waiting: 0, restarts: 0, last: '', ...more });

test('an opinion is of one place only', () => {
  assert.notEqual(opinionAt(opinions(), place()), null);
  for (const other of [{ board: 2 }, { ply: 6 }, { move: 4 }]) assert.equal(opinionAt(opinions(), place(other)), null, JSON.stringify(other));
  assert.equal(opinionAt(opinions({ desk: null }), place()), null);
});

test('without lines it says why', () => {
  const at = (more = {}, moves = ['a4']) => ({ place: place(more), moves });
  assert.equal(whyNone(opinions(), at()), '');
  assert.match(whyNone(opinions(), at({ ply: 6 })), /^Looking/);
  assert.match(whyNone(opinions(), at({ ply: 6 }, [])), /No move/);
  assert.match(whyNone(opinions({ kept: 1 }), at()), /asked/);
  assert.equal(whyNone(opinions({ kept: 2 }), at()), '');
  const fault = { state: 'fault', text: 'It does not answer.' };
  assert.equal(whyNone(opinions(fault), at({ ply: 6 })), fault.text);
  assert.equal(whyNone(opinions(fault), at()), '', 'what it has said stays');
  assert.equal(headWords(opinions(fault), opinion()), 'Sounding 3, 18 plies deep so far, not searching now');
  assert.equal(headWords(opinions(), null), 'Sounding 3');
});

test('another engine agrees, or does not, on the same place only', () => {
  const other = opinion({ engine: 'Leadline 2', words: 'about level' });
  assert.equal(otherAt(opinions({ other }), place()).words, 'Leadline 2 agrees, more or less: about level');
  assert.equal(otherAt(opinions({ other, differ: true }), place()).words, 'Leadline 2 is of another mind: about level');
  assert.deepEqual([otherAt(opinions({ other }), place({ ply: 6 })), otherAt(opinions(), place())], [{ opinion: null, words: '' }, { opinion: null, words: '' }]);
});

test('a line is opened whole, from where it was thought of', () => {
  const of = opinion({ ply: 5, move: 9 });
  assert.deepEqual(opening(of, line(), 3), { text: 'Nf6 d3 Bc5 c3 O-O Nbd2 d6 h3 a6 Bb3', from: 'begin', ply: 5, move: 9, steps: 3 });
});

test('figures are the engine\'s, and said so', () => {
  assert.equal(chancesWords(line()), 'Of 100 such games the engine expects White to win 31 and Black 8, the rest drawn.');
  assert.equal(chancesWords(line({ wdl: null })), '');
  assert.deepEqual([depthWords(opinion()), depthWords(opinion({ depth: 1, final: true }))], ['18 plies deep so far', '1 ply deep']);
  assert.equal(lineName(line({ moves: moves.slice(0, 2) }), 1), ', line 2: White is slightly better, by half a pawn; 3…Nf6 4.d3');
});

test('the verdict on the air is told from other sentences', () => {
  assert.deepEqual([null, { kind: 'engine', key: '' }, { kind: 'engine', key: 'x' }, { kind: '', key: '' }].map(isVerdict), [false, true, false, false]);
});

test('the key of the opinion is the page\'s own', () => {
  const keys = new Keymap([{ name: 'turn', group: '', title: 'Turn', does: '', key: 't', fields: [] }], null);
  assert.match(keys.assign('turn', 's'), /page itself/);
  assert.equal(keys.assign('turn', 'Shift+S'), '');
});

test('a tile has the opinion on where the board stands now, or why not', () => {
  const board = { board: 1, plies: [1, 2, 3, 4, 5] };
  assert.equal(tileWords(opinions(), board).opinion.depth, 18);
  assert.deepEqual(tileWords(opinions(), { ...board, plies: [1, 2, 3, 4, 5, 6] }), { opinion: null, text: 'looking' });
  assert.match(tileWords(opinions({ kept: 1 }), board).text, /kept back/);
  assert.match(tileWords(opinions({ state: 'fault' }), board).text, /no opinion/);
});

test('health says how the engine does, and what to do', () => {
  assert.deepEqual(engineWords(engine(), 2000), { look: 'kept', word: 'Sounding 3', text: 'searching board 2; ready just now' });
  const after = engine({ board: 0, waiting: 1, restarts: 2, last: 'silent' });
  assert.equal(engineWords(after, 131_000).text, 'nothing to search; 1 position waiting; ready 2:10 ago; restarted 2 times; last fault: silent');
  assert.match(engineWords(engine({ board: 0, since: 0 }), 0).text, /^getting ready$/);
  assert.deepEqual(engineWords(engine({ state: 'fault', text: 'It is not there: give its path.' }), 0), { look: 'failing', word: 'Sounding 3 gives no opinion', text: 'It is not there: give its path.' });
  assert.equal(engineWords(engine({ state: 'none', name: '' }), 0).look, 'off');
});
