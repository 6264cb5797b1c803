// A countdown that says 1 until it is over, and marks that fall on round seconds before the end: common practice, no source.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { marks, thought } from '../scene/challenge/think.js';

const think = { asked: 1000, ends: 31_000 };

test('the time is counted down in whole seconds, the last one full until it is over', () => {
  const at = (gone) => thought(think, think.asked + gone);
  assert.deepEqual([0, 1, 999, 1000, 29_000, 29_999, 30_000, 99_000].map((gone) => at(gone).left), [30, 30, 30, 29, 1, 1, 0, 0]);
  assert.deepEqual([at(29_999).over, at(30_000).over], [false, true]);
  assert.deepEqual([at(0).share, at(15_000).share, at(30_000).share], [0, 0.5, 1]);
  assert.deepEqual([at(0).wait, at(250).wait, at(29_900).wait, at(30_000).wait], [1000, 750, 100, Infinity]);
});

test('whoever looks before it begins, or at a time of no length, sees no nonsense', () => {
  assert.deepEqual([thought(think, 0).left, thought(think, 0).share], [30, 0]);
  assert.equal(thought({ asked: 5, ends: 5 }, 5).over, true);
  const odd = thought({ asked: 0, ends: 10_500 }, 0);
  assert.deepEqual([odd.left, odd.share], [11, 0]);
});

test('the block never shrinks while time goes on', () => {
  let before = 0;
  for (let now = 900; now < 32_000; now += 37) {
    const { share } = thought(think, now);
    assert.ok(share >= before && share <= 1, `${now}: ${share} after ${before}`);
    before = share;
  }
});

test('marks count from the end, as fine as there is room for, the long ones round', () => {
  const half = marks(30_000, 1680);
  assert.equal(half.length, 29);
  assert.deepEqual(half.filter((m) => m.long).map((m) => Math.round(30 - m.share * 30)), [25, 20, 15, 10, 5]);
  for (const length of [5000, 20_000, 47_300, 90_000, 300_000, 3_600_000]) {
    const at = marks(length, 1680).map((m) => m.share * 1680);
    assert.ok(at.length > 1 && at.length < 80, `${length}: ${at.length} marks`);
    at.reduce((before, x) => (assert.ok(x - before >= 21.99 || before === -1, `${length}: ${before} and ${x}`), x), -1);
    assert.ok(at.every((x) => x > 0 && x < 1680));
  }
});
