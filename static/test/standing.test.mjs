// Where a board stands to the reference. The rules are our own; RARE and NEWS_PLIES follow
// rareGames and noveltyPlies in relay/knownalerts.go.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { STAND, answer, didBest, endings, gameFacts, nextPly, numbered, playedBy, standOf, subject } from '../panel/standing.js';
import { referenceWords } from '../surface/reference.js';
import { thousands } from '../lib/san.js';

const REFERENCE = { games: 48213, depth: 60, counted: '', fault: '' };
const known = (games, more = {}) => ({ games, white: 0, draws: 0, black: 0, all: games, moves: [], last: null, ...more });
const plies = (n, from = 1) => Array.from({ length: n }, (_, i) => ({ number: from + i, san: `m${from + i}` }));
const FEN = 'rnbqkbnr/pppppppp/8/8/3P4/8/PPP1PPPP/RNBQKBNR b KQkq - 0 12';
const board = (more = {}) => ({ plies: plies(23), result: '*', fen: FEN, known: null, novelty: null, ...more });
const line = (b, reference = REFERENCE) => {
  const { word, ply, san, text } = answer(b, reference);
  return [word, ply ? `${numbered(ply)} ${san}` : '', text].filter(Boolean).join(' | ');
};
const novelty = (games, more = {}) => ({ ply: 24, all: 0, before: known(games), ...more });

test('nothing is said where nothing is looked up', () => {
  for (const reference of [null, { ...REFERENCE, games: 0 }, { ...REFERENCE, fault: 'it is torn' }]) {
    assert.equal(standOf(board({ known: known(3) }), reference), STAND.NONE);
  }
});

test('the answer before anybody asks', () => {
  for (const [b, want] of [
    [board(), 'not looked up yet'],
    [board({ known: known(214) }), 'Not new: | 214 games reached this position'],
    [board({ known: known(6) }), 'Not new: | 6 games reached this position'],
    [board({ known: known(5) }), 'Rare: | only 5 games reached this position'],
    [board({ known: known(1) }), 'Rare: | only one game reached this position'],
    [board({ known: known(48001), plies: [] }), 'Start: | 48\u202f001 games began here'],
    [board({ known: known(0) }), 'Not in the reference: | this game began from another position than its games'],
    [board({ known: known(0, { all: 3 }) }), 'Not in the reference: | none of those counted reached this position; 3 games that are not counted did'],
    [board({ plies: plies(60) }), 'not looked up yet'],
    [board({ plies: plies(61) }), 'Beyond the reference: | it ends after move 30'],
    [board({ known: known(9), plies: plies(61) }), 'Not new: | 9 games reached this position'],
  ]) {
    assert.equal(line(b), want);
  }
});

test('a new move, while it is news and after', () => {
  const at = (last, more = {}) => line(board({ plies: plies(last), known: known(0), novelty: novelty(20), ...more }));
  assert.equal(at(24), 'New: | 12 … m24 | 20 games came that far, none played it');
  assert.equal(at(29), 'New: | 12 … m24 | 20 games came that far, none played it');
  assert.equal(at(30), 'Left the reference with | 12 … m24 | 20 games had come that far');
  assert.equal(at(25, { known: null }), at(25), 'also while the next position is being looked up');
  assert.equal(at(70, { known: null }), at(30), 'and beyond the depth of the reference');
  assert.equal(at(24, { result: '1-0' }), at(30), 'a game that is over has no news');
  assert.equal(at(24, { novelty: novelty(1) }), 'New: | 12 … m24 | the one game that came that far went on otherwise');
});

test('a move that only games have that are not counted', () => {
  const at = (all) => line(board({ plies: plies(24), known: known(0, { all }), novelty: novelty(20, { all }) }));
  assert.equal(at(3), 'New among those counted: | 12 … m24 | 20 games came that far; 3 games that are not counted have it');
  assert.equal(at(1), 'New among those counted: | 12 … m24 | 20 games came that far; one game that is not counted has it');
});

test('a game may come back into the reference', () => {
  const b = board({ plies: plies(26), known: known(4), novelty: novelty(20) });
  assert.equal(line(b), 'Back in the reference: | 4 games came here by other moves');
  assert.equal(subject(b, REFERENCE).known.games, 4);
});

test('games from another move number count from there', () => {
  const b = board({ plies: plies(3, 77), known: known(0), novelty: novelty(2, { ply: 78 }) });
  assert.equal(line(b), 'New: | 39 … m78 | 2 games came that far, none played it');
});

test('what more there is to tell is of the position, or of the one before the new move', () => {
  assert.deepEqual(subject(board({ known: known(9) }), REFERENCE), { known: known(9), ply: 24, before: false });
  assert.deepEqual(subject(board({ plies: plies(24), known: known(0), novelty: novelty(20) }), REFERENCE), { known: known(20), ply: 24, before: true });
  for (const b of [board(), board({ known: known(0) }), board({ plies: plies(61) })]) assert.equal(subject(b, REFERENCE), null);
});

test('the ply to come', () => {
  // FEN, PGN standard 16.1.3.6: the number starts at 1 and goes up after Black's move.
  assert.equal(nextPly('8/8/8/8/8/8/8/8 w - - 0 1'), 1);
  assert.equal(nextPly('8/8/8/8/8/8/8/8 b - - 0 1'), 2);
  assert.equal(nextPly(FEN), 24);
  assert.equal(nextPly('8/8/8/8/8/8/8/8 w - -'), 1);
});

test('how games ended, those without a result only where there are some', () => {
  const texts = (counts) => endings(counts).map((e) => e.text).join(', ');
  assert.equal(texts({ games: 20, white: 8, draws: 8, black: 4 }), 'White won 8, drawn 8, Black won 4');
  assert.equal(texts({ games: 12044, white: 10000, draws: 1000, black: 1040 }), 'White won 10\u202f000, drawn 1000, Black won 1040, no result 4');
});

test('which move did best', () => {
  const m = (san, white, draws, black) => ({ san, games: white + draws + black, white, draws, black });
  const moves = [m('a', 5, 5, 5), m('b', 8, 1, 1), m('c', 1, 1, 8), m('d', 9, 0, 0)];
  assert.equal(didBest(moves, true), 'b', 'd is better but has nine games');
  assert.equal(didBest(moves, false), 'c');
  assert.equal(didBest([m('a', 10, 0, 0)], true), '', 'one move is no comparison');
  assert.equal(didBest([m('a', 10, 0, 0), m('b', 20, 0, 0)], true), '', 'equally well');
  assert.equal(didBest([m('a', 0, 20, 0), m('b', 5, 0, 5)], true), '', 'a draw is half a point');
});

test('a name is given only to whom the best rating belongs', () => {
  const m = { bestRating: 2620, lastYear: 2024, example: { white: 'Abenov', whiteRating: 2600, black: 'Jastrow', blackRating: 2620 } };
  assert.deepEqual(playedBy(m, false), { name: 'Jastrow', rating: '2620', year: '2024' });
  assert.deepEqual(playedBy(m, true), { name: '', rating: '2620', year: '2024' });
  assert.deepEqual(playedBy({ bestRating: 0, lastYear: 0, example: null }, true), { name: '', rating: '', year: '' });
  assert.deepEqual(playedBy({ bestRating: 0, lastYear: 0, example: { ...m.example, whiteRating: 0 } }, true).name, '');
});

test('a year that the event carries is not told twice', () => {
  assert.deepEqual(gameFacts({ event: 'Harbour Open', year: 2019, result: '1-0' }), { result: '1–0', event: 'Harbour Open 2019' });
  assert.deepEqual(gameFacts({ event: 'Harbour Open 2019', year: 2019, result: '*' }), { result: 'no result', event: 'Harbour Open 2019' });
  assert.deepEqual(gameFacts({ event: '', year: 0, result: '1/2-1/2' }), { result: '½–½', event: '' });
});

test('what is attached', () => {
  const words = (more) => Object.values(referenceWords({ ...REFERENCE, ...more })).join(' | ');
  assert.equal(words({}), 'attached | Reference | 48\u202f213 games, as far as move 30');
  assert.equal(words({ games: 1, depth: 61, counted: 'both players 2400 or more' }), 'attached | Reference | one game, as far as move 31; counted: both players 2400 or more');
  assert.equal(words({ games: 0 }), 'none | No reference | whether a move is new cannot be told');
  assert.equal(words({ games: 0, fault: 'it is torn' }), 'fault | The reference cannot be used | it is torn');
});

test('large numbers', () => {
  assert.deepEqual([0, 9999, 10000, 1234567].map(thousands), ['0', '9999', '10\u202f000', '1\u202f234\u202f567']);
});
