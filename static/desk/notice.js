// @ts-check
import { byId, mark, write } from '../lib/dom.js';

/** A notice leaves by itself; wall milliseconds. */
const STAYS_MS = 12_000;

/** Notice says why something was not done, until it is read. */
export class Notice {
  #timer = 0;

  constructor() {
    byId('notice-ok').addEventListener('click', () => this.clear());
  }

  /** @param {string} words */
  say(words) {
    write(byId('notice-words'), words);
    mark(byId('notice'), 'hidden', false);
    clearTimeout(this.#timer);
    this.#timer = window.setTimeout(() => this.clear(), STAYS_MS);
  }

  clear() {
    mark(byId('notice'), 'hidden', true);
    write(byId('notice-words'), '');
  }
}
