// Measures and words are our own; the figures are worked out by hand.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { layout } from '../lib/tellbreak.js';
import { head } from '../lib/tellmap.js';
import { flagSpan, poleAt } from '../lib/tellmarks.js';
import { labels } from '../lib/telljoints.js';
import { said } from '../lib/tellsay.js';
import { SIZES, lowOf, wide } from '../lib/tellsizes.js';
import { STATES, board, long } from './tellstates.mjs';

const state = (name) => STATES.find((s) => s[0] === name)[1];
const chartOf = (b, size, width) => layout(b.plies.map((p) => p.spentMs), 0, width, SIZES[size]);

test('every size has room for what it draws', () => {
  for (const [name, s] of Object.entries(SIZES)) {
    assert.ok(s.over >= s.head[1], `${name}: the head leaves the drawing`);
    assert.ok(!s.flag || s.over >= s.flag[1] + 2, `${name}: the flag leaves the drawing`);
    assert.ok(!s.joints || (s.over >= s.joints + 6 && s.under >= s.joints + 6), `${name}: the moves leave the drawing`);
    assert.ok(s.axis <= s.gap, `${name}: the axis does not fit between the lanes`);
    assert.ok(s.time <= s.lane - 4 && s.sign <= s.lane, `${name}: what stands in a lane is higher`);
    assert.ok(s.floor <= s.least && s.floor > s.rest && s.tick <= s.least, `${name}: widths`);
    assert.ok(wide('200', s.tear[1]) <= s.tear[0], `${name}: three figures do not fit into the break`);
    const share = lowOf(s) / s.lane;
    assert.ok(share > 0.55 && share < 0.8, `${name}: a tick takes ${share} of the lane`);
  }
});

test('low is a number of whole speed lines', () => {
  assert.equal(lowOf(SIZES.air), 27); // four lines of 3, three times 5 between them
  assert.equal(lowOf(SIZES.lifted), 14);
  assert.equal(lowOf(SIZES.filter), 5.5);
});

test('the flag points back, and forward only where there is no room behind', () => {
  assert.deepEqual(flagSpan(SIZES.air, 500), [438, 504]);
  assert.deepEqual(flagSpan(SIZES.air, 62), [0, 66]);
  assert.deepEqual(flagSpan(SIZES.air, 61), [61, 127]);
});

test('the pole stands at the press, in a break clear of its length', () => {
  const b = state('new move, time trouble');
  const chart = chartOf(b, 'air', 976);
  assert.equal(poleAt(chart, 36), chart.joints[37]);
  const broken = chartOf(board(long(120, 130, 11), 0), 'air', 976);
  const [from, to] = broken.tear;
  for (let i = broken.gap.from; i < broken.gap.to; i++) {
    const share = (poleAt(broken, i) - from) / (to - from);
    assert.ok(Math.abs(Math.abs(share - 0.5) - 0.33) < 1e-9, `ply ${i} at ${share}`);
  }
});

test('moves at the joints: new and last first, then the longest, none over another', () => {
  const b = state('new move, time trouble');
  const chart = chartOf(b, 'desk', 1280);
  const place = { lane: (side) => (side === 'black' ? 0 : 1), type: 15, taken: [[[1000, 1050]], []] };
  const written = labels(b, chart, place);
  const texts = written.map((l) => l.text);
  assert.ok(texts.includes('19 d4') && texts.includes('11… cxd4') && texts.includes('13… a6'), texts.join(', '));
  for (const lane of [0, 1]) {
    const row = written.filter((l) => l.lane === lane);
    for (let i = 1; i < row.length; i++) assert.ok(row[i].x - row[i - 1].x > (wide(row[i].text, 15) + wide(row[i - 1].text, 15)) / 2);
    if (lane === 0) assert.ok(row.every((l) => l.x + wide(l.text, 15) / 2 < 1000 || l.x - wide(l.text, 15) / 2 > 1050), 'over the flag');
  }
  assert.ok(written.every((l) => l.x >= wide(l.text, 15) / 2), 'over the edge');
});

test('moves in a break are not written', () => {
  const b = board(long(120, 130, 11), 0);
  const chart = chartOf(b, 'desk', 1280);
  const written = labels(b, chart, { lane: () => 0, type: 15, taken: [[], []] });
  assert.ok(written.length > 5 && written.every((l) => !chart.isGone(l.i)));
});

test('the sentence says what is not as read, and that nobody knows', () => {
  const saying = (name) => {
    const [, b, now, lostAt] = STATES.find((s) => s[0] === name);
    return said(b, head(b, now, lostAt));
  };
  assert.equal(saying('start'), 'Times of the moves: no move yet.');
  assert.equal(saying('no clocks'), 'Times of the moves: 12 moves, no clock readings.');
  assert.match(saying('marks'), /; 7 times not as read; White to move\.$/);
  assert.match(saying('feed silent'), /; new with 10 Nf3; nobody knows whose clock runs\.$/);
  assert.match(saying('page lost'), /nobody knows whose clock runs\.$/);
  assert.match(saying('ended'), /the game has ended\.$/);
  assert.match(saying('minutes only'), /longest 8\u00a0min on 10… d6/);
});
