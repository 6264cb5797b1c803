// @ts-check
/** @typedef {import('../lib/wire.js').Feeds} FeedsFrame */
import { byId, mark, write } from '../lib/dom.js';
import { icon } from '../surface/dom.js';
import { lostHeadline } from '../surface/words.js';

/** Verdict is the headline: how the viewers are, or that nobody knows. The page's title says the same. */
export class Verdict {
  #root = byId('verdict');
  #words = byId('verdict-words');
  #of = 'the show';

  /** @param {string} title of the show, or "" */
  show(title) {
    this.#of = title || 'the show';
  }

  /** What the relay says. @param {FeedsFrame} frame */
  heard(frame) {
    mark(this.#words, 'aria-live', 'polite');
    this.#draw(frame.fine, frame.verdict);
    document.title = `${frame.fine ? 'Fine' : 'Not fine'}: health of ${this.#of}`;
  }

  /** The relay is not heard: what it last said counts no more. @param {number | null} silentMs since when, wall time; null: ever */
  lost(silentMs) {
    mark(this.#words, 'aria-live', 'off'); // the age in it runs on; the line above is read instead
    this.#draw(false, lostHeadline(silentMs));
    document.title = `Relay not reached: health of ${this.#of}`;
  }

  /** @param {boolean} fine @param {string} words */
  #draw(fine, words) {
    if (this.#root.dataset.fine !== String(fine)) byId('verdict-icon').replaceChildren(icon(fine ? 'fine' : 'warning'));
    mark(this.#root, 'data-fine', String(fine));
    write(this.#words, words);
  }
}
