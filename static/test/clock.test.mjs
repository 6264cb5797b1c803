// How a clock is read (minutes and seconds, what is left of one cut off) is
// common practice, no source; tenths below twenty seconds are our own rule.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Falling, leftAt, spentAt, tenthsText, timeText, untilChange } from '../lib/clock.js';

const clock = (state, more = {}) => ({ leftMs: 60_000, at: 1000, state, quality: 'read', spentMs: 5000, ...more });

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

test('tenths are cut, not rounded', () => {
  assert.equal(tenthsText(14_690), '.6');
  assert.equal(tenthsText(99), '.0');
  assert.equal(tenthsText(-1), '.0');
});

test('only a running clock goes down, and not below zero', () => {
  assert.equal(leftAt(clock('running'), 31_000), 30_000);
  assert.equal(leftAt(clock('stopped'), 31_000), 60_000);
  assert.equal(leftAt(clock('held'), 31_000), 60_000);
  assert.equal(leftAt(clock('running'), 99_000), 0);
});

test('a page whose time is behind the reading does not add to the clock', () => {
  assert.equal(leftAt(clock('running'), 400), 60_000);
});

test('time on this move grows while the clock runs', () => {
  assert.equal(spentAt(clock('running'), 31_000), 35_000);
  assert.equal(spentAt(clock('held'), 31_000), 5000);
});

test('the next look is just after the text changes', () => {
  assert.equal(untilChange(60_250), 251);
  assert.equal(untilChange(19_930), 31);
  assert.equal(untilChange(0), Infinity);
});

test('a fresh measurement never raises a running clock', () => {
  const shown = new Falling();
  assert.equal(shown.next(30_000, '1 running'), 30_000);
  assert.equal(shown.next(30_400, '1 running'), 30_000);
  assert.equal(shown.next(29_000, '1 running'), 29_000);
});

test('a move and a clear correction may raise it', () => {
  const shown = new Falling();
  shown.next(30_000, '1 running');
  assert.equal(shown.next(40_000, '2 stopped'), 40_000);
  shown.next(20_000, '2 stopped');
  assert.equal(shown.next(35_000, '2 stopped'), 35_000);
});
