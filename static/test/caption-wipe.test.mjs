// How plates come and go is our own; what is held here is that the picture never shows through between two.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { leave, wipe } from '../scene/caption/wipe.js';

/** What of a box a clip leaves, from left to right. */
function seen(clip, box) {
  const [, right, , left] = clip.match(/-?[\d.]+(?=px)/g).map(Number);
  return [Math.max(box.left, box.left + left), Math.min(box.right, box.right - right)];
}
/** The clip between two, as a browser computes it: each length by itself. */
function between({ from, to }, share) {
  const numbers = (clip) => clip.match(/-?[\d.]+(?=px)/g).map(Number);
  const [a, b] = [numbers(from), numbers(to)];
  return `inset(${a.map((n, i) => `${n + (b[i] - n) * share}px`).join(' ')})`;
}

const wide = { left: 96, right: 1100 };
const short = { left: 96, right: 500 };
const atRight = { left: 900, right: 1824 };
const shortAtRight = { left: 1500, right: 1824 };

test('a plate alone opens from its edge, and is whole at the end', () => {
  const { next } = wipe(null, wide, false);
  assert.deepEqual(seen(next.from, wide), [96, 96]);
  assert.deepEqual(seen(next.to, wide), [96, 1100]);
  const rtl = wipe(null, wide, true).next;
  assert.deepEqual(seen(rtl.from, wide), [1100, 1100]);
  assert.deepEqual(seen(rtl.to, wide), [96, 1100]);
});

test('while one wipes over the other, what both cover is never bare', () => {
  for (const rtl of [false, true]) {
    for (const [old, next] of [[wide, short], [short, wide], [wide, wide], [atRight, shortAtRight], [shortAtRight, atRight]]) {
      const clips = wipe(old, next, rtl);
      for (let share = 0; share <= 1; share += 1 / 64) {
        const [a, b] = seen(between(clips.old, share), old);
        const [c, d] = seen(between(clips.next, share), next);
        for (let x = Math.max(old.left, next.left); x < Math.min(old.right, next.right); x += 7) {
          const covered = (a <= x && x + 1 <= b) || (c <= x && x + 1 <= d);
          assert.ok(covered, `${x} is bare at ${share}, ${JSON.stringify([old, next, rtl])}`);
        }
      }
      const [a, b] = seen(clips.old.to, old);
      assert.ok(b - a <= 2, `${b - a} px of the old plate are left in the end`);
      assert.deepEqual(seen(clips.next.to, next), [next.left, next.right]);
    }
  }
});

test('a plate without a follower goes back into its edge', () => {
  assert.deepEqual(seen(leave(wide, false).from, wide), [96, 1100]);
  assert.deepEqual(seen(leave(wide, false).to, wide), [96, 96]);
  assert.deepEqual(seen(leave(wide, true).to, wide), [1100, 1100]);
});
