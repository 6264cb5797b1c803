// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
import { el, mark, write } from '../lib/dom.js';
import { inTrouble } from '../lib/tellmap.js';
import { ClockView } from '../surface/clocks.js';
import { SIDES, resultWords, troubleWords } from '../surface/tell.js';

/** Players has, for each lane of the tell line, whose it is, what the tell says, and the clock. */
export class Players {
  #rows = SIDES.map((side) => new Row(side));
  /** @type {Board | undefined} */ #board;

  /** @param {HTMLElement} root */
  constructor(root) {
    root.append(...this.#rows.map((r) => r.root));
  }

  /** @param {Board | undefined} board */
  update(board) {
    this.#board = board;
    if (board) for (const row of this.#rows) row.update(board);
  }

  /** @param {import('../surface/clocks.js').Times} times */
  tick(times) {
    if (this.#board) for (const row of this.#rows) row.clock.tick(this.#board, times);
  }
}

class Row {
  #side;
  #name = el('strong', { dir: 'auto' });
  #word = el('span', { class: 'word' });
  #evidence = el('span', { class: 'evidence', dir: 'auto' });

  /** @param {'white' | 'black'} side */
  constructor(side) {
    this.#side = side;
    this.clock = new ClockView(side);
    const sign = el('span', { class: `side-mark ${side}`, role: 'img', 'aria-label': side });
    const who = el('div', { class: 'whose' }, el('p', { class: 'who' }, sign, this.#name), el('p', { class: 'tell' }, this.#word, ' ', this.#evidence));
    this.root = el('div', { class: 'player', 'data-side': side }, who, this.clock.root);
  }

  /** @param {Board} board */
  update(board) {
    const { short, name, tell } = board[this.#side];
    mark(this.root, 'data-running', board.running === this.#side);
    mark(this.root, 'data-trouble', inTrouble(tell));
    mark(this.root, 'data-verdict', tell.verdict);
    write(this.#name, short || name || this.#side);
    mark(this.#name, 'title', name);
    const over = resultWords(board.result);
    write(this.#word, over || [tell.shade, troubleWords(tell.trouble)].filter(Boolean).join(', '));
    write(this.#evidence, over ? '' : tell.evidence);
  }
}
