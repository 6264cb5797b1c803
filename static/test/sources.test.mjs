import assert from 'node:assert/strict';
import { test } from 'node:test';
import { nextName } from '../health/begin.js';
import { journalWords } from '../health/journal.js';
import { busWords } from '../health/sharing.js';
import { mergeItems } from '../health/items.js';
import { answerWords } from '../health/question.js';
import { errorWords, followWords, isNotable, isSought, isSound, nextWords, offerWords, sumWords } from '../health/sources.js';
import { plyFor, plyName } from '../health/tool-clock.js';
import { frozenWords } from '../surface/tell.js';

const offer = (over) => ({ feed: 'arena', state: 'followed', text: '', plies: 40, ...over });
const board = (over) => ({
  board: 1, white: 'Alder, Ines', black: 'Birch, Tomasz', plies: 40, last: '20...Qd7', turn: 'white', next: '21.', result: '*', fault: '',
  feed: 'arena', pinned: '', frozen: 0, byHand: [], offers: [offer({})], question: null, ...over,
});

/** Doubts as relay/choose.go words them. */
const OFFERS = [
  [{}, 'followed', true],
  [{ text: 'it is stale' }, 'followed, is stale', false],
  [{ state: 'ready' }, 'ready', true],
  [{ state: 'ready', plies: 39 }, 'ready, 1 ply short', true],
  [{ state: 'doubtful', text: 'it went back to an older state', plies: 35 }, 'went back to an older state, 5 plies short', false],
  [{ state: 'doubtful', text: 'it is behind', plies: 37 }, 'is behind', false],
  [{ state: 'doubtful', text: 'its moves cannot be played' }, 'its moves cannot be played', false],
  [{ state: 'doubtful', text: 'it no longer has the game' }, 'no longer has the game', false],
  [{ state: 'differs' }, 'has other moves', false],
  [{ state: 'differs', text: 'it does not answer' }, 'has other moves, does not answer', false],
];

test('boards that a frame tells of take the place of those held, or come behind them', () => {
  const held = [1, 2, 3].map((n) => board({ board: n }));
  const moved = board({ board: 2, plies: 41 });
  const added = board({ board: 4 });
  const byNumber = (frame) => mergeItems(held, frame, (item) => item.board);
  assert.deepEqual(byNumber({ base: 7, items: [moved, added] }), [held[0], moved, held[2], added]);
  assert.deepEqual(byNumber({ base: 0, items: [moved] }), [moved]);
  assert.equal(held[1].plies, 40, 'what was held stays as it was');
});

test('what a feed has, in words', () => {
  for (const [over, want, sound] of OFFERS) {
    assert.equal(offerWords(offer(over), board({})), want);
    assert.equal(isSound(offer(over)), sound, want);
  }
});

test('the feed followed', () => {
  assert.equal(followWords(board({})), '');
  assert.equal(followWords(board({ offers: [], feed: '' })), 'no feed has this game; by hand only');
  assert.equal(followWords(board({ offers: [], feed: 'arena' })), 'arena does not have the game');
  assert.equal(followWords(board({ pinned: 'hall' })), 'pinned to hall, which does not have the game');
});

test('what is out of the ordinary', () => {
  assert.ok(!isNotable(board({})));
  const cases = [{ question: {} }, { fault: 'x' }, { frozen: 5 }, { pinned: 'arena' }, { byHand: ['x'] }, { offers: [offer({ state: 'differs' })] }, { offers: [], feed: '' }];
  for (const over of cases) assert.ok(isNotable(board(over)), JSON.stringify(over));
});

test('whose move', () => {
  assert.equal(nextWords(board({})), '21. White');
  assert.equal(nextWords(board({ next: '21...', turn: 'black' })), '21... Black');
  assert.deepEqual([frozenWords(true), frozenWords(false)], ['frozen by the producer', '']);
});

test('finding a board', () => {
  for (const [sought, want] of [['', true], ['1', true], ['2', false], ['10', false], ['birch', true], [' INES ', true], ['cedar', false]]) {
    assert.equal(isSought(board({}), sought), want, sought);
  }
});

test('boards in sum', () => {
  assert.equal(sumWords([board({})]), '1 board');
  assert.equal(sumWords([board({ fault: 'x' }), board({ frozen: 3, byHand: ['a', 'b'] }), board({ pinned: 'arena' })]), '3 boards, 1 stopped, 1 frozen, 1 pinned, 1 with entries by hand');
});

test('the two answers', () => {
  const q = (over) => ({ id: 'q', kind: 'move', text: '', hand: 'b6', feed: 'a6', ...over });
  assert.deepEqual([answerWords(q(), 'hand'), answerWords(q(), 'feed')], ['b6', 'a6']);
  assert.equal(answerWords(q({ hand: '' }), 'hand'), 'no move');
  assert.equal(answerWords(q({ kind: 'result', feed: '*' }), 'feed'), 'not over');
  assert.equal(answerWords(q({ kind: 'name', feed: '' }), 'feed'), 'nothing');
});

test('the ply a clock is for', () => {
  const names = ['1.e4', '1...e5', '2.Nf3'];
  assert.equal(plyFor(names, -1, ''), 2, 'the last one');
  assert.equal(plyFor([], -1, ''), -1);
  assert.equal(plyFor(names, 1, '1...e5'), 1);
  assert.equal(plyFor(['1.e4', '1...c5'], 1, '1...e5'), -1, 'it was replaced');
  assert.equal(plyFor(['1.e4'], 1, '1...e5'), -1, 'it was taken back');
  assert.deepEqual([plyName({ number: 1, san: 'e4' }), plyName({ number: 46, san: 'Qd7' })], ['1.e4', '23...Qd7']);
});

test('a board begun by hand: one name after the other, none twice', () => {
  const names = { white: 'Alder', black: 'Birch' };
  assert.deepEqual(nextName({ board: 0, done: [] }, names, 9), { board: 9, act: 'name', side: 'white', text: 'Alder' });
  assert.deepEqual(nextName({ board: 9, done: ['white'] }, names, 10), { board: 9, act: 'name', side: 'black', text: 'Birch' });
  assert.equal(nextName({ board: 9, done: ['white', 'black'] }, names, 10), null);
  assert.deepEqual(nextName({ board: 0, done: [] }, { white: '', black: 'Birch' }, 9)?.side, 'black');
});

test('the journal in words', () => {
  assert.deepEqual(journalWords({ state: 'kept', text: 'journal/x' }, ''), ['Journal kept', 'journal/x']);
  assert.deepEqual(journalWords({ state: 'failing', text: 'disk full' }, 'Viewers are fine.'), ['Journal fails, nothing is written down', 'disk full']);
  assert.equal(journalWords({ state: 'failing', text: 'disk full' }, 'but nothing is being kept: disk full')[1], '', 'said twice');
  assert.equal(journalWords({ state: 'off', text: '' }, '')[0], 'No journal');
});

test('how the show is shared, in words', () => {
  const bus = { role: '', leader: '', wrong: '', waiting: 0 };
  const yard = 'yard, process 7';
  assert.equal(busWords(bus, '').look, 'off');
  assert.deepEqual(busWords({ ...bus, role: 'leads', leader: yard }, ''), { look: 'kept', word: 'Leads the show', text: 'what happens is shared over the bus' });
  assert.deepEqual(busWords({ ...bus, role: 'standsBy', leader: yard }, ''), { look: 'kept', word: 'Stands by', text: 'led by yard, process 7' });
  assert.equal(busWords({ ...bus, role: 'follows', leader: yard }, '').text, 'led by yard, process 7: feeds are heard there, and what you enter goes there');
  assert.equal(busWords({ ...bus, role: 'standsBy' }, '').text, 'nobody is known to lead');
  const cut = { ...bus, role: 'leads', wrong: 'the bus takes nothing', waiting: 2 };
  assert.deepEqual(busWords(cut, 'Viewers are fine.'), { look: 'failing', word: 'Leads the show, but the bus fails', text: 'the bus takes nothing; 2 messages kept until the bus is back' });
  assert.equal(busWords(cut, 'It is not shared: the bus takes nothing').text, '2 messages kept until the bus is back', 'said twice');
});

test('by how much the clock was off', () => {
  const cases = [
    [{ count: 0, lastMs: 0, medianMs: 0 }, ''],
    [{ count: 1, lastMs: 240, medianMs: 240 }, 'clock was off by 0.2 s'],
    [{ count: 2, lastMs: 0, medianMs: 240 }, 'clock was right'],
    [{ count: 3, lastMs: 49, medianMs: 240 }, 'clock was right, usually off by 0.2 s'],
    [{ count: 3, lastMs: 12_400, medianMs: 0 }, 'clock was off by 12 s, usually right'],
    [{ count: 9, lastMs: 240, medianMs: 210 }, 'clock was off by 0.2 s'],
  ];
  for (const [error, want] of cases) assert.equal(errorWords(error), want, JSON.stringify(error));
});
