// @ts-check
import { el, mark, write } from '../lib/dom.js';
import { lostWords } from './words.js';

/** A page that just opened says nothing of a missing relay for this long, wall milliseconds. */
const PATIENCE_MS = 1500;

/** Line tells whether the relay is heard: in words at the top, and on the body for styles. */
export class Line {
  #banner;
  #words = el('span');
  #age = el('span', { 'aria-hidden': 'true' }); // it ticks; heard once a second it would drown everything else
  #since = performance.now(); // of the present state
  #ever = false;
  #now;
  /** Show time when the line was lost; null while it stands, or if it never stood. @type {number | null} */ lostAt = null;
  /** Whether the relay is heard. */ open = false;

  /** @param {HTMLElement} banner @param {() => number} [now] monotonic wall ms */
  constructor(banner, now = () => performance.now()) {
    this.#banner = banner;
    banner.lastElementChild?.append(this.#words, this.#age);
    this.#now = now;
    document.body.dataset.line = 'lost';
  }

  /**
   * @param {'open' | 'lost'} state as Live reports it, "lost" again after each vain try
   * @param {number} show show time
   */
  state(state, show) {
    const open = state === 'open';
    if (open !== this.open) {
      this.#since = this.#now();
      this.lostAt = open ? null : show;
    }
    this.open = open;
    this.#ever ||= open;
    document.body.dataset.line = state;
    this.tick();
  }

  /** Whether the page has to say that it does not hear the relay. */
  get missing() {
    return !this.open && (this.#ever || this.#now() - this.#since >= PATIENCE_MS);
  }

  /** How long ago the line was lost, wall milliseconds; null if it never stood. */
  get silentMs() {
    return this.#ever ? this.#now() - this.#since : null;
  }

  tick() {
    mark(this.#banner, 'hidden', !this.missing);
    if (!this.missing) return;
    const [words, age] = lostWords(this.silentMs);
    write(this.#words, words);
    write(this.#age, age);
  }
}
