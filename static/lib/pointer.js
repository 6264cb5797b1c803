// @ts-check
/** @typedef {import('./wire.js').Mark} Mark */
import { svg } from './dom.js';
import { SQUARE, shapeOf } from './pointing.js';
import { MEANING } from './wire.js';

/** As --plate in tokens.css. */
const FADE_MS = 250;
/** Width of the lines, and of the casing around everything: on a square of its own grey a hue alone is lost. */
const LINE = 7;
const CASING = 2.6;

/**
 * Pointer draws marks over a board: a ring to look at, a broken line that ends in a cross for
 * danger, a cradle with a plain line to its guard, an arrow from a dot for a plan, and two jagged
 * walls for what is weak. It has the size of the board that its root lies over.
 */
export class Pointer {
  #flipped;
  #motion;
  #shown = '[]';
  /** @type {SVGElement | null} */ #now = null;

  /** @param {{flipped: boolean, motion: boolean}} options flipped: Black at the bottom */
  constructor({ flipped, motion }) {
    this.#flipped = flipped;
    this.#motion = motion;
    this.root = svg('svg', { class: 'pointer', viewBox: `0 0 ${8 * SQUARE} ${8 * SQUARE}`, 'aria-hidden': 'true' });
  }

  /**
   * Point at these and at nothing else.
   *
   * @param {Mark[]} marks
   * @param {{has: (square: string) => boolean}} men the squares where one stands
   */
  show(marks, men) {
    const text = JSON.stringify(marks.map((m) => [m, men.has(m.to)]));
    if (text === this.#shown) return;
    this.#shown = text;
    const old = this.#now;
    // A cross stays whole where another mark stands on the same square.
    const crossLast = [...marks].sort((a, b) => Number(a.kind === MEANING.DANGER) - Number(b.kind === MEANING.DANGER));
    this.#now = marks.length ? svg('g', {}, ...crossLast.flatMap((m) => drawing(m, this.#flipped, men.has(m.to)))) : null;
    if (!this.#motion || document.hidden) return this.root.replaceChildren(...(this.#now ? [this.#now] : []));
    if (this.#now) {
      this.root.append(this.#now);
      this.#now.animate({ opacity: [0, 1] }, FADE_MS);
    }
    if (!old) return;
    old.animate({ opacity: [1, 0] }, { duration: FADE_MS, fill: 'forwards' });
    setTimeout(() => old.remove(), FADE_MS);
  }
}

/** @param {Mark} mark @param {boolean} flipped @param {boolean} manned */
function drawing(mark, flipped, manned) {
  const shape = shapeOf(mark, flipped, manned);
  if (!shape) return [];
  const colour = `var(--mark-${shape.kind})`;
  const paths = [stroked(shape.lines, 'var(--casing)', LINE + 2 * CASING), filled(shape.areas, 'var(--casing)'), stroked(shape.lines, colour, LINE)];
  paths.push(svg('path', { d: shape.areas, fill: colour }));
  return [svg('g', { class: 'mark', 'data-kind': shape.kind, 'data-from': mark.from, 'data-to': mark.to }, ...paths)];
}

/** @param {string} d @param {string} stroke @param {number} width */
function stroked(d, stroke, width) {
  return svg('path', { d, fill: 'none', stroke, 'stroke-width': width, 'stroke-linecap': 'round', 'stroke-linejoin': 'round' });
}

/** An area and the rim around it. @param {string} d @param {string} colour */
function filled(d, colour) {
  return svg('path', { d, fill: colour, stroke: colour, 'stroke-width': 2 * CASING, 'stroke-linejoin': 'round' });
}
