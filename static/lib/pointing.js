// @ts-check
/** @typedef {import('./wire.js').Mark} Mark */
import { MEANING } from './wire.js';

/** A square in the units of these drawings; a board is eight of them each way, from the upper left. */
export const SQUARE = 100;

/**
 * What one mark draws, as path data: lines to be stroked, and areas to be filled.
 *
 * @typedef {{kind: string, lines: string, areas: string}} Shape
 * @typedef {[number, number]} Point
 */

/** Radius of the ring: outside the man, inside the frame of the last move. */
const RING = 41;
/** A way begins and ends so far from the middle of a square, where the man is mostly left bare. */
const REACH = 33;
const CROSS_ARM = 13;
/** A broken line ends so far from its cross, whose casing and its own lie between. */
const CROSS_CLEAR = 10;
/** A dash, and the gap to the next. */
const DASH = 16;
const GAP = 19;
/** A broken line has so many dashes at least, each as short as it takes with gaps of this size. */
const DASHES_LEAST = 3;
const GAP_LEAST = 12.5;
/** So long it is at least: that many dots. */
const DASHES_ROOM = (DASHES_LEAST - 1) * GAP_LEAST;
/** Lower than the feet of a man, and from there up at both sides. */
const CRADLE_FOOT = 42;
const CRADLE_SIDE = 36;
const CRADLE_TOP = 18;
const DOT = 12;
/** Two jagged walls beside a man or an empty square: how far out they reach and how far in, half their height, and their edges. */
const WALL = { out: 43, in: 33, half: 36, edges: 6 };
/** The arrow: half its shaft, half its head, the head's length, and how far its point is from the middle. */
const ARROW = { shaft: 6.5, head: 21, length: 34, point: 6 };

/**
 * The middle of a square; null for what is no square.
 *
 * @param {string} square "e4"
 * @param {boolean} flipped Black at the bottom
 * @returns {Point | null}
 */
export function middle(square, flipped) {
  if (!/^[a-h][1-8]$/.test(square)) return null;
  const [x, y] = ['abcdefgh'.indexOf(square[0]), 8 - Number(square[1])];
  return [(flipped ? 7 - x : x) * SQUARE + SQUARE / 2, (flipped ? 7 - y : y) * SQUARE + SQUARE / 2];
}

/**
 * How a mark is drawn; null when it names no square of a board, or no meaning known here.
 * Without a way, from nowhere or to where it begins, what stands at its end is drawn alone.
 *
 * @param {Mark} mark
 * @param {boolean} flipped
 * @param {boolean} manned whether a man stands where the mark ends
 * @returns {Shape | null}
 */
export function shapeOf(mark, flipped, manned) {
  const to = middle(mark.to, flipped);
  const draw = DRAWN[mark.kind];
  if (!to || !draw) return null;
  const from = mark.from === mark.to ? null : middle(mark.from, flipped);
  return { kind: mark.kind, ...draw(to, from, manned) };
}

/** @type {Record<string, (to: Point, from: Point | null, manned: boolean) => {lines: string, areas: string}>} */
const DRAWN = {
  [MEANING.LOOK]: (to) => ({ lines: circle(to, RING), areas: '' }),
  [MEANING.DANGER]: danger,
  [MEANING.GUARD]: (to, from) => {
    const way = from ? line(towards(from, to, REACH), nearest(holds(to), from)) : '';
    return { lines: way + cradle(to), areas: '' };
  },
  [MEANING.WEAK]: (to) => ({ lines: wall(to, -1) + wall(to, 1), areas: '' }),
  [MEANING.PLAN]: (to, from) => (from ? arrow(from, to) : { lines: '', areas: circle(to, DOT) }),
};

/**
 * A broken line that ends in a cross: outside of the attacker, and of a man who stands there, as
 * far as there is room for it to be seen as a broken line.
 *
 * @param {Point} to @param {Point | null} from @param {boolean} manned
 */
function danger(to, from, manned) {
  if (!from) return { lines: cross(to), areas: '' };
  const [x, y] = [Math.abs(to[0] - from[0]), Math.abs(to[1] - from[1])];
  const length = Math.hypot(x, y);
  const clear = (CROSS_ARM * (x + y)) / length + CROSS_CLEAR; // seen from the side it is smaller than along its arms
  const room = length - clear - DASHES_ROOM;
  const off = Math.min(RING, room / (manned ? 2 : 1));
  const end = manned ? towards(to, from, off) : to;
  return { lines: dashes(towards(from, to, off), towards(end, from, clear)) + cross(end), areas: '' };
}

/** The point so far from a towards b. @param {Point} a @param {Point} b @param {number} far @returns {Point} */
function towards(a, b, far) {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  return [a[0] + ((b[0] - a[0]) / length) * far, a[1] + ((b[1] - a[1]) / length) * far];
}

/** A line of three dashes at least that begins and ends with a whole one. @param {Point} a @param {Point} b */
function dashes(a, b) {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const count = Math.max(DASHES_LEAST, Math.floor((length + GAP) / (DASH + GAP)));
  const dash = Math.max(0.1, Math.min(DASH, (length - (count - 1) * GAP_LEAST) / count));
  const pitch = (length - dash) / (count - 1);
  return Array.from({ length: count }, (_, i) => line(towards(a, b, i * pitch), towards(a, b, i * pitch + dash))).join('');
}

/** @param {Point} middle */
function cross([x, y]) {
  const arm = CROSS_ARM;
  return line([x - arm, y - arm], [x + arm, y + arm]) + line([x - arm, y + arm], [x + arm, y - arm]);
}

/** Under the man as it is seen, whoever sits at the bottom. @param {Point} middle */
function cradle([x, y]) {
  const [left, right, top] = [x - CRADLE_SIDE, x + CRADLE_SIDE, y + CRADLE_TOP];
  // A cubic that lies three quarters of the way to its two equal handles.
  const handle = top + (CRADLE_FOOT - CRADLE_TOP) / 0.75;
  return `M${at([left, top])}C${at([left, handle])} ${at([right, handle])} ${at([right, top])}`;
}

/** Where a guard's line may reach the cradle. @param {Point} middle @returns {Point[]} */
function holds([x, y]) {
  return [[x - CRADLE_SIDE, y + CRADLE_TOP], [x + CRADLE_SIDE, y + CRADLE_TOP], [x, y + CRADLE_FOOT]];
}

/** A wall that crumbles, left or right of the middle. @param {Point} middle @param {-1 | 1} side */
function wall([x, y], side) {
  const height = (2 * WALL.half) / WALL.edges;
  const joints = Array.from({ length: WALL.edges + 1 }, (_, i) => at([x + side * (i % 2 ? WALL.in : WALL.out), y - WALL.half + i * height]));
  return `M${joints.join('L')}`;
}

/** @param {Point[]} points @param {Point} to */
function nearest(points, to) {
  const far = (/** @type {Point} */ p) => Math.hypot(p[0] - to[0], p[1] - to[1]);
  return points.reduce((best, p) => (far(p) < far(best) ? p : best));
}

/** A dot, a shaft and a head. @param {Point} from @param {Point} to */
function arrow(from, to) {
  const point = towards(to, from, ARROW.point);
  const neck = towards(to, from, ARROW.point + ARROW.length);
  const sides = (/** @type {Point} */ p, /** @type {number} */ half) => across(p, from, to, half);
  const [a, b] = sides(from, ARROW.shaft);
  const [c, d] = sides(neck, ARROW.shaft);
  const [e, f] = sides(neck, ARROW.head);
  return { lines: '', areas: `M${[a, c, e, point, f, d, b].map(at).join('L')}Z` + circle(from, DOT) };
}

/** The two points beside p, square to the way. @param {Point} p @param {Point} a @param {Point} b @param {number} half @returns {[Point, Point]} */
function across(p, a, b, half) {
  const [x, y] = towards(a, b, half);
  const [dx, dy] = [x - a[0], y - a[1]];
  return [[p[0] - dy, p[1] + dx], [p[0] + dy, p[1] - dx]];
}

/** @param {Point} middle @param {number} r */
function circle([x, y], r) {
  return `M${at([x - r, y])}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`;
}

/** @param {Point} a @param {Point} b */
function line(a, b) {
  return `M${at(a)}L${at(b)}`;
}

/** @param {Point} p */
function at([x, y]) {
  return `${Math.round(x * 10) / 10} ${Math.round(y * 10) / 10}`;
}
