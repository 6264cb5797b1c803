// @ts-check
import { show, svg } from './dom.js';
import { outline } from './marks.js';

/**
 * Where the lanes lie: height of a lane, upper edge of each, margin above the first.
 *
 * @typedef {{lane: number, tops: number[], margin: number}} Size
 */

/** A mark of a reading stands so large, and so far from its lane; lower lanes have no room beside them. */
const SIGN = { size: 16, away: 4, lane: 40 };

/** Speed lines shorter than this are left out. */
const SHORTEST_LINES = 4;

/** Shapes draws moves in the lanes, by their look. */
export class Shapes {
  #lane;
  #paint;

  /** @param {Size} size @param {import('./tellpaint.js').Paint} paint */
  constructor(size, paint) {
    this.#lane = size.lane;
    this.#paint = paint;
    this.tops = size.tops;
  }

  /**
   * A finished move from x0 to x1: a tick at the press with speed lines before
   * it, or a block as long as the move.
   *
   * @param {string} look @param {number} lane @param {number} x0 @param {number} x1
   */
  move(look, lane, x0, x1) {
    const gap = this.#lane >= 16 ? 2 : 1;
    if (look !== 'preparation') return [this.block(look, lane, x0, Math.max(1.5, x1 - x0 - gap))];
    const at = Math.max(x0, x1 - tickWidth(this.#lane));
    const [y, height] = [this.tops[lane], this.#lane];
    const press = svg('rect', { x: at, y, width: x1 - at, height, fill: 'var(--preparation)' });
    if (at - x0 < SHORTEST_LINES) return [press];
    return [svg('rect', { x: x0, y, width: at - x0, height, fill: this.#paint.lines(lane) }), press];
  }

  /**
   * An estimated time: the outer edge of its move is torn into teeth.
   *
   * @param {number} lane @param {number} x0 @param {number} x1
   */
  torn(lane, x0, x1) {
    const tooth = Math.max(2, Math.round(this.#lane / 10));
    const y = lane === 0 ? this.tops[0] : this.tops[1] + this.#lane;
    const deep = lane === 0 ? 1.5 * tooth : -1.5 * tooth;
    const count = Math.max(1, Math.floor((x1 - x0) / (2 * tooth)));
    const notch = (/** @type {number} */ i) => `M${x0 + 2 * tooth * i} ${y}l${tooth / 2} ${deep}h${tooth}l${tooth / 2} ${-deep}z`;
    return svg('path', { d: Array.from({ length: count }, (_, i) => notch(i)).join(''), fill: 'var(--ink)' });
  }

  /** A mark of a reading, outside of the lane, over or below the end of its move. @param {string} mark @param {number} lane @param {number} x */
  sign(mark, lane, x) {
    const drawn = outline(mark);
    if (!drawn || this.#lane < SIGN.lane) return [];
    const y = lane === 0 ? this.tops[0] - SIGN.size - SIGN.away : this.tops[1] + this.#lane + SIGN.away;
    return [svg('g', { class: 'tell-sign', transform: `translate(${x - SIGN.size / 2 - 2} ${y}) scale(${SIGN.size / 24})` }, drawn)];
  }

  /** A move still running, or a think. @param {string} look @param {number} lane @param {number} x @param {number} width */
  block(look, lane, x, width) {
    const [y, height] = [this.tops[lane], this.#lane];
    if (look === 'unsure') return hollow(x, y, width, height);
    if (look === 'none' && width < height / 2) return column(x + width / 2, y, height);
    return svg('rect', { x, y, width, height, fill: this.#fill(look, lane) });
  }

  /** @param {string} look @param {number} lane */
  #fill(look, lane) {
    if (look === 'thinking') return 'var(--thinking)';
    if (look === 'trouble') return this.#paint.hatch;
    return look === 'preparation' ? this.#paint.lines(lane) : this.#paint.dots(lane);
  }
}

/** HeadMark is the present: a bar in the lane whose clock runs, a thin line through the other, dots when nobody knows. */
export class HeadMark {
  #size;
  #over;
  #bar;
  #line;
  #dash;

  /** @param {Size} size */
  constructor(size) {
    const { lane, tops, margin } = (this.#size = size);
    const thick = lane >= 24 ? 4 : 2;
    this.#over = lane >= 40 ? 6 : Math.min(3, margin);
    this.#bar = svg('rect', { width: thick, height: lane + this.#over, fill: 'var(--text)' });
    this.#line = svg('rect', { width: 2, height: tops[1] - tops[0], fill: 'var(--quiet)' });
    const [y1, y2] = [tops[0] - this.#over, tops[1] + lane + this.#over];
    const dash = { stroke: 'var(--quiet)', 'stroke-width': 3, 'stroke-dasharray': lane >= 24 ? '3 5' : '2 2' };
    this.#dash = svg('line', { x1: 1.5, x2: 1.5, y1, y2, ...dash });
    this.now = svg('text', { x: thick + 14 });
    this.root = svg('g', {}, this.#line, this.#bar, this.#dash, this.now);
  }

  /** @param {import('./tellmap.js').Head} h @param {number} lane of the running side @param {boolean} figures */
  draw(h, lane, figures) {
    const { tops, lane: height } = this.#size;
    const runs = !h.held && h.side !== '';
    this.#bar.setAttribute('y', String(lane === 0 ? tops[0] - this.#over : tops[1]));
    this.#line.setAttribute('y', String(lane === 0 ? tops[0] + height : tops[0]));
    this.now.setAttribute('y', String(tops[lane] + height / 2 + 11));
    this.now.setAttribute('class', `tell-now ${h.look}`);
    show(this.#bar, runs);
    show(this.#line, runs);
    show(this.#dash, h.held);
    show(this.now, runs && figures);
  }
}

/** @param {number} lane */
function tickWidth(lane) {
  if (lane >= 48) return 6;
  if (lane >= 40) return 5;
  return lane >= 24 ? 4 : lane >= 16 ? 3 : 2;
}

/** Probably thinking: the block without its filling. @param {number} x @param {number} y @param {number} width @param {number} height */
function hollow(x, y, width, height) {
  const s = Math.min(height >= 24 ? 3 : height >= 16 ? 2 : 1.5, width / 2);
  const edge = { fill: 'none', stroke: 'var(--thinking)', 'stroke-width': s };
  return svg('rect', { x: x + s / 2, y: y + s / 2, width: Math.max(0, width - s), height: height - s, ...edge });
}

/** Dots one above the other: the pattern would be cut by a move this short. @param {number} x @param {number} y @param {number} height */
function column(x, y, height) {
  const count = Math.max(2, Math.round(height / 10));
  const [pitch, r] = [height / count, height < 30 ? 1 : 1.6];
  const dot = (/** @type {number} */ i) => `M${x - r} ${y + pitch * (i + 0.5)}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0`;
  return svg('path', { d: Array.from({ length: count }, (_, i) => dot(i)).join(''), fill: 'var(--quiet)' });
}
