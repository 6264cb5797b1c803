import assert from 'node:assert/strict';
import { test } from 'node:test';
import { clockNote, clockText, times } from '../surface/clocks.js';
import { habitLines, ownMoves } from '../panel/habit.js';
import { heir, next } from '../surface/keys.js';
import { Speaker } from '../panel/speaker.js';
import { certainty, resultWords } from '../surface/tell.js';
import { age, ago, boardsWords, lostHeadline, lostWords, rehearsal } from '../surface/words.js';

const eachCase = (name, f, cases) => test(name, () => {
  for (const [given, want] of cases) assert.equal(f(given), want, String(given));
});

eachCase('age', age, [[-5, '0 s'], [6999, '6 s'], [99_999, '99 s'], [100_000, '1 min'], [5_999_999, '99 min'], [6_000_000, '1 h']]);
eachCase('ago', ago, [[0, 'just now'], [4999, 'just now'], [5000, '0:05 ago'], [130_000, '2:10 ago']]);
eachCase('rehearsal', rehearsal, [[1, ''], [20, 'rehearsal, runs 20 × as fast'], [0.5, 'rehearsal, runs 0.5 × as fast']]);
eachCase('lost', (ms) => lostWords(ms).join(''), [
  [null, 'Relay not reached, trying again; nothing to show yet'],
  [12_400, 'Relay not reached, trying again; what you see is old, from 0:12 ago'],
]);
eachCase('lost, as a headline', lostHeadline, [
  [null, 'Relay not reached: nothing to show yet'],
  [7400, 'Relay not reached: this is how it was 7 s ago'],
  [125_000, 'Relay not reached: this is how it was 2 min ago'],
]);
eachCase('result', resultWords, [['*', ''], ['', ''], ['1-0', 'finished, 1 – 0'], ['1/2-1/2', 'finished, ½ – ½']]);

test('boards in words', () => {
  assert.equal(boardsWords([]), 'no board yet');
  assert.equal(boardsWords([{ result: '*' }]), '1 board, all running');
  assert.equal(boardsWords([{ result: '*' }, { result: '1-0' }]), '2 boards, 1 running');
  assert.equal(boardsWords([{ result: '0-1' }]), '1 board, 0 running');
});

test('the tell is never quite certain', () => {
  const tell = { verdict: 'thinking', shade: 'thinking', thinking: 0.9999 };
  assert.equal(certainty(tell), 'thinking, 99 in 100');
  assert.equal(certainty({ ...tell, verdict: 'preparation', shade: 'in preparation', thinking: 0.06 }), 'in preparation, 94 in 100');
  assert.equal(certainty({ ...tell, verdict: 'noclock', shade: 'no clock' }), 'no clock');
});

test('a clock that is not exact says so', () => {
  const clock = { leftMs: 60_000, at: 0, state: 'running', quality: 'read', spentMs: 0, stepMs: 1000, unsureMs: 0, mark: '', remark: '' };
  assert.equal(clockText(clock, 59_999, true), '0:59');
  assert.equal(clockText(clock, 59_999, false), '≈ 0:59');
  assert.equal(clockText({ ...clock, state: 'stopped' }, 60_000, false), '1:00', 'a stopped clock stays true');
  assert.equal(clockText({ ...clock, state: 'held' }, 60_000, true), '≈ 1:00');
  assert.equal(clockText({ ...clock, quality: 'estimated' }, 60_000, true), '≈ 1:00');
  assert.equal(clockText({ ...clock, quality: 'none' }, 0, true), 'no clock');
  assert.equal(clockText({ ...clock, stepMs: 100 }, 7650, true), '0:07', 'a surface looks at its clocks too rarely for tenths');
  assert.equal(clockText({ ...clock, stepMs: 60_000, state: 'stopped' }, 43 * 60_000, true), '43\u00a0min');
  assert.equal(clockText({ ...clock, unsureMs: 86_400_000, quality: 'estimated' }, 43 * 60_000, true), '≈ 43\u00a0min');
  assert.equal(clockText({ ...clock, state: 'rising' }, 60_000, false), '≈ 1:00');
});

test('what is before a clock that does not simply fall', () => {
  const clock = { leftMs: 60_000, at: 5000, state: 'running', quality: 'read', spentMs: 5000, stepMs: 1000, unsureMs: 0, mark: 'mended', remark: 'why' };
  const board = (more) => ({ white: { clock: { ...clock, ...more } }, control: { delay: 'simple', delayMs: 5000 } });
  assert.equal(clockNote(board({}), 'white', 1), 'delay 5');
  assert.equal(clockNote(board({}), 'white', 4001), 'delay 1');
  assert.equal(clockNote(board({}), 'white', 5000), 'mended');
  assert.equal(clockNote(board({ mark: 'doubtful' }), 'white', 5000), 'doubtful');
  assert.equal(clockNote(board({ mark: 'unread' }), 'white', 5000), 'no reading');
  assert.equal(clockNote(board({ mark: '' }), 'white', 5000), '');
  assert.equal(clockNote(board({ state: 'rising' }), 'white', 5000), 'rising');
});

test('clocks stop five seconds after the line is lost, at any rate', () => {
  assert.deepEqual(times(1_000_000, null, 20), { now: 1_000_000, clocks: 1_000_000, lostAt: null });
  assert.deepEqual(times(1_000_000, 920_000, 20), { now: 1_000_000, clocks: 1_000_000, lostAt: 920_000 });
  assert.deepEqual(times(1_000_000, 840_000, 20), { now: 1_000_000, clocks: 940_000, lostAt: 840_000 });
});

test('arrow keys', () => {
  const cards = ['a', 'b', 'c'];
  assert.equal(next(cards, null, 1), 'a');
  assert.equal(next(cards, null, -1), 'c');
  assert.equal(next(cards, 'a', 1), 'b');
  assert.equal(next(cards, 'c', 1), undefined);
  assert.equal(next(cards, 'a', -1), undefined);
  assert.equal(next([], null, 1), undefined);
});

test('who takes the focus of a card that leaves', () => {
  const cards = ['a', 'b', 'c', 'd'];
  const among = (...stay) => (card) => stay.includes(card);
  assert.equal(heir(cards, 'b', among('a', 'c', 'd')), 'c');
  assert.equal(heir(cards, 'b', among('a', 'd')), 'd');
  assert.equal(heir(cards, 'd', among('a', 'b')), 'b');
  assert.equal(heir(cards, 'd', among('a')), 'a');
  assert.equal(heir(cards, 'b', among()), undefined);
});

test('only new prompts of priority now that nobody has are spoken, each once', () => {
  const region = { textContent: '' };
  const speaker = new Speaker(region);
  const p = (key, priority, withdrawn = 0, state = 'open') => ({ key, at: 1, priority, withdrawn, state, text: key });
  speaker.hear([p('a', 'now'), p('b', 'soon'), p('c', 'now', 5), p('d', 'now', 0, 'said')]);
  assert.equal(region.textContent, 'a');
  region.textContent = 'untouched';
  speaker.hear([p('a', 'now'), p('b', 'soon')]);
  assert.equal(region.textContent, 'untouched');
  speaker.hear([p('b', 'now'), p('a', 'now')]);
  assert.equal(region.textContent, 'b');
});

test('habits: what is usual, and the clock that comes next', () => {
  const left = [{ move: 10, timeMs: 594_000, games: 34 }, { move: 20, timeMs: 401_000, games: 33 }];
  const habit = { games: 34, prepared: [8, 11, 14], left, next: null };
  const usual = 'usually 11 moves of preparation (8 to 14 in half of 34 games)';
  assert.deepEqual(habitLines(null, 3), []);
  assert.deepEqual(habitLines(habit, 9), [usual, 'usually 9:54 left after move 10 (34 games)']);
  assert.deepEqual(habitLines(habit, 10), [usual, 'usually 6:41 left after move 20 (33 games)']);
  assert.deepEqual(habitLines(habit, 20), [usual]);
  const next = { move: 21, timeMs: 41_000, games: 30 };
  assert.deepEqual(habitLines({ ...habit, next }, 20), [usual, 'usually 0:41 on move 21 (30 games)']);
  assert.equal(ownMoves({ plies: [1, 2, 3].map((number) => ({ number })) }, 'white'), 2);
});
