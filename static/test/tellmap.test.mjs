// The rules of the mapping are our own (windows, share of the head, least
// width); the figures here are worked out by hand from them.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Chart, HEAD_SHARE, WINDOWS_MS, axis, fit, head, lasted, leastFor, runningLook } from '../lib/tellmap.js';

const MIN = 60_000;

test('without help the scale is even', () => {
  const chart = new Chart([2 * MIN, 2 * MIN], 8 * MIN, 960, 6);
  assert.deepEqual(chart.joints, [0, 240, 480]);
  assert.equal(chart.x(3 * MIN), 360);
  assert.equal(chart.after(MIN), 600);
  assert.equal(chart.x(5 * MIN), 600);
});

test('a short move gets its least and the axis runs through the same mapping', () => {
  const chart = new Chart([1000, 1000, MIN], 8 * MIN, 960, 6); // 2 px a second
  assert.deepEqual(chart.joints, [0, 6, 12, 132]);
  assert.equal(chart.x(500), 3); // half of the first move, in the middle of its 6 px
  assert.equal(chart.x(2000 + 30_000), 72);
});

test('moves without any time still stand side by side', () => {
  const chart = new Chart([0, 0, 0], 8 * MIN, 960, 6);
  assert.deepEqual(chart.joints, [0, 6, 12, 18]);
  assert.equal(chart.x(0), 0);
  assert.equal(chart.after(0), 18);
  assert.deepEqual(axis(chart, 960, 90), []);
});

test('the smallest window that keeps the head in its share', () => {
  // 8 min hold 6.88 min of play.
  assert.equal(fit([6 * MIN], 0.88 * MIN, 976, 6).windowMs, 8 * MIN);
  assert.equal(fit([6 * MIN], 0.89 * MIN, 976, 6).windowMs, 12 * MIN);
  assert.equal(fit([], 0, 976, 6).windowMs, WINDOWS_MS[0]);
});

test('where there are many moves the least shrinks, but not below the floor', () => {
  const size = { least: 6, floor: 4 };
  assert.equal(leastFor(50, 976, size), 6);
  assert.ok(Math.abs(leastFor(120, 976, size) - (976 * HEAD_SHARE * 0.75) / 120) < 1e-9);
  assert.equal(leastFor(400, 976, size), 4);
});

test('a game longer than the longest window still fits, and no move is narrower', () => {
  const chart = fit(Array(20).fill(40 * MIN).concat(1000), 0, 976, 6);
  assert.ok(chart.played <= 976 * HEAD_SHARE, `played ${chart.played}`);
  assert.equal(chart.joints[21] - chart.joints[20], 6);
});

test('a break has its width, whatever is in it', () => {
  const chart = new Chart([MIN, 30 * MIN, 10 * MIN, MIN], 8 * MIN, 960, 6, { from: 1, to: 3, width: 60 });
  assert.deepEqual(chart.joints, [0, 120, 165, 180, 300]); // 30 and 10 of 40 min in 60 px
  assert.deepEqual([chart.goneMs, chart.tear], [40 * MIN, [120, 180]]);
  assert.deepEqual([0, 1, 2, 3].map((i) => chart.isGone(i)), [false, true, true, false]);
  assert.equal(chart.x(21 * MIN), 150);
  assert.deepEqual(axis(chart, 960, 90).map((m) => m.minute), [0, 1, 42, 43, 44, 45, 46, 47]);
  assert.equal(new Chart([0, 0, 0], 8 * MIN, 960, 6, { from: 0, to: 2, width: 60 }).joints[1], 30, 'no time at all');
});

test('marks of the axis stand apart', () => {
  assert.deepEqual(
    axis(new Chart([], 8 * MIN, 976, 6), 946, 90).map((m) => m.minute),
    [0, 1, 2, 3, 4, 5, 6, 7],
  );
  assert.deepEqual(
    axis(new Chart([], 24 * MIN, 976, 6), 946, 90).map((m) => m.minute),
    [0, 5, 10, 15, 20],
  );
});

const clock = (state, spentMs, at = 0) => ({ leftMs: MIN, at, state, quality: 'read', spentMs, stepMs: 1000, unsureMs: 0 });
const side = (c, tell = {}) => ({ clock: c, tell: { verdict: 'thinking', thinking: 0.95, trouble: 0, ...tell } });
const board = (more) => ({ running: 'black', result: '*', white: side(clock('stopped', 0)), black: side(clock('running', 5000)), ...more });

test('the head of a running game', () => {
  assert.deepEqual(head(board({}), 2000, null), { side: 'black', look: 'thinking', runMs: 7000, dotsMs: 0, held: false, over: false, vague: false, exact: true });
});

test('a move whose beginning is not known has no figure', () => {
  const c = { ...clock('running', 5000), unsureMs: 30_000 };
  assert.equal(head(board({ black: side(c) }), 2000, null).vague, true);
});

test('a think is told in seconds only where they are known', () => {
  const ply = { quality: 'read', spentMs: 185_000 };
  assert.equal(lasted(ply, 1000), '3:05');
  assert.equal(lasted(ply, 60_000), '3\u00a0min');
  assert.equal(lasted({ ...ply, quality: 'estimated' }, 1000), '3\u00a0min');
});

test('a lost line stops the block and starts the dots', () => {
  const h = head(board({}), 9000, 4000);
  assert.deepEqual([h.runMs, h.dotsMs, h.held], [9000, 5000, true]);
});

test('held clocks: nobody knows whose time it was', () => {
  const h = head(board({ running: '', white: side(clock('held', 0)), black: side(clock('held', 5000)) }), 3000, null);
  assert.deepEqual([h.side, h.runMs, h.dotsMs, h.held], ['', 0, 8000, true]);
});

test('a board that the producer keeps is held, whatever its clocks say', () => {
  const h = head(board({ frozen: true }), 3000, null);
  assert.deepEqual([h.side, h.runMs, h.held], ['', 0, true]);
});

test('a clock without a reading: nobody knows how long this move takes', () => {
  const none = { ...clock('running', 0), quality: 'none' };
  const h = head(board({ black: side(none) }), 3000, null);
  assert.deepEqual([h.side, h.runMs, h.held], ['', 0, true]);
});

test('an estimated time on this move is not exact', () => {
  const guessed = { ...clock('running', 5000), quality: 'estimated' };
  assert.equal(head(board({ black: side(guessed) }), 0, null).exact, false);
});

test('a finished game has no head', () => {
  const h = head(board({ result: '1-0' }), 2000, null);
  assert.deepEqual([h.side, h.runMs, h.over], ['', 0, true]);
});

test('look of the running move', () => {
  const look = (tell) => runningLook({ verdict: 'early', thinking: 0.5, trouble: 0, ...tell });
  assert.equal(look({}), 'unsure');
  assert.equal(look({ verdict: 'preparation', thinking: 0.2 }), 'preparation');
  assert.equal(look({ verdict: 'preparation' }), 'unsure', 'as the relay draws a move that may be one of thought');
  assert.equal(look({ verdict: 'thinking', thinking: 0.6 }), 'unsure');
  assert.equal(look({ verdict: 'thinking', thinking: 0.9 }), 'thinking');
  assert.equal(look({ verdict: 'preparation', trouble: 2 }), 'trouble');
  assert.equal(look({ verdict: 'noclock' }), 'none');
});
