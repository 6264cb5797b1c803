// How marks are drawn is our own; that a square lies where it does is the board's.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import './fakedom.mjs';
import { middle, shapeOf } from '../lib/pointing.js';
import { Pointer } from '../lib/pointer.js';

const SQUARES = [...'abcdefgh'].flatMap((f) => [...'12345678'].map((r) => f + r));
const mark = (kind, from, to) => ({ kind, from, to });
/** Every absolute point of a path; a circle gives its four ends. */
function points(d) {
  const out = [];
  for (const [, letter, rest] of d.matchAll(/([MLCa])([^MLCaZ]*)/g)) {
    const n = rest.match(/-?[\d.]+/g).map(Number);
    if (letter !== 'a') for (let i = 0; i < n.length; i += 2) out.push([n[i], n[i + 1]]);
    else if (n[5] > 0) {
      const [x, y] = out.at(-1);
      out.push([x + 2 * n[0], y], [x + n[0], y - n[0]], [x + n[0], y + n[0]]);
    }
  }
  return out;
}
const separate = (d) => d.split(/(?=M)/);
const far = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1]);

test('a square lies where it does on a board, from either side', () => {
  assert.deepEqual(middle('a8', false), [50, 50]);
  assert.deepEqual(middle('h1', false), [750, 750]);
  for (const s of SQUARES) assert.deepEqual(middle(s, true), middle(s, false).map((n) => 800 - n), s);
});

test('no mark leaves the board, whichever way it points', () => {
  const rim = 3.5 + 2.6; // half a line and its casing
  for (const kind of ['look', 'danger', 'guard', 'plan', 'weak']) {
    for (const from of ['', ...SQUARES]) {
      for (const to of SQUARES) {
        for (const manned of [false, true]) {
          const { lines, areas } = shapeOf(mark(kind, from, to), false, manned);
          for (const [x, y] of points(lines + areas)) {
            const inside = [x, y].every((n) => n >= (lines ? rim : 2.6) && n <= 800 - (lines ? rim : 2.6));
            // The handles of the cradle's curve lie below what is drawn.
            assert.ok(inside || kind === 'guard', `${kind} ${from} ${to}: ${x} ${y}`);
          }
        }
      }
    }
  }
});

test('the five meanings have five shapes', () => {
  const shapes = Object.fromEntries(['look', 'danger', 'guard', 'plan', 'weak'].map((k) => [k, shapeOf(mark(k, 'a3', 'f8'), false, true)]));
  assert.deepEqual(separate(shapes.look.lines).length, 1, 'one ring');
  assert.ok(separate(shapes.danger.lines).length > 6, 'many dashes and a cross');
  assert.deepEqual(separate(shapes.guard.lines).map((d) => d.includes('C')), [false, true], 'a plain line and a cradle');
  assert.equal(shapes.plan.lines, '');
  assert.deepEqual(separate(shapes.plan.areas).length, 2, 'an arrow and its dot');
  assert.deepEqual(separate(shapes.weak.lines).map((d) => points(d).length), [7, 7], 'two jagged walls');
});

test('dashes lead from the attacker straight to the cross', () => {
  for (const [from, to] of [['a3', 'f8'], ['d6', 'd3'], ['g8', 'h6'], ['c4', 'd5'], ['e4', 'e5']]) {
    const parts = separate(shapeOf(mark('danger', from, to), false, true).lines);
    const dashes = parts.slice(0, -2).map(points);
    assert.ok(dashes.length >= 3, `${dashes.length} dashes are no broken line`);
    const [a, b] = [middle(from, false), middle(to, false)];
    for (const [x, y] of dashes.flat()) {
      const off = Math.abs((b[0] - a[0]) * (a[1] - y) - (a[0] - x) * (b[1] - a[1])) / far(a, b);
      assert.ok(off < 0.2, `${off} beside the way`);
    }
    const tips = separate(shapeOf(mark('danger', from, to), false, true).lines).slice(-2).flatMap(points);
    for (const tip of tips) assert.ok(far(dashes.at(-1)[1], tip) > 9, 'the last dash keeps clear of the cross');
    assert.ok(far(dashes[0][0], a) < 50, 'begins on the square of the attacker');
    for (let i = 1; i < dashes.length; i++) assert.ok(far(dashes[i - 1][1], dashes[i][0]) > 7 + 2 * 2.6, 'the casings leave a gap');
  }
});

test('the cross is in the middle of an empty square, and on a man towards the attacker', () => {
  const centre = (manned) => {
    const [one, other] = separate(shapeOf(mark('danger', 'a3', 'f8'), false, manned).lines).slice(-2).map(points);
    return [0, 1].map((i) => (one[0][i] + one[1][i] + other[0][i] + other[1][i]) / 4);
  };
  assert.deepEqual(centre(false), middle('f8', false));
  const off = centre(true);
  assert.ok(off[0] < 550 && off[1] > 50 && off[0] > 500 && off[1] < 100, `${off} is no longer on f8, towards a3`);
  assert.ok(far(off, middle('f8', false)) > 40, 'it lies beside the man');
});

test('a cradle lies below its man as it is seen, from either side', () => {
  for (const flipped of [false, true]) {
    const [x, y] = middle('d4', flipped);
    const [, curve] = separate(shapeOf(mark('guard', 'd2', 'd4'), flipped, true).lines);
    for (const p of points(curve)) assert.ok(p[1] > y && Math.abs(p[0] - x) < 50);
  }
});

test('the walls of what is weak stand beside a man, and are jagged', () => {
  const [x] = middle('d4', false);
  const walls = separate(shapeOf(mark('weak', 'a1', 'd4'), false, true).lines).map(points);
  for (const wall of walls) {
    assert.ok(wall.every((p) => Math.abs(p[0] - x) >= 33 && Math.sign(p[0] - x) === Math.sign(wall[0][0] - x)));
    for (let i = 1; i < wall.length; i++) assert.ok(Math.abs(wall[i][0] - wall[i - 1][0]) === 10 && wall[i][1] > wall[i - 1][1]);
  }
});

test('an arrow ends on its square', () => {
  const tip = points(shapeOf(mark('plan', 'f3', 'g5'), false, false).areas)[3];
  assert.ok(far(tip, middle('g5', false)) < 10);
});

test('without a way, what stands at its end is drawn alone', () => {
  assert.equal(separate(shapeOf(mark('danger', '', 'f8'), false, false).lines).length, 2);
  assert.equal(shapeOf(mark('guard', 'd4', 'd4'), false, true).lines, shapeOf(mark('guard', '', 'd4'), false, true).lines);
});

test('what names no square or no known meaning draws nothing', () => {
  for (const m of [mark('look', '', ''), mark('look', '', 'i9'), mark('dance', 'a1', 'a2'), mark('plan', 'a1', 'e44')]) {
    assert.equal(shapeOf(m, false, false), null);
  }
});

test('the drawing changes with the marks, and with a man who comes to stand there', () => {
  globalThis.document.hidden = true;
  const pointer = new Pointer({ flipped: false, motion: true });
  const drawn = () => (pointer.root.children[0]?.children ?? []).map((g) => g.getAttribute('data-kind'));
  const marks = [mark('look', '', 'e8'), mark('danger', 'a3', 'f8'), mark('dance', '', 'e4')];
  pointer.show(marks, new Set());
  assert.deepEqual(drawn(), ['look', 'danger']);
  const first = pointer.root.children[0];
  pointer.show(structuredClone(marks), new Set());
  assert.equal(pointer.root.children[0], first, 'the same marks are left alone');
  pointer.show(marks, new Set(['f8']));
  assert.notEqual(pointer.root.children[0], first);
  pointer.show([], new Set());
  assert.deepEqual(drawn(), []);
});
