// Where a break stands is our own rule; what must hold of any such rule is
// tried here on invented games: nothing too narrow, nothing out of order,
// nothing lost, and a break that stays.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { LONGEST_WHOLE_MS, layout } from '../lib/tellbreak.js';
import { HEAD_SHARE, axis } from '../lib/tellmap.js';
import { SIZES } from '../lib/tellsizes.js';
import { dice } from './tellstates.mjs';

const MIN = 60_000;
const PLACES = [['air', 976], ['third', 976], ['lifted', 560], ['wall', 444], ['panel', 760], ['panel', 320], ['phone', 320], ['filter', 150], ['filter', 110]];

/** Thinks that are mostly short and sometimes very long, as thinks are. */
function game(seed) {
  const next = dice(seed);
  const mean = [4, 20, 60, 200, 600][seed % 5] * 1000;
  return Array.from({ length: 20 + Math.floor(240 * next()) }, () => {
    const fate = next();
    if (fate < 0.02) return 0;
    if (fate > 0.99) return 50 * MIN * next();
    return -mean * Math.log(1 - next());
  });
}

/** Every prefix of a game, and moments within its thinks. */
function* moments(spent) {
  for (let n = 0; n <= spent.length; n++) {
    yield [spent.slice(0, n), 0];
    for (const share of n < spent.length ? [0.3, 0.9] : []) yield [spent.slice(0, n), spent[n] * share];
  }
}

const close = (a, b) => Math.abs(a - b) < 1e-6;

test('no move is narrower than the floor, all are in order, and what is drawn is all there is', () => {
  let broken = 0;
  for (let seed = 0; seed < 60; seed++) {
    const [name, width] = PLACES[seed % PLACES.length];
    const spent = game(seed);
    for (const [done, run] of moments(spent)) {
      const chart = layout(done, run, width, SIZES[name]);
      const where = `seed ${seed}, ${name} ${width}, ${done.length} plies`;
      let total = 0;
      for (let i = 0; i < done.length; i++) {
        const wide = chart.joints[i + 1] - chart.joints[i];
        total += wide;
        assert.ok(wide >= 0, `${where}: ply ${i} is ${wide} wide`);
        if (!chart.isGone(i)) assert.ok(wide > SIZES[name].floor - 1e-6, `${where}: ply ${i} is ${wide} wide`);
      }
      assert.ok(close(total, chart.played), where);
      assert.ok(close(chart.playedMs, done.reduce((a, b) => a + b, 0)), where);
      assert.ok(chart.after(run) <= width * HEAD_SHARE + 1e-6, `${where}: the head is at ${chart.after(run)}`);
      if (!chart.gap) continue;
      broken++;
      assert.ok(close(chart.tear[1] - chart.tear[0], SIZES[name].tear[0]), where);
      assert.ok(chart.tear[0] <= 0.1 * width + 1e-6, `${where}: the beginning takes ${chart.tear[0]}`);
    }
  }
  assert.ok(broken > 1000, `only ${broken} moments with a break`);
});

/** A game minute by minute: plies done, time of the one under way. */
function* minutes(spent) {
  for (let n = 0; n < spent.length; n++) {
    yield [n, 0];
    for (let run = MIN; run < spent[n]; run += MIN) yield [n, run];
  }
}

test('a break comes late, moves seldom and only on, and its scale stays with it', () => {
  let moves = 0;
  for (let seed = 0; seed < 40; seed++) {
    const spent = game(seed);
    let [before, plies, time] = [null, 0, 0];
    for (const [n, run] of minutes(spent)) {
      const chart = layout(spent.slice(0, n), run, 976, SIZES.air);
      const where = `seed ${seed}, ${n} plies and ${run / MIN} min`;
      const now = chart.playedMs + run;
      assert.ok(chart.gap || !before, `${where}: the break is gone`);
      if (!chart.gap) continue;
      if (before?.gap.to !== chart.gap.to || before.scale !== chart.scale) {
        moves++;
        // A last hour that is too long for its room needs another scale where the break is.
        const on = chart.gap.to > (before?.gap.to ?? 0) || (chart.gap.to === before.gap.to && chart.scale < before.scale);
        assert.ok(on, `${where}: back`);
        if (before) assert.ok(n - plies >= 12 || now - time >= 10 * MIN, `${where}: moved before at ply ${plies}, ${(now - time) / MIN} min ago`);
        else assert.ok(now > 0.7 * LONGEST_WHOLE_MS || n > 100, `${where}: too early`);
        [plies, time] = [n, now];
      }
      before = chart;
    }
  }
  assert.ok(moves > 40, `${moves} moves`);
});

test('a page that came in the middle of a think breaks where the others do', () => {
  for (let seed = 0; seed < 40; seed++) {
    const spent = game(seed);
    for (let n = 60; n < spent.length; n += 17) {
      const [live, late] = [layout(spent.slice(0, n), spent[n] - 1, 976, SIZES.air), layout(spent.slice(0, n + 1), 0, 976, SIZES.air)];
      assert.deepEqual(live.gap, late.gap, `seed ${seed}, ply ${n}`);
    }
  }
});

test('behind the break stands the last hour, or thirty moves', () => {
  for (const [mean, count] of [[150_000, 140], [10_000, 300]]) {
    const spent = Array(count).fill(mean);
    for (let n = 100; n <= count; n++) {
      const chart = layout(spent.slice(0, n), 0, 976, SIZES.air);
      if (chart.gap) assert.ok((n - chart.gap.to) * mean >= 60 * MIN || n - chart.gap.to >= 60, `${n - chart.gap.to} plies`);
    }
    assert.ok(layout(spent, 0, 976, SIZES.air).gap, 'such a game is broken');
  }
});

test('at two hours there is a break, before that none in a game of sixty moves', () => {
  // The largest window is two hours; its head stands at 86 of 100, which is 103 min.
  assert.equal(layout(Array(120).fill(50_000), 0, 976, SIZES.air).gap, null);
  assert.ok(layout(Array(80).fill(90_000), 0, 976, SIZES.air).gap);
});

test('a single think of three hours is not cut', () => {
  const chart = layout([1000, 2000], 180 * MIN, 976, SIZES.air);
  assert.equal(chart.gap, null);
  assert.ok(chart.after(180 * MIN) <= 976 * HEAD_SHARE);
});

test('minutes rise along the axis, through the break as well', () => {
  for (let seed = 0; seed < 60; seed++) {
    const chart = layout(game(seed), 0, 976, SIZES.air);
    let last = -1;
    for (let ms = 0; ms <= chart.playedMs + 10 * MIN; ms += MIN / 2) {
      const x = chart.x(ms);
      assert.ok(x >= last, `seed ${seed}: ${x} after ${last}`);
      last = x;
    }
    const marks = axis(chart, 976, 90);
    marks.forEach((m, i) => assert.ok(i === 0 || (m.minute > marks[i - 1].minute && m.x > marks[i - 1].x), `seed ${seed}`));
    for (const { x } of marks) assert.ok(!chart.tear || x <= chart.tear[0] || x > chart.tear[1], `seed ${seed}: a mark in the break`);
  }
});

test('lanes so narrow that nothing fits do not hang', () => {
  for (const width of [1, 5, 20, 40]) assert.ok(layout(Array(300).fill(30_000), 0, width, SIZES.filter).joints.every(Number.isFinite));
});
