// @ts-check
/** @typedef {import('./stream.js').Card} Card */
import { byId, mark, write } from '../lib/dom.js';
import { PRIORITY } from '../lib/wire.js';

/** The shelf may take so much of the screen's height. */
const SHARE = 0.36;
/** With so many urgent sentences to say it makes room. */
const URGENT = 2;

/**
 * Whether the shelf folds to a line.
 *
 * @param {{urgent: number, height: number, screen: number}} room urgent sentences; height of the shelf unfolded, and of the screen, px
 * @param {boolean | null} chosen by hand, null: not
 */
export function folds({ urgent, height, screen }, chosen) {
  return chosen ?? (urgent >= URGENT || height > screen * SHARE);
}

/** Shelf holds the pinned sentences below the stream; when the urgent ones need the room it folds to a line. */
export class Shelf {
  #root = byId('shelf');
  #fold = byId('shelf-fold');
  #cards = byId('shelf-cards');
  /** @type {boolean | null} */ #chosen = null;
  #urgent = 0;
  #height = 0;
  #count = 0;

  constructor() {
    this.#fold.addEventListener('click', () => {
      this.#chosen = !this.#root.hasAttribute('data-folded');
      this.draw(false);
    });
    addEventListener('resize', () => this.draw(false));
  }

  /** @param {Card[]} shelf @param {Card[]} stream */
  update(shelf, stream) {
    if (shelf.length !== this.#count) this.#chosen = null;
    this.#count = shelf.length;
    this.#urgent = stream.filter((c) => c.prompt.priority === PRIORITY.NOW && c.form === 'full').length;
    mark(this.#root, 'hidden', shelf.length === 0);
    mark(this.#root, 'data-count', shelf.length);
    const ended = shelf.filter((c) => c.end !== '').length;
    write(byId('shelf-count'), `pinned, ${shelf.length}`);
    write(byId('shelf-text'), shelf[0]?.prompt.text ?? '');
    write(byId('shelf-true'), ended === 0 ? (shelf.length === 1 ? 'still true' : 'all still true') : shelf.length === 1 ? 'no longer true' : `${ended} no longer true`);
    mark(byId('shelf-true'), 'data-ended', ended > 0);
  }

  /** @param {boolean} busy somebody is at the cards: nothing folds now */
  draw(busy) {
    if (busy || this.#count === 0) return;
    if (!this.#root.hasAttribute('data-folded')) this.#height = this.#cards.scrollHeight;
    const tab = matchMedia('(max-width: 599px)').matches; // there it has a screen of its own, see sizes.css
    const folded = !tab && folds({ urgent: this.#urgent, height: this.#height, screen: innerHeight }, this.#chosen);
    mark(this.#root, 'data-folded', folded);
    mark(this.#fold, 'aria-expanded', String(!folded));
  }
}
