// @ts-check
/** @typedef {import('./tellsizes.js').Size} Size */
/** @typedef {import('./tellmap.js').Chart} Chart */
import { Digits } from './digits.js';
import { el, mark, show, svg } from './dom.js';
import { word } from './language.js';
import { OVER, Part } from './tellpart.js';

/** Baseline of a text under its middle, as a share of its type. */
export const BASELINE = 0.35;
/** A line of this type has its figures so much under its middle, as a share of the type. */
const RAISED = 0.05;
/** A casing keeps pole and flag apart from what they stand on. */
const CASING = 2;
/** A new move inside of a break stands this near to its edge, clear of the figure. */
const EDGE_SHARE = 0.17;

/** HeadMark is the present: a bar in the lane whose clock runs, a thin line through the other, dashes when nobody knows. */
export class HeadMark {
  #s;
  #tops;
  #bar;
  #line;
  #dash;
  /** @type {[Part, number][]} each with its thickness */ #parts;
  #held = false;

  /** @param {Size} size @param {number[]} tops upper edge of each lane @param {number} width @param {number} height of the drawing */
  constructor(size, tops, width, height) {
    this.#s = size;
    this.#tops = tops;
    const [thick, over] = size.head;
    const [thin, dashed] = [Math.min(2, thick), Math.min(3, thick)];
    const wide = width + OVER; // each is cut to its thickness
    this.#bar = svg('rect', { width: wide, height: size.lane + over, fill: 'var(--text)' });
    this.#line = svg('rect', { width: wide, height: tops[1] - tops[0], fill: 'var(--quiet)' });
    const [y1, y2] = [tops[0] - over, tops[1] + size.lane + over];
    const dash = { stroke: 'var(--quiet)', 'stroke-width': wide, 'stroke-dasharray': size.lane >= 18 ? '3 5' : '2 2' };
    this.#dash = svg('line', { x1: wide / 2, x2: wide / 2, y1, y2, ...dash });
    const part = (/** @type {SVGElement} */ shape) => new Part(width, height, shape);
    this.#parts = [[part(this.#dash), dashed], [part(this.#line), thin], [part(this.#bar), thick]];
    this.root = svg('g', { class: 'tell-head' }, ...this.#parts.map(([p]) => p.root));
  }

  /** @param {import('./tellmap.js').Head} h @param {number} lane of the running side */
  draw(h, lane) {
    const { lane: height, head } = this.#s;
    const runs = !h.held && h.side !== '';
    this.#bar.setAttribute('y', String(lane === 0 ? this.#tops[0] - head[1] : this.#tops[1]));
    this.#line.setAttribute('y', String(lane === 0 ? this.#tops[0] + height : this.#tops[0]));
    this.#held = h.held;
    show(this.#bar, runs);
    show(this.#line, runs);
    show(this.#dash, h.held);
  }

  /** @param {number} x */
  move(x) {
    for (const [part, thick] of this.#held ? this.#parts.slice(0, 1) : this.#parts.slice(1)) part.show(x, x + thick);
  }
}

/** Spent is the time on this move, written behind the present: beside the drawing, so that it moves freely. */
export class Spent {
  #s;
  #tops;
  #up;
  #digits;
  #place = '';
  #y = 0;

  /** @param {Size} size @param {number[]} tops @param {number} height of the drawing, which stands before it */
  constructor(size, tops, height) {
    this.#s = size;
    this.#tops = tops;
    this.#up = height;
    this.root = el('div', { class: 'tell-now', 'aria-hidden': 'true' });
    this.root.style.fontSize = `${size.now}px`;
    this.root.style.lineHeight = `${size.lane}px`;
    this.#digits = new Digits(this.root);
  }

  /** @param {string} look @param {number} lane of the running side */
  draw(look, lane) {
    mark(this.root, 'class', `tell-now ${look}`);
    this.#y = this.#tops[lane] - this.#up - this.#s.now * RAISED;
  }

  /** @param {string} text "" none @param {number} x of the present */
  say(text, x) {
    this.#digits.write(text);
    mark(this.root, 'data-text', text || null);
    const place = `translate(${Math.round(10 * (x + this.#s.head[0] + 14)) / 10}px, ${this.#y}px)`;
    if (place !== this.#place) this.root.style.transform = this.#place = place;
  }
}

/**
 * A new move: a pole through both lanes where it was pressed, and the flag on
 * it, if the size has one. The flag points back, over what is known: so it
 * never covers the present, nor turns round when time goes on. Where
 * there is no room behind, it points forward.
 *
 * @param {Size} size @param {number[]} tops @param {number} x of the press
 */
export function novelty(size, tops, x) {
  const { pole, flag, lane, over, under } = size;
  const up = flag ? flag[1] + CASING : Math.min(6, over);
  const [top, bottom] = [tops[0] - up, tops[1] + lane + Math.min(4, under)];
  const stand = (/** @type {number} */ by, /** @type {string} */ fill) =>
    svg('rect', { x: x - by, y: top, width: pole + 2 * by, height: bottom - top, fill });
  const parts = [stand(size.lane < 12 ? 1 : CASING, 'var(--ink)'), stand(0, 'var(--novelty)')];
  if (flag) parts.push(...flagOn(flag, x, pole, top));
  return svg('g', { class: 'tell-novelty' }, ...parts);
}

/** Where the flag lies, from left to right. @param {Size} size @param {number} x @returns {[number, number]} */
export function flagSpan({ flag, pole }, x) {
  const width = flag ? flag[0] : pole;
  return x + pole >= width ? [x + pole - width, x + pole] : [x, x + width];
}

/** @param {[number, number, number]} flag @param {number} x @param {number} pole @param {number} y */
function flagOn([width, height, type], x, pole, y) {
  const back = x + pole >= width;
  const [from, way] = back ? [x + pole, -1] : [x, 1];
  const notch = height * 0.3;
  const d = `M${from} ${y}h${way * width}l${-way * notch} ${height / 2}l${way * notch} ${height / 2}h${-way * width}z`;
  const text = { class: 'tell-flag', x: from + way * (width - notch * 0.8) / 2, y: y + height / 2 + type * BASELINE, 'font-size': type };
  return [svg('path', { d, fill: 'var(--novelty)' }), svg('text', text, word('new'))];
}

/** Where the pole of the ply at an index stands. @param {Chart} chart @param {number} i */
export function poleAt(chart, i) {
  const x = chart.joints[i + 1];
  const tear = chart.tear;
  if (!tear || !chart.isGone(i)) return x;
  const edge = (tear[1] - tear[0]) * EDGE_SHARE;
  return x < (tear[0] + tear[1]) / 2 ? tear[0] + edge : tear[1] - edge;
}
