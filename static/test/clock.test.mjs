// How a clock is read (minutes and seconds, what is left of one cut off) is
// common practice, no source; tenths below twenty seconds are our own rule.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { STEP, Steady, figures, inStep, leftAt, spentAt, standsFor, stepOf, timeText, untilChange } from '../lib/clock.js';

const clock = (state, more = {}) => ({ leftMs: 60_000, at: 1000, state, quality: 'read', spentMs: 5000, stepMs: 1000, unsureMs: 0, mark: '', remark: '', ...more });
const board = (white, black = clock('stopped'), more = {}) => ({ white: { clock: white }, black: { clock: black }, plies: [], control: { delay: '', delayMs: 0, hourglass: false }, ...more });

test('a time is cut to whole seconds', () => {
  const cases = [
    [0, '0:00'],
    [999, '0:00'],
    [14_650, '0:14'],
    [59_999, '0:59'],
    [60_000, '1:00'],
    [702_500, '11:42'],
    [3_599_999, '59:59'],
    [3_600_000, '1:00:00'],
    [5_405_000, '1:30:05'],
    [-5, '0:00'],
  ];
  for (const [ms, want] of cases) assert.equal(timeText(ms), want, `${ms} ms`);
});

test('tenths are cut, not rounded, and stand below twenty seconds only', () => {
  assert.deepEqual(figures(14_690, STEP.TENTH), [['0:14', '.6']]);
  assert.deepEqual(figures(99, STEP.TENTH), [['0:00', '.0']]);
  assert.deepEqual(figures(-1, STEP.TENTH), [['0:00', '.0']]);
  assert.deepEqual(figures(20_000, STEP.TENTH), [['0:20', '']]);
  assert.deepEqual(figures(14_690, STEP.SECOND), [['0:14', '']]);
});

test('minutes are the nearest ones, and say that they are minutes', () => {
  const cases = [
    [0, '<1 min'],
    [29_999, '<1 min'],
    [30_000, '1 min'],
    [43 * 60_000, '43 min'],
    [43 * 60_000 - 30_000, '43 min'],
    [43 * 60_000 - 30_001, '42 min'],
    [59 * 60_000 + 30_000, '1 h 0 min'],
    [88 * 60_000, '1 h 28 min'],
  ];
  for (const [ms, want] of cases) assert.equal(inStep(ms, STEP.MINUTE).replaceAll('\u00a0', ' '), want, `${ms} ms`);
});

test('no clock is shown finer than it is known', () => {
  const tenths = { stepMs: 100, unsureMs: 500 };
  const cases = [
    ['whole seconds', clock('running'), STEP.SECOND],
    ['tenths', clock('running', tenths), STEP.TENTH],
    ['milliseconds', clock('running', { ...tenths, stepMs: 1 }), STEP.TENTH],
    ['tenths, but nobody knows to half a second since when', clock('running', { ...tenths, unsureMs: 501 }), STEP.SECOND],
    ['tenths, estimated', clock('running', { ...tenths, quality: 'estimated' }), STEP.SECOND],
    ['tenths that stand', clock('stopped', tenths), STEP.SECOND],
    ['no readings', clock('running', { stepMs: 0 }), STEP.SECOND],
    ['minutes', clock('stopped', { stepMs: 60_000 }), STEP.MINUTE],
    ['begun within the last minute', clock('running', { unsureMs: 30_000 }), STEP.MINUTE],
    ['begun within the last half minute', clock('running', { unsureMs: 29_999 }), STEP.SECOND],
  ];
  for (const [what, given, want] of cases) assert.equal(stepOf(given), want, what);
});

test('only a running clock goes down, and not below zero', () => {
  assert.equal(leftAt(board(clock('running')), 'white', 31_000), 30_000);
  assert.equal(leftAt(board(clock('stopped')), 'white', 31_000), 60_000);
  assert.equal(leftAt(board(clock('held')), 'white', 31_000), 60_000);
  assert.equal(leftAt(board(clock('running')), 'white', 99_000), 0);
});

test('in an hourglass one clock gets what the other loses', () => {
  const glass = board(clock('rising', { leftMs: 20_000 }), clock('running'));
  for (const [now, white, black] of [[400, 20_000, 60_000], [1000, 20_000, 60_000], [31_000, 50_000, 30_000], [99_000, 80_000, 0]]) {
    assert.deepEqual([leftAt(glass, 'white', now), leftAt(glass, 'black', now)], [white, black], `at ${now}`);
  }
});

test('a page whose time is behind the reading does not add to the clock', () => {
  assert.equal(leftAt(board(clock('running')), 'white', 400), 60_000);
});

test('time on this move grows while the clock runs', () => {
  assert.equal(spentAt(clock('running'), 31_000), 35_000);
  assert.equal(spentAt(clock('held'), 31_000), 5000);
});

test('with a simple delay the clock stands, and the time on this move grows', () => {
  const delayed = board(clock('running'), clock('stopped'), { control: { delay: 'simple', delayMs: 5000 } });
  for (const [now, stands, left, spent] of [[-5000, 5000, 60_000, 0], [-4000, 5000, 60_000, 0], [-2000, 3000, 60_000, 2000], [1000, 0, 60_000, 5000], [3000, 0, 58_000, 7000]]) {
    assert.deepEqual([standsFor(delayed, 'white', now), leftAt(delayed, 'white', now), spentAt(delayed.white.clock, now)], [stands, left, spent], `at ${now}`);
  }
  assert.equal(standsFor(delayed, 'black', -2000), 0, 'it does not run');
  assert.equal(standsFor({ ...delayed, control: { delay: 'bronstein', delayMs: 5000 } }, 'white', -2000), 0, 'it falls at once');
});

test('the next look is just after the text changes', () => {
  assert.equal(untilChange(60_250, STEP.SECOND), 251);
  assert.equal(untilChange(19_930, STEP.TENTH), 31);
  assert.equal(untilChange(60_250, STEP.TENTH), 251);
  assert.equal(untilChange(19_930, STEP.SECOND), 931);
  assert.equal(untilChange(0, STEP.SECOND), Infinity);
  assert.equal(untilChange(60_250, STEP.SECOND, true), 751);
});

test('at the next look the text is another one', () => {
  for (const step of Object.values(STEP)) {
    for (const rises of [false, true]) {
      for (let left = 1; left < 200_000; left += 777) {
        const wait = untilChange(left, step, rises);
        const [before, after] = [wait - 2, wait].map((ms) => inStep(Math.max(0, left + (rises ? ms : -ms)), step));
        if (left < wait && !rises) continue; // nothing is left to change
        assert.notEqual(after, inStep(left, step), `${left} ms, step ${step}, rises ${rises}`);
        assert.equal(before, inStep(left, step), `${left} ms, step ${step}, rises ${rises}`);
      }
    }
  }
});

test('a fresh measurement never raises a running clock, nor lowers a rising one', () => {
  const shown = new Steady();
  const running = board(clock('running'));
  for (const [now, want] of [[31_000, 30_000], [30_600, 30_000], [32_000, 29_000]]) assert.equal(shown.next(running, 'white', now), want);
  const glass = board(clock('rising', { leftMs: 0 }), clock('running'));
  for (const [now, want] of [[31_000, 30_000], [30_600, 30_000], [32_000, 31_000]]) assert.equal(shown.next(glass, 'white', now), want);
});

test('a move and a clear correction may turn it', () => {
  const shown = new Steady();
  assert.equal(shown.next(board(clock('running')), 'white', 31_000), 30_000);
  assert.equal(shown.next(board(clock('running'), clock('stopped'), { plies: [1] }), 'white', 30_500), 30_500);
  assert.equal(shown.next(board(clock('running'), clock('stopped'), { plies: [1] }), 'white', 20_500), 40_500);
  assert.equal(shown.next(board(clock('stopped', { leftMs: 40_700 }), clock('stopped'), { plies: [1] }), 'white', 20_500), 40_700);
});
