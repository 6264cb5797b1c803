// @ts-check
/** @typedef {import('./tellsizes.js').Size} Size */
import { svg } from './dom.js';
import { SIZES, lowOf } from './tellsizes.js';

let made = 0;

/**
 * Paint holds the patterns of one drawing. Ids are unique on the page, so that
 * many drawings of different sizes stand side by side.
 */
export class Paint {
  #id = `tell-${++made}`;

  /**
   * @param {Size} size
   * @param {number[]} tops upper edge of each lane
   */
  constructor(size, tops) {
    const low = lowOf(size);
    this.defs = svg(
      'defs',
      {},
      ...tops.map((top, i) => this.#lines(i, i === 0 ? top + size.lane - low : top, size.lines)),
      this.#hatch(size.hatch),
      ...tops.map((top, i) => this.#dots(i, top, size.dots)),
    );
  }

  /** Speed lines in a lane. @param {number} lane */
  lines(lane) {
    return `url(#${this.#id}-lines-${lane})`;
  }

  /** Dots in a lane. @param {number} lane */
  dots(lane) {
    return `url(#${this.#id}-dots-${lane})`;
  }

  get hatch() {
    return `url(#${this.#id}-hatch)`;
  }

  /** A name for a clip path of this drawing. @param {string} name */
  name(name) {
    return `${this.#id}-${name}`;
  }

  /** @param {number} lane @param {number} y of the first line @param {[number, number]} lines */
  #lines(lane, y, [pitch, line]) {
    return svg(
      'pattern',
      { id: `${this.#id}-lines-${lane}`, patternUnits: 'userSpaceOnUse', width: 64, height: pitch, y },
      svg('rect', { width: 64, height: line, fill: 'var(--preparation)', opacity: 0.8 }),
    );
  }

  /** @param {[number, number]} hatch */
  #hatch([pitch, band]) {
    return svg(
      'pattern',
      {
        id: `${this.#id}-hatch`,
        patternUnits: 'userSpaceOnUse',
        width: pitch,
        height: pitch,
        patternTransform: 'rotate(45)',
      },
      svg('rect', { width: pitch, height: pitch, fill: 'var(--trouble)' }),
      svg('rect', { width: band, height: pitch, fill: 'var(--trouble-hatch)' }),
    );
  }

  /** @param {number} lane @param {number} top @param {[number, number]} dots */
  #dots(lane, top, [pitch, r]) {
    return svg(
      'pattern',
      { id: `${this.#id}-dots-${lane}`, patternUnits: 'userSpaceOnUse', width: pitch, height: pitch, y: top },
      svg('circle', { cx: pitch / 2, cy: pitch / 2, r, fill: 'var(--quiet)' }),
    );
  }
}

/**
 * The small sample of a state that stands before its word: the same drawing as
 * in the lane, 34 by 18.
 *
 * @param {string} look as in the wire's looks
 */
export function swatch(look) {
  const paint = new Paint(SIZES.wall, [0]);
  const box = svg('svg', { class: 'swatch', width: 34, height: 18, viewBox: '0 0 34 18', 'aria-hidden': 'true' }, paint.defs);
  box.append(...SAMPLES[look in SAMPLES ? look : 'none'](paint));
  return box;
}

const LOW = lowOf(SIZES.wall);

/** @type {Record<string, (paint: Paint) => SVGElement[]>} */
const SAMPLES = {
  // Three presses on a line: with their speed lines they would be read as figures at this size.
  preparation: () => [
    svg('rect', { y: 15, width: 34, height: 3, fill: 'var(--preparation)' }),
    ...[3, 15, 27].map((x) => svg('rect', { x, y: 18 - LOW, width: 4, height: LOW, fill: 'var(--preparation)' })),
  ],
  thinking: () => [svg('rect', { width: 34, height: 18, fill: 'var(--thinking)' })],
  unsure: () => [
    svg('rect', { x: 1.5, y: 1.5, width: 31, height: 15, fill: 'none', stroke: 'var(--thinking)', 'stroke-width': 3 }),
  ],
  trouble: (paint) => [svg('rect', { width: 34, height: 18, fill: paint.hatch })],
  none: () => [5, 13, 21, 29].map((cx) => svg('circle', { cx, cy: 9, r: 2, fill: 'var(--quiet)' })),
};
