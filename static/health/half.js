// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
import { el, mark, write } from '../lib/dom.js';
import { ClockView } from '../surface/clocks.js';

/** Half is one side's name and clock in a board's row. */
export class Half {
  #side;
  #name = el('span', { class: 'name', dir: 'auto' });
  #clock;

  /** @param {'white' | 'black'} side */
  constructor(side) {
    this.#side = side;
    const mark = el('span', { class: `mark ${side}`, role: 'img', 'aria-label': side });
    this.#clock = new ClockView(side);
    this.root = el('p', { class: 'half' }, mark, this.#name, ' ', this.#clock.root);
  }

  /** @param {string} full name @param {Board | undefined} board */
  update(full, board) {
    const short = board?.[this.#side].short;
    write(this.#name, short || full || (this.#side === 'white' ? 'White' : 'Black'));
    mark(this.#name, 'title', full || null);
    mark(this.root, 'data-running', board?.running === this.#side);
  }

  /** @param {Board} board @param {import('../surface/clocks.js').Times} times */
  tick(board, times) {
    this.#clock.tick(board, times);
  }
}
