// @ts-check
/** @typedef {import('./stream.js').Card} Card */
import { byId, mark, write } from '../lib/dom.js';
import { NARROW } from './tabs.js';

/** The shelf may take so much of the screen's height. */
const SHARE = 0.36;

/**
 * Whether the shelf folds to a line: when it is too high, or would lie over an
 * urgent sentence.
 *
 * @param {{urgent: number, dock: number, height: number, screen: number}} room px: where the urgent sentences end, the
 *   height of the whole dock with the shelf unfolded, of the shelf alone, of the screen
 * @param {boolean | null} chosen by hand, null: not
 */
export function folds({ urgent, dock, height, screen }, chosen) {
  return chosen ?? (height > screen * SHARE || urgent + dock > screen);
}

/** Shelf holds the pinned sentences below the stream; when the urgent ones need the room it folds to a line. */
export class Shelf {
  #root = byId('shelf');
  #fold = byId('shelf-fold');
  #cards = byId('shelf-cards');
  /** @type {boolean | null} */ #chosen = null;
  #height = 0;
  #count = 0;

  constructor() {
    this.#fold.addEventListener('click', () => {
      this.#chosen = !this.#root.hasAttribute('data-folded');
      this.draw(false);
    });
    addEventListener('resize', () => this.draw(false));
  }

  /** @param {Card[]} shelf */
  update(shelf) {
    if (shelf.length !== this.#count) this.#chosen = null;
    this.#count = shelf.length;
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
    const was = this.#root.hasAttribute('data-folded');
    if (!was) this.#height = this.#cards.scrollHeight;
    const dock = byId('dock').offsetHeight + (was ? this.#height : 0);
    const tab = matchMedia(NARROW).matches; // there it has a screen of its own
    const folded = !tab && folds({ urgent: urgentEnd(), dock, height: this.#height, screen: innerHeight }, this.#chosen);
    mark(this.#root, 'data-folded', folded);
    mark(this.#fold, 'aria-expanded', String(!folded));
  }
}

/** Where the last urgent sentence ends on the page, px; 0 there is none. */
function urgentEnd() {
  const cards = byId('cards').querySelectorAll('[data-priority="now"][data-form="full"]:not([data-end])');
  const last = cards[cards.length - 1];
  return last ? last.getBoundingClientRect().bottom + scrollY : 0;
}
