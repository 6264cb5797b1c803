// @ts-check
import { svg } from './dom.js';

/** So far a part reaches over the right end of the drawing: the present has a thickness. */
export const OVER = 8;

/**
 * What of the drawing shows from one x to another. Browsers lay an SVG out again when
 * anything in it moves, but not when it is cut differently: so nothing here moves with time,
 * everything is drawn once and uncovered.
 */
export class Part {
  #right;
  #cut = '';

  /** @param {number} width @param {number} height of the drawing @param {...SVGElement} shapes */
  constructor(width, height, ...shapes) {
    this.#right = width + OVER;
    // A cut is measured from the edges of what is cut: this makes them those of the drawing.
    const all = svg('rect', { width: this.#right, height, fill: 'none' });
    this.root = svg('g', { class: 'tell-part' }, all, ...shapes);
  }

  /** @param {number} from @param {number} to */
  show(from, to) {
    const cut = `inset(-99px ${round(this.#right - to)}px -99px ${round(from)}px)`;
    if (cut !== this.#cut) this.root.style.clipPath = this.#cut = cut;
  }
}

/** Hundredths of a pixel are as fine as anyone sees. @param {number} x */
function round(x) {
  return Math.round(x * 100) / 100;
}
