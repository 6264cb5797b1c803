// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
import { el, mark } from '../lib/dom.js';
import { TellLine } from '../lib/tellline.js';

/** Between two moves of the head; wall milliseconds. A second moves it by a hair. */
const REST_MS = 950;

/**
 * Lane is a tell line as wide as the place it stands in. It draws anew only
 * what changed, and is out of sight without a board.
 */
export class Lane {
  #line;
  /** @type {Board | undefined} */ #board;
  /** @type {number | null} */ #lostAt = null;

  #movedAt = -Infinity;

  /** @param {string} name class of the element @param {import('../lib/tellline.js').Options} options */
  constructor(name, options) {
    this.root = el('span', { class: `lane-box ${name}`, hidden: true });
    this.#line = new TellLine(this.root, { width: 120, ...options });
    new ResizeObserver(([box]) => this.#line.resize(Math.floor(box.contentRect.width))).observe(this.root);
  }

  /** @param {Board | undefined} board @param {number} now show time @param {number | null} lostAt show time */
  draw(board, now, lostAt) {
    mark(this.root, 'hidden', !board || board.plies.length === 0);
    if (!board) return;
    const same = board === this.#board && lostAt === this.#lostAt;
    if (same && performance.now() - this.#movedAt < REST_MS) return;
    this.#movedAt = performance.now();
    if (same) return this.#line.tick(now);
    this.#board = board;
    this.#lostAt = lostAt;
    this.#line.draw(board, now, lostAt);
  }
}
