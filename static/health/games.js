// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
import { Falling, leftAt } from '../lib/clock.js';
import { moveNumber } from '../lib/san.js';
import { el, mark, write } from '../lib/dom.js';
import { clockText } from '../surface/clocks.js';
import { arrange, icon } from '../surface/dom.js';
import { feedWords, resultWords } from '../surface/tell.js';

/** Games draws a row for every board: who plays, both clocks, what is wrong. */
export class Games {
  /** @type {Map<number, GameRow>} */ #rows = new Map();
  #list;
  #empty;

  /** @param {Element} list @param {Element} empty said when there is no board */
  constructor(list, empty) {
    this.#list = list;
    this.#empty = empty;
  }

  /** @param {Board[]} boards in order */
  update(boards) {
    const rows = boards.map((board) => {
      let row = this.#rows.get(board.board);
      if (!row) this.#rows.set(board.board, (row = new GameRow()));
      row.update(board);
      return row;
    });
    arrange(this.#list, rows.map((r) => r.root));
    mark(this.#empty, 'hidden', boards.length > 0);
  }

  /** @param {import('../surface/clocks.js').Times} times */
  tick(times) {
    for (const row of this.#rows.values()) row.tick(times);
  }
}

class GameRow {
  /** @type {Board | null} */ #board = null;
  #number = el('span', { class: 'number' });
  #white = new Half('white');
  #black = new Half('black');
  #note = el('p', { class: 'note', dir: 'auto' });
  #fault = el('span', { dir: 'auto' });
  #faultLine = el('p', { class: 'game-fault', hidden: true }, icon('warning'), ' ', this.#fault);

  constructor() {
    this.root = el('li', { class: 'game' }, this.#number, this.#white.root, this.#black.root, this.#note, this.#faultLine);
  }

  /** @param {Board} board */
  update(board) {
    this.#board = board;
    mark(this.root, 'data-board', board.board);
    write(this.#number, String(board.board));
    this.#white.update(board);
    this.#black.update(board);
    const last = board.plies[board.plies.length - 1];
    const move = last ? `move ${moveNumber(last.number)}` : 'no move yet';
    write(this.#note, resultWords(board.result) || move);
    const wrong = [board.fault && `shown no further: ${board.fault}`, board.result === '*' && feedWords(board.feed.state)];
    write(this.#fault, wrong.filter(Boolean).join('; '));
    mark(this.#faultLine, 'hidden', this.#fault.textContent === '');
  }

  /** @param {import('../surface/clocks.js').Times} times */
  tick(times) {
    if (!this.#board || !this.root.isConnected) return;
    this.#white.tick(this.#board, times);
    this.#black.tick(this.#board, times);
  }
}

/** One side's name and clock. */
class Half {
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

  /** @param {Board} board */
  update(board) {
    const player = board[this.#side];
    write(this.#name, player.short || player.name || this.#side);
    mark(this.#name, 'title', player.name);
    mark(this.root, 'data-running', board.running === this.#side);
  }

  /** @param {Board} board @param {import('../surface/clocks.js').Times} times */
  tick(board, times) {
    const { clock } = board[this.#side];
    const left = this.#falling.next(leftAt(clock, times.clocks), `${board.plies.length} ${clock.state}`);
    write(this.#clock, clockText(clock, left, times.lostAt === null));
  }
}
