// @ts-check
import { mark, write } from '../lib/dom.js';
import { lostWords } from './words.js';

/** A page that just opened says nothing of a missing relay for this long, wall milliseconds. */
const PATIENCE_MS = 1500;

/** Line tells whether the relay is heard: in words at the top, and on the body for styles. */
export class Line {
  #banner;
  #since = performance.now(); // of the present state
  #ever = false;
  #now;
  /** Show time when the line was lost; null while it stands, or if it never stood. @type {number | null} */ lostAt = null;
  /** Whether the relay is heard. */ open = false;

  /** @param {HTMLElement} banner @param {() => number} [now] monotonic wall ms */
  constructor(banner, now = () => performance.now()) {
    this.#banner = banner;
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


  tick() {
    const silentMs = this.#now() - this.#since;
    mark(this.#banner, 'hidden', this.open || (!this.#ever && silentMs < PATIENCE_MS));
    if (!this.open) write(this.#banner.lastElementChild ?? this.#banner, lostWords(this.#ever ? silentMs : null));
  }
}
