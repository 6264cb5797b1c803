import assert from 'node:assert/strict';
import { test } from 'node:test';
import './fakedom.mjs';
import { byNews } from '../desk/news.js';
import { news } from '../desk/heard.js';
import { leadWords } from '../desk/lead.js';
import { laterWords, ribbon } from '../desk/ribbonwords.js';
import { behind, behindWords, countdown, lineWords, stepWords } from '../desk/words.js';

const step = (number, san) => ({ number, san, from: '', to: '', fen: `after ${san}` });
const PLIES = ['e4', 'e5', 'Nf3', 'Nc6', 'Bb5', 'a6', 'Bxc6'].map((san, i) => ({ number: i + 1, san }));
const board = (n = 1) => ({ board: n, plies: PLIES, white: { short: 'Quill' }, black: { short: 'Tarn' } });
const BOARDS = new Map([[1, board(1)], [2, board(2)]]);
const place = (more = {}) => ({ board: 1, live: true, ply: 7, move: 0, fen: 'now', last: step(7, 'Bxc6'), ...more });
const desk = (more = {}) => ({ lead: '', asks: '', place: place(), lines: [], marks: [], air: { board: 1, way: '', since: 1000, move: 0, leanBoard: 0, leanKept: false }, challenge: null, ...more });
const LINE = [{ id: 4, after: 0, ply: 5, step: step(6, 'f5'), name: '', adrift: false }, { id: 5, after: 4, ply: 5, step: step(7, 'O-O'), name: '', adrift: false }];
const IN_LINE = { live: false, ply: 5, move: 5, last: step(7, 'O-O') };
const asked = (state, more = {}) => ({ air: { board: 1, state, question: 'What now?', ends: 40_000, answer: [], ...more }, until: 0 });
const heads = (r) => [r.state, r.mine.head, r.theirs.head, r.action];

test('how far behind the live game', () => {
  assert.deepEqual([0, 1, 2].map(behindWords), ['', '1 move behind', '2 moves behind']);
  assert.equal(behind(place({ ply: 5 }), board()), 1, 'a move of each side is one');
  assert.equal(behind(place({ ply: 9 }), board()), 0, 'the game was taken back');
  assert.equal(behind(place(), undefined), 0);
});

test('moves are numbered as in a book', () => {
  assert.deepEqual([stepWords(step(29, 'Nxf5')), stepWords(step(30, 'd5'))], ['15.N×f5', '15…d5']);
  assert.equal(lineWords([step(30, 'd5'), step(31, 'Nxf5'), step(32, 'Bxf5')]), '15…d5 16.N×f5 B×f5');
});

test('a countdown is never over too early', () => {
  assert.deepEqual([60_000, 59_001, 500, 1, 0, -7].map(countdown), ['1:00', '1:00', '0:01', '0:01', '0:00', '0:00']);
});

test('at the live board of the air both see the same', () => {
  const r = ribbon(desk(), BOARDS, 5000);
  assert.deepEqual(heads(r), ['same', 'The desk sees', 'The viewers see the same', 'put-on-air']);
  assert.equal(r.mine.text, r.theirs.text);
});

test('a side line, an earlier position, a mark and another board are at the desk only', () => {
  const apart = [{ place: place(IN_LINE), lines: LINE }, { place: place({ live: false, ply: 3, last: step(3, 'Nf3') }) }, { marks: [{ kind: 'look', from: '', to: 'e4' }] }, { place: place({ board: 2 }) }];
  for (const more of apart) assert.deepEqual(heads(ribbon(desk(more), BOARDS, 5000)), ['apart', 'Only the desk sees', 'The viewers see', 'put-on-air'], JSON.stringify(more));
  const r = ribbon(desk(apart[0]), BOARDS, 5000);
  assert.deepEqual([r.mine.text, r.mine.more, r.theirs.text], ['side line, 4.O-O', '1 move behind', 'board 1 live, 4.B×c6']);
  assert.equal(ribbon(desk({ ...apart[0], lines: [{ ...LINE[0], name: 'The gambit' }, LINE[1]] }), BOARDS, 5000).mine.text, 'The gambit, 4.O-O');
});

test('viewers who are held back see later', () => {
  const groups = [{ group: 'air', holdMs: 12_000, since: 0 }, { group: 'web', holdMs: 5000, since: 0 }];
  assert.deepEqual([laterWords([]), laterWords([{ ...groups[0], holdMs: 0 }]), laterWords(groups.slice(0, 1)), laterWords(groups)], ['', '', '12 s later', '5 to 12 s later']);
  assert.equal(ribbon(desk(), BOARDS, 5000, true, groups.slice(0, 1)).theirs.head, 'The viewers see the same, 12 s later');
  const on = { place: place(IN_LINE), lines: LINE, air: { board: 1, way: 'follow', since: 1000, move: 0, leanBoard: 0 } };
  assert.equal(ribbon(desk(on), BOARDS, 43_000, true, groups).mine.head, 'On the air for 0:42: viewers follow the desk, 5 to 12 s later');
});

test('on the air, viewers follow the desk', () => {
  const r = ribbon(desk({ place: place(IN_LINE), lines: LINE, air: { board: 1, way: 'follow', since: 1000, move: 0, leanBoard: 0 } }), BOARDS, 43_000);
  assert.deepEqual(heads(r), ['shared', 'On the air for 0:42: viewers follow the desk', 'Not shown: the live game', 'take-off-air']);
  assert.equal(r.theirs.text, '4.B×c6, 1 move ahead');
  assert.equal(ribbon(desk({ air: { board: 1, way: 'follow', since: 0, move: 0 } }), BOARDS, 1000).theirs.text, '', 'nothing is hidden');
});

test('a line on the air is told for itself, wherever the desk looks', () => {
  for (const [way, words] of [['whole', 'played through'], ['text', 'written']]) {
    const r = ribbon(desk({ lines: LINE, air: { board: 1, way, since: 0, move: 5 } }), BOARDS, 5000);
    assert.deepEqual([r.state, r.mine.head, r.theirs.text, r.action], ['sent', 'Only the desk sees', '3…f5 4.O-O', 'take-off-air']);
    assert.match(r.theirs.head, new RegExp(words));
  }
});

test('a question on the air has its time, and is what the red button ends', () => {
  const r = ribbon(desk({ challenge: asked('asked') }), BOARDS, 17_000);
  assert.deepEqual([r.state, r.theirs.text, r.theirs.more, r.action], ['sent', 'What now?', '0:23 left', 'end-challenge']);
  assert.equal(ribbon(desk({ challenge: asked('asked') }), BOARDS, 41_000).theirs.more, 'time is up');
  assert.equal(ribbon(desk({ challenge: asked('revealed', { answer: [step(8, 'dxc6')] }) }), BOARDS, 0).theirs.text, '4…d×c6');
  assert.equal(ribbon(desk({ challenge: asked('ready') }), BOARDS, 0).state, 'same', 'only the desk knows of it');
});

test('a desk that does not hear the relay says that its words are old', () => {
  const r = ribbon(desk(), BOARDS, 5000, false);
  assert.deepEqual([r.mine.head, r.theirs.head], ['When last heard: the desk sees', 'When last heard: the viewers see the same']);
});

test('who leads is told to each', () => {
  assert.match(leadWords({ lead: '', asks: '' }, 'Ada'), /^Nobody leads/);
  assert.equal(leadWords({ lead: 'Ada', asks: '' }, 'Ada'), 'You lead.');
  assert.equal(leadWords({ lead: 'Ada', asks: 'Ben' }, 'Ada'), 'You lead, and Ben asks for the lead.');
  assert.match(leadWords({ lead: 'Ben', asks: '' }, 'Ada'), /^Ben leads\./);
  assert.match(leadWords({ lead: 'Ben', asks: 'Ada' }, 'Ada'), /You have asked/);
  assert.doesNotMatch(leadWords({ lead: 'Ben', asks: 'Cleo' }, 'Ada'), /You have asked/);
  assert.match(leadWords({ lead: 'Ben', asks: '' }, ''), /^Ben leads\./);
});

test('what changes is heard, what is on the air first', () => {
  const was = desk();
  assert.equal(news(was, desk(), 'Ada'), '');
  const is = desk({ place: place({ ...IN_LINE, fen: 'line' }), lead: 'Ada', air: { board: 1, way: 'follow', since: 0, move: 0, leanBoard: 0 } });
  const leans = desk({ air: { ...was.air, leanBoard: 1 } });
  assert.deepEqual([news(was, leans, 'Ada'), news(leans, was, 'Ada')], ['The lean is on the air.', 'The lean is off the air.']);
  assert.equal(news(was, is, 'Ada'), 'On the air: viewers follow the desk. You lead. Side line: 4.O-O.');
  assert.equal(news(is, was, 'Ada'), 'Off the air: viewers see the live board. Nobody leads. Live: 4.B×c6.');
  assert.equal(news(was, desk({ place: place({ board: 2 }) }), 'Ada'), 'Board 2.');
  assert.equal(news(was, desk({ lead: 'Ben', asks: 'Cleo' }), 'Ben'), 'Cleo asks for the lead.');
  assert.equal(news(was, desk({ challenge: asked('asked') }), 'Ada'), 'The question is on the air.');
});

test('sentences of the board come with the most newsworthy first', () => {
  const p = (key, more) => ({ key, board: 1, withdrawn: 0, state: 'open', priority: 'soon', at: 0, ...more });
  const items = [p('said', { state: 'said', priority: 'now' }), p('old'), p('new', { at: 5 }), p('now', { priority: 'now' }), p('other', { board: 2 }), p('gone', { withdrawn: 9 }), p('dropped', { state: 'dropped' }), p('taken', { state: 'taken' })];
  assert.deepEqual(byNews(items, 1).map((x) => x.key), ['now', 'new', 'old', 'taken', 'said']);
});
