// @ts-check
/** @typedef {import('./tellsizes.js').Size} Size */
import { svg } from './dom.js';
import { BASELINE } from './tellmarks.js';
import { Part } from './tellpart.js';
import { wide } from './tellsizes.js';

/**
 * What a drawing is built of, each part once: the lanes cut out of their paper,
 * and the groups into which a state is drawn.
 *
 * @param {Size} size @param {number[]} tops @param {import('./tellpaint.js').Paint} paint @param {number} width @param {number} height
 */
export function ground(size, tops, paint, width, height) {
  /** @type {Record<string, SVGElement>} */ const g = {};
  /** @type {Record<string, Part>} */ const parts = {};
  const group = (/** @type {string} */ name, /** @type {Record<string, any>} */ attributes = {}) => (g[name] = svg('g', attributes));
  const lanes = (/** @type {string} */ fill) => tops.map((y) => svg('rect', { y, width, height: size.lane, fill }));
  g.paper = svg('path');
  g.clips = svg('defs', {}, svg('clipPath', { id: paint.name('lanes') }, g.paper));
  parts.passed = new Part(width, height, ...lanes('var(--lane)'));
  const below = [...lanes('var(--ahead)'), parts.passed.root, group('marks'), group('plies')];
  group('ground', { 'clip-path': `url(#${paint.name('lanes')})` }).append(...below);
  for (const name of ['run', 'dots']) parts[name] = new Part(width, height, group(name));
  group('running').append(parts.run.root);
  for (const name of ['figures', 'axis', 'novelty']) group(name);
  return { g, parts };
}

/** The teeth of a torn edge, in a lane of a size. @param {Size} size */
export const toothOf = (size) => Math.max(2, Math.round(size.lane / 7));

/**
 * A break: its torn edges and its length, which gives way to a pole between them.
 *
 * @param {Size} size @param {number[]} tops @param {[number, number]} between @param {number} goneMs @param {number | null} pole
 */
export function tear(size, tops, between, goneMs, pole) {
  const edges = tops.map((top) => tornEdges(size, top, between, toothOf(size)));
  const [from, to] = between;
  if (pole === null || pole < from || pole > to) return [...edges, ...length(size, tops, between, goneMs)];
  /** @type {[number, number]} */ const room = pole < (from + to) / 2 ? [pole + size.pole, to - toothOf(size)] : [from + toothOf(size), pole];
  return [...edges, ...length(size, tops, room, goneMs)];
}

/**
 * Outline of the lanes: two pieces where time is torn out. The teeth stand in
 * the break, so that they cut no move.
 *
 * @param {number} width @param {number} height @param {[number, number] | null} tear @param {number} tooth
 */
export function paper(width, height, tear, tooth) {
  if (!tear) return `M0 0H${width}V${height}H0z`;
  const [from, to] = tear;
  return `M0 0L${zigzag(from, 0, height, tooth)}L0 ${height}z M${width} 0L${zigzag(to - tooth, 0, height, tooth)}L${width} ${height}z`;
}

/** The two torn edges of a lane, drawn along the same teeth. @param {Size} size @param {number} top @param {[number, number]} tear @param {number} tooth */
function tornEdges(size, top, [from, to], tooth) {
  const line = (/** @type {number} */ x) => `M${zigzag(x, top, top + size.lane, tooth)}`;
  return svg('path', { class: 'tell-torn', d: line(from) + line(to - tooth), 'stroke-width': size.lane >= 18 ? 1.5 : 1 });
}

/** Points of a torn edge from y0 to y1, its teeth to the right of x. @param {number} x @param {number} y0 @param {number} y1 @param {number} tooth */
function zigzag(x, y0, y1, tooth) {
  const points = [];
  for (let i = Math.ceil(y0 / tooth); i * tooth < y1; i++) points.push(`${toothAt(x, i, tooth)} ${i * tooth}`);
  return [`${along(x, y0, tooth)} ${y0}`, ...points, `${along(x, y1, tooth)} ${y1}`].join('L');
}

/** @param {number} x @param {number} i @param {number} tooth */
function toothAt(x, i, tooth) {
  return i % 2 ? x + tooth : x;
}

/** Where the edge is at a height between two points. @param {number} x @param {number} y @param {number} tooth */
function along(x, y, tooth) {
  const i = Math.floor(y / tooth);
  const share = y / tooth - i;
  return toothAt(x, i, tooth) * (1 - share) + toothAt(x, i + 1, tooth) * share;
}

/** The length of what is torn out, over both lanes. @param {Size} size @param {number[]} tops @param {[number, number]} room @param {number} goneMs */
function length(size, tops, room, goneMs) {
  const type = size.tear[1];
  if (type === 0) return [];
  const minutes = String(Math.round(goneMs / 60_000));
  const x = (room[0] + room[1]) / 2;
  const middle = (tops[0] + tops[1] + size.lane) / 2;
  const line = (/** @type {string} */ text, /** @type {number} */ y) => svg('text', { class: 'tell-gone', x, y, 'font-size': type }, text);
  const one = `${minutes} min`;
  if (wide(one, type) <= room[1] - room[0] - type) return [line(one, middle + type * BASELINE)];
  return [line(minutes, middle - type * 0.15), line('min', middle + type * 0.85)];
}
