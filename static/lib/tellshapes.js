// @ts-check
/** @typedef {import('./tellsizes.js').Size} Size */
import { svg } from './dom.js';
import { outline } from './marks.js';
import { QUALITY } from './wire.js';
import { lowOf } from './tellsizes.js';

/** A sign stands so far from its lane, or from the lane's edge. */
const AWAY = { outside: 4, inside: 1 };

/** Speed lines shorter than this are left out: with the press behind them they would be read as figures. */
const SHORTEST_LINES = 9;

/** Shapes draws moves in the lanes, by their look. */
export class Shapes {
  #s;
  #low;
  #paint;

  /** @param {Size} size @param {number[]} tops upper edge of each lane @param {import('./tellpaint.js').Paint} paint */
  constructor(size, tops, paint) {
    this.#s = size;
    this.#low = lowOf(size);
    this.#paint = paint;
    this.tops = tops;
  }

  /**
   * A finished move from x0 to x1: a low tick at the press with speed lines
   * before it, or a block as high as the lane and as long as the move.
   *
   * @param {import('./wire.js').Ply} ply @param {number} lane @param {number} x0 @param {number} x1
   */
  move(ply, lane, x0, x1) {
    const look = ply.quality === QUALITY.NONE ? 'none' : ply.look;
    if (look !== 'preparation') return [this.block(look, lane, x0, Math.max(1.5, x1 - x0 - this.#s.rest))];
    const at = Math.max(x0, x1 - this.#s.tick);
    const [y, height] = [this.#lowTop(lane), this.#low];
    const press = svg('rect', { x: at, y, width: x1 - at, height, fill: 'var(--preparation)' });
    if (at - x0 < SHORTEST_LINES) return [press];
    return [svg('rect', { x: x0, y, width: at - x0, height, fill: this.#paint.lines(lane) }), press];
  }

  /** Upper edge of what is low: it stands on the edge towards the other lane. @param {number} lane */
  #lowTop(lane) {
    return lane === 0 ? this.tops[0] + this.#s.lane - this.#low : this.tops[1];
  }

  /**
   * An estimated time: the outer edge of its move is torn into teeth.
   *
   * @param {string} look @param {number} lane @param {number} x0 @param {number} x1
   */
  torn(look, lane, x0, x1) {
    const tooth = Math.max(2, Math.round(this.#s.lane / 10));
    const height = look === 'preparation' ? this.#low : this.#s.lane;
    const y = lane === 0 ? this.tops[0] + this.#s.lane - height : this.tops[1] + height;
    const deep = lane === 0 ? 1.5 * tooth : -1.5 * tooth;
    const count = Math.max(1, Math.floor((x1 - x0) / (2 * tooth)));
    const notch = (/** @type {number} */ i) => `M${x0 + 2 * tooth * i} ${y}l${tooth / 2} ${deep}h${tooth}l${tooth / 2} ${-deep}z`;
    return svg('path', { d: Array.from({ length: count }, (_, i) => notch(i)).join(''), fill: 'var(--ink)' });
  }

  /**
   * The sign of a mended or doubtful reading at the end of its move: outside of
   * the lane where there is room for it, else cased in ink on its outer edge.
   *
   * @param {string} mark @param {number} lane @param {number} x @param {boolean} outside
   */
  sign(mark, lane, x, outside) {
    const { sign, lane: height } = this.#s;
    const drawn = outline(mark);
    if (!drawn || sign === 0) return [];
    const off = outside ? -sign - AWAY.outside : AWAY.inside;
    const y = lane === 0 ? this.tops[0] + off : this.tops[1] + height - sign - off;
    const parts = outside ? [drawn] : [svg('g', { class: 'tell-casing' }, outline(mark) ?? ''), drawn];
    const place = `translate(${x - sign / 2 - 2} ${y}) scale(${sign / 24})`;
    return [svg('g', { class: outside ? 'tell-sign' : 'tell-sign inside', transform: place }, ...parts)];
  }

  /** A move still running, or a think. @param {string} look @param {number} lane @param {number} x @param {number} width */
  block(look, lane, x, width) {
    const [y, height] = [this.tops[lane], this.#s.lane];
    if (look === 'unsure') return hollow(x, y, width, height);
    if (look === 'none' && width < height / 2) return this.#column(x + width / 2, y);
    if (look === 'preparation') return svg('rect', { x, y: this.#lowTop(lane), width, height: this.#low, fill: this.#paint.lines(lane) });
    return svg('rect', { x, y, width, height, fill: this.#fill(look, lane) });
  }

  /** @param {string} look @param {number} lane */
  #fill(look, lane) {
    if (look === 'thinking') return 'var(--thinking)';
    return look === 'trouble' ? this.#paint.hatch : this.#paint.dots(lane);
  }

  /** Dots one above the other: the pattern would be cut by a move this short. @param {number} x @param {number} y */
  #column(x, y) {
    const { lane, dots: [, r] } = this.#s;
    const count = Math.max(2, Math.round(lane / 10));
    const pitch = lane / count;
    const dot = (/** @type {number} */ i) => `M${x - r} ${y + pitch * (i + 0.5)}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0`;
    return svg('path', { d: Array.from({ length: count }, (_, i) => dot(i)).join(''), fill: 'var(--quiet)' });
  }
}

/** Probably thinking: the block without its filling. @param {number} x @param {number} y @param {number} width @param {number} height */
function hollow(x, y, width, height) {
  const s = Math.min(height >= 24 ? 3 : height >= 16 ? 2 : 1.5, Math.max(1, width / 4));
  const edge = { fill: 'none', stroke: 'var(--thinking)', 'stroke-width': s };
  return svg('rect', { x: x + s / 2, y: y + s / 2, width: Math.max(0, width - s), height: height - s, ...edge });
}
