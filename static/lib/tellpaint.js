// @ts-check
import { svg } from './dom.js';

let made = 0;

/**
 * Paint holds the patterns of one drawing. Ids are unique on the page, so that
 * many drawings of different sizes stand side by side.
 */
export class Paint {
  #id = `tell-${++made}`;

  /**
   * @param {{lane: number, tops: number[]}} size lane height and the upper edge of each lane
   */
  constructor(size) {
    const small = size.lane < 30;
    const [pitch, line, first] = size.lane < 16 ? [4, 1.5, 1] : small ? [6, 2, 2] : [8, 3, 2.5];
    this.defs = svg(
      'defs',
      {},
      ...size.tops.map((top, i) => this.#lines(i, top, pitch, line, first)),
      this.#hatch(small ? 7 : 12, small ? 3 : 5),
      ...size.tops.map((top, i) => this.#dots(i, top, small ? Math.max(4.5, size.lane / 3) : 10, small ? 1 : 1.6)),
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

  /** @param {number} lane @param {number} top @param {number} pitch @param {number} line @param {number} first */
  #lines(lane, top, pitch, line, first) {
    return svg(
      'pattern',
      { id: `${this.#id}-lines-${lane}`, patternUnits: 'userSpaceOnUse', width: 64, height: pitch, y: top + first },
      svg('rect', { width: 64, height: line, fill: 'var(--preparation)', opacity: 0.8 }),
    );
  }

  /** @param {number} pitch @param {number} band */
  #hatch(pitch, band) {
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

  /** @param {number} lane @param {number} top @param {number} pitch @param {number} r */
  #dots(lane, top, pitch, r) {
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
  const paint = new Paint({ lane: 18, tops: [0] });
  const box = svg('svg', { class: 'swatch', width: 34, height: 18, viewBox: '0 0 34 18', 'aria-hidden': 'true' }, paint.defs);
  box.append(...SAMPLES[look in SAMPLES ? look : 'none'](paint));
  return box;
}

/** @type {Record<string, (paint: Paint) => SVGElement[]>} */
const SAMPLES = {
  preparation: (paint) => [
    ...[0, 12, 24].map((x) => svg('rect', { x, width: 5, height: 18, fill: paint.lines(0) })),
    ...[6, 18, 30].map((x) => svg('rect', { x, width: 4, height: 18, fill: 'var(--preparation)' })),
  ],
  thinking: () => [svg('rect', { width: 34, height: 18, fill: 'var(--thinking)' })],
  unsure: () => [
    svg('rect', { x: 1.5, y: 1.5, width: 31, height: 15, fill: 'none', stroke: 'var(--thinking)', 'stroke-width': 3 }),
  ],
  trouble: (paint) => [svg('rect', { width: 34, height: 18, fill: paint.hatch })],
  none: () => [5, 13, 21, 29].map((cx) => svg('circle', { cx, cy: 9, r: 2, fill: 'var(--quiet)' })),
};
