// Where the boards of a wall stand is our own rule; the safe area is that of EBU R 95: 5 % from
// every edge of the picture.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { SIZES } from '../lib/tellsizes.js';
import { AREA, MOST, layout } from '../scene/wall/layout.js';

const counts = Array.from({ length: MOST }, (_, i) => i + 1);
const apart = (a, b) => a.x + a.w <= b.x || b.x + b.w <= a.x || a.y + a.h <= b.y || b.y + b.h <= a.y;
const boxes = ({ cells, lifted }) => [...cells, ...(lifted ? [lifted] : [])];
const each = (check) => [true, false].forEach((lift) => counts.forEach((n) => check(layout(n, lift), `${n} boards, lift ${lift}`, n, lift)));

test('the area is the graphics-safe one of 1920 by 1080', () => {
  assert.deepEqual({ ...AREA }, { x: 0.05 * 1920, y: 0.05 * 1080, w: 0.9 * 1920, h: 0.9 * 1080 });
});

test('every board has a cell, all of one size, inside the area', () => {
  each((l, name, n, lift) => {
    assert.equal(l.cells.length, n, name);
    assert.equal(l.lifted !== null, lift, name);
    assert.ok(l.cells.every((c) => c.w === l.card.w && c.h === l.card.h), name);
    for (const b of boxes(l)) {
      const inside = b.x >= AREA.x && b.y >= AREA.y && b.x + b.w <= AREA.x + AREA.w && b.y + b.h <= AREA.y + AREA.h;
      assert.ok(inside, `${name}: ${JSON.stringify(b)}`);
    }
  });
});

test('no two places overlap', () => {
  each((l, name) => {
    const all = boxes(l);
    all.forEach((a, i) => all.slice(i + 1).forEach((b) => assert.ok(apart(a, b), `${name}: ${JSON.stringify([a, b])}`)));
  });
});

test('what a card holds fits into it', () => {
  const line = (/** @type {string} */ size) => SIZES[size].over + 2 * SIZES[size].lane + SIZES[size].gap + SIZES[size].under;
  each((l, name) => {
    for (const c of [l.card, ...(l.large ? [l.large] : [])]) {
      const board = 8 * c.square;
      const high = c.form === 'beside' ? board : c.head + board + 2 * c.row;
      assert.ok(high + line(c.line) <= c.h, `${name}: ${JSON.stringify(c)}`);
      assert.ok(board <= c.w, name);
      if (c.form === 'beside') assert.ok(c.w - board >= 172, `${name}: the players have ${c.w - board} px`);
    }
  });
});

test('squares are large enough to tell the men apart, and clocks are the largest type', () => {
  each((l, name) => {
    assert.ok(l.card.square >= 22, `${name}: ${l.card.square}`);
    assert.ok(l.card.clock >= 44 && l.card.clock > l.card.name && l.card.name >= 25, name);
    if (l.large) assert.ok(l.large.square >= 1.6 * l.card.square, `${name}: a lifted board has to look lifted`);
  });
});

test('a number outside of the range is taken as the nearest in it', () => {
  assert.deepEqual(layout(0, true), layout(1, true));
  assert.deepEqual(layout(40, false), layout(MOST, false));
});
