// What the panel draws of the reference, in a document made for tests; the frames are written by hand.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import './fakedom.mjs';

document.getElementById = () => ({}); // the figurines' sheet is taken to be there
let mouse = true;
globalThis.matchMedia = () => ({ matches: mouse });
const { KnownView } = await import('../panel/known.js');
const { AttachedLine } = await import('../panel/attached.js');

const REFERENCE = { games: 48213, depth: 60, counted: '', fault: '' };
const GAME = { white: 'Abenov, Temir', black: 'Brandvold, Signe', whiteRating: 2466, blackRating: 0, event: 'Spring Open', year: 2019, result: '1/2-1/2', went: 'Be7' };
const move = (san, games, more = {}) => ({ san, games, white: games, draws: 0, black: 0, bestRating: 2620, meanRating: 2500, lastYear: 2024, example: null, ...more });
const KNOWN = { games: 20, white: 8, draws: 8, black: 4, all: 20, moves: [move('Be7', 12), move('Bd6', 5), move('a5', 3)], last: GAME };
const FEN = 'r3kb1r/pp1n1pp1/1qp1pn2/3p4/2PP2P1/1QN1P2P/PP1B1PB1/R3K2R b KQkq - 3 12';
const plies = (n) => Array.from({ length: n }, (_, i) => ({ number: i + 1, san: i === 23 ? 'g5' : 'a3' }));
const board = (more = {}) => ({ board: 1, plies: plies(23), result: '*', fen: FEN, known: KNOWN, novelty: null, ...more });
const NEW = { plies: plies(24), known: { ...KNOWN, games: 0, all: 0, moves: [], last: null }, novelty: { ply: 24, all: 0, before: KNOWN } };

/** A view in a board's article. */
function make(open = true) {
  const view = new KnownView(1, open);
  const article = document.createElement('article');
  article.append(view.root);
  return { view, article, text: () => view.root.textContent.replace(/\s+/g, ' ') };
}
const drawn = (more, reference = REFERENCE) => {
  const { view, text } = make();
  view.update(board(more), reference);
  return text();
};

test('a known position: how it ended, what was played, the last game', () => {
  const text = drawn({});
  for (const part of ['Not new: 20 games reached this position', 'White won 8drawn 8Black won 4', 'What was played by Black on move 12', '12 games', 'ratings up to 2620, last in 2024', 'Abenov, Temir 2466 – Brandvold, Signe, ½–½', 'Spring Open 2019, then 12 …']) {
    assert.ok(text.includes(part), `${part} in: ${text}`);
  }
});

test('a new move: what came before it', () => {
  const text = drawn(NEW);
  for (const part of ['New: 12 … g5, 20 games came that far, none played it', 'How the 20 games ended', 'What was usual for Black on move 12', 'it went on 12 …']) {
    assert.ok(text.includes(part), `${part} in: ${text}`);
  }
});

test('games that end here, and where nothing more is held', () => {
  const text = drawn({ known: { ...KNOWN, moves: [], last: { ...GAME, went: '' } } });
  assert.ok(text.includes('No game is held beyond here'), text);
  assert.ok(text.includes('it ended there'), text);
});

test('which games count, and how many do not', () => {
  const counted = { ...REFERENCE, counted: 'both players 2400 or more' };
  assert.ok(drawn({ known: { ...KNOWN, all: 23 } }, counted).includes('Counted: both players 2400 or more; 3 games that are not counted came here too'));
  assert.ok(drawn({}, counted).endsWith('Counted: both players 2400 or more'));
});

test('three moves in full and the rest in a line, but no line for one alone', () => {
  const moves = ['a5', 'a6', 'b5', 'c5', 'dxc4'].map((san, i) => move(san, 9 - i));
  assert.ok(drawn({ known: { ...KNOWN, moves } }).includes('also c5 6, d×c4 5'));
  assert.ok(!drawn({ known: { ...KNOWN, moves: moves.slice(0, 4) } }).includes('also'));
});

test('without a reference nothing stands at the boards', () => {
  const { view } = make();
  view.update(board(), { ...REFERENCE, games: 0 });
  assert.equal(view.root.hidden, true);
  view.update(board(), REFERENCE);
  assert.equal(view.root.hidden, false);
});

test('the last answer stands for a moment while the next is looked up', (t) => {
  t.mock.method(performance, 'now', () => now);
  let now = 1000;
  const { view, text } = make();
  view.update(board({ known: null }), REFERENCE);
  assert.ok(text().includes('not looked up yet'), 'the first has no one before it');
  view.update(board(), REFERENCE);
  view.update(board({ plies: plies(24), known: null }), REFERENCE);
  view.tick();
  assert.ok(text().includes('Not new'), text());
  now = 1399;
  view.update(board({ plies: plies(24), known: null }), REFERENCE);
  view.tick();
  assert.ok(text().includes('Not new'), text());
  now = 1400;
  view.tick();
  assert.equal(text().trim(), 'not looked up yet');
});

test('it folds a while after the new move, never under a hand', () => {
  const { view, article } = make();
  const after = (n) => {
    view.update(board({ ...NEW, plies: plies(n) }), REFERENCE);
    view.tick();
    return view.unfolded;
  };
  assert.equal(after(24), true);
  article.states = [':hover'];
  assert.equal(after(30), true, 'a mouse rests on it');
  mouse = false;
  article.states = [':hover', ':active'];
  assert.equal(after(30), true, 'a finger is on it');
  article.states = [':hover'];
  assert.equal(after(30), false, 'where no mouse is, what was touched last counts as rested on for ever');
  mouse = true;
});

test('what somebody chose stands, in the opening and after it', () => {
  const { view } = make();
  const after = (more) => {
    view.update(board(more), REFERENCE);
    view.tick();
    return view.unfolded;
  };
  after({});
  view.unfold(false);
  assert.equal(after(NEW), false);
  assert.equal(after({ ...NEW, plies: plies(30) }), false);
  view.unfold(true);
  assert.equal(after({ ...NEW, plies: plies(40) }), true);
  const { view: folded } = make(false);
  folded.update(board(), REFERENCE);
  folded.tick();
  assert.equal(folded.unfolded, false, 'with many boards it starts folded');
});

test('what is missing, and how to get it', () => {
  const root = document.createElement('p');
  const attached = new AttachedLine(root);
  attached.update({ ...REFERENCE, games: 0 });
  assert.equal(root.textContent, 'No reference: whether a move is new cannot be told. Build one with clocktell reference build --out FILE GAMES.pgn, then name it as file under [reference].');
  attached.update({ ...REFERENCE, games: 0, fault: 'it is torn' });
  assert.equal(root.textContent, 'The reference cannot be used: it is torn');
  attached.update(REFERENCE);
  assert.equal(root.textContent, 'Reference 48\u202f213 games, as far as move 30');
});
