// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
import { Falling, leftAt } from '../lib/clock.js';
import { el, mark, write } from '../lib/dom.js';
import { clockText } from '../surface/clocks.js';

/** Half is one side's name and clock in a board's row. */
export class Half {
  #side;
  #name = el('span', { class: 'name', dir: 'auto' });
  #clock = el('span', { class: 'clock' });
  #falling = new Falling();

  /** @param {'white' | 'black'} side */
  constructor(side) {
    this.#side = side;
    const mark = el('span', { class: `mark ${side}`, role: 'img', 'aria-label': side });
    this.root = el('p', { class: 'half' }, mark, this.#name, ' ', this.#clock);
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
    const { clock } = board[this.#side];
    const left = this.#falling.next(leftAt(clock, times.clocks), `${board.plies.length} ${clock.state}`);
    write(this.#clock, clockText(clock, left, times.lostAt === null));
  }
}
