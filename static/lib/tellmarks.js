// @ts-check
/** @typedef {import('./tellsizes.js').Size} Size */
/** @typedef {import('./tellmap.js').Chart} Chart */
import { show, svg } from './dom.js';

/** Baseline of a text under its middle, as a share of its type. */
export const BASELINE = 0.35;
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

  /** @param {Size} size @param {number[]} tops upper edge of each lane */
  constructor(size, tops) {
    this.#s = size;
    this.#tops = tops;
    const [thick, over] = size.head;
    this.#bar = svg('rect', { width: thick, height: size.lane + over, fill: 'var(--text)' });
    this.#line = svg('rect', { width: Math.min(2, thick), height: tops[1] - tops[0], fill: 'var(--quiet)' });
    const [y1, y2] = [tops[0] - over, tops[1] + size.lane + over];
    const dash = { stroke: 'var(--quiet)', 'stroke-width': Math.min(3, thick), 'stroke-dasharray': size.lane >= 18 ? '3 5' : '2 2' };
    this.#dash = svg('line', { x1: 1.5, x2: 1.5, y1, y2, ...dash });
    this.now = svg('text', { x: thick + 14, 'font-size': size.now || 1 });
    this.root = svg('g', { class: 'tell-head' }, this.#line, this.#bar, this.#dash, this.now);
  }

  /** @param {import('./tellmap.js').Head} h @param {number} lane of the running side */
  draw(h, lane) {
    const { lane: height, head, now } = this.#s;
    const runs = !h.held && h.side !== '';
    this.#bar.setAttribute('y', String(lane === 0 ? this.#tops[0] - head[1] : this.#tops[1]));
    this.#line.setAttribute('y', String(lane === 0 ? this.#tops[0] + height : this.#tops[0]));
    this.now.setAttribute('y', String(this.#tops[lane] + height / 2 + now * BASELINE));
    this.now.setAttribute('class', `tell-now ${h.look}`);
    show(this.#bar, runs);
    show(this.#line, runs);
    show(this.#dash, h.held);
    show(this.now, runs && now > 0);
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
  return [svg('path', { d, fill: 'var(--novelty)' }), svg('text', text, 'new')];
}

/** Where the pole of the ply at an index stands. @param {Chart} chart @param {number} i */
export function poleAt(chart, i) {
  const x = chart.joints[i + 1];
  const tear = chart.tear;
  if (!tear || !chart.isGone(i)) return x;
  const edge = (tear[1] - tear[0]) * EDGE_SHARE;
  return x < (tear[0] + tear[1]) / 2 ? tear[0] + edge : tear[1] - edge;
}
