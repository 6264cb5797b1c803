// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../surface/heads.js').Head} Head */
/** @typedef {import('./stream.js').Filter} Filter */
import { el, mark, write } from '../lib/dom.js';
import { keepRows } from '../surface/dom.js';
import { Kinds } from './kinds.js';
import { Lane } from '../surface/lane.js';
import { Roving } from '../surface/roving.js';

/** Filters are the buttons that narrow the panel to one board or one kind. */
export class Filters {
  /** @type {Map<string, BoardButton>} */ #boards = new Map();
  #board = 0;
  #kinds;
  #row;
  #roving;
  #changed;

  /** @param {Element} boards @param {() => void} changed */
  constructor(boards, changed) {
    this.#row = boards;
    this.#roving = new Roving(boards);
    this.#changed = changed;
    this.#kinds = new Kinds(changed);
    this.heads([]);
  }

  /** @returns {Filter} */
  get filter() {
    return { board: this.#board, kind: this.#kinds.kind, hideSaid: this.#kinds.hideSaid };
  }

  /** @param {Head[]} heads */
  heads(heads) {
    const all = { board: 0, white: '', black: '', result: '*' };
    const make = (/** @type {Head} */ head) => new BoardButton(() => this.#choose(head.board));
    const rows = keepRows(this.#row, this.#boards, [all, ...heads], (head) => String(head.board), make);
    rows.forEach((row, i) => row.update(i === 0 ? all : heads[i - 1]));
    if (!this.#boards.has(String(this.#board))) return this.#choose(0);
    this.#press();
  }

  /** Let everything through. */
  clear() {
    this.#kinds.choose('');
    this.#choose(0);
  }

  /** @param {Map<number, Board>} boards @param {number} now show time @param {number | null} lostAt */
  draw(boards, now, lostAt) {
    for (const [key, button] of this.#boards) button.draw(boards.get(Number(key)), now, lostAt);
  }

  /** @param {Map<number, {open: number, now: number}>} counts */
  counts(counts) {
    let open = 0;
    let now = 0;
    for (const c of counts.values()) [open, now] = [open + c.open, now + c.now];
    for (const [key, button] of this.#boards) button.count(key === '0' ? { open, now } : counts.get(Number(key)));
  }

  /** @param {number} board */
  #choose(board) {
    this.#board = board;
    this.#press();
    this.#changed();
  }

  #press() {
    for (const [key, button] of this.#boards) mark(button.root, 'aria-pressed', String(Number(key) === this.#board));
    this.#roving.refresh();
  }
}

/** A board's button: its number, its players, how many prompts wait, its tell line. */
class BoardButton {
  #number = el('b');
  #white = el('span', { class: 'white', dir: 'auto' });
  #black = el('span', { class: 'black', dir: 'auto' });
  #figure = el('span');
  #count = el('span', { class: 'count' }, this.#figure, el('span', { class: 'unseen' }, ' open'));
  #lane = new Lane('tell-line', { size: 'filter', motion: false });

  /** @param {() => void} chosen */
  constructor(chosen) {
    const top = el('span', { class: 'top' }, this.#number, ' ', el('span', { class: 'names' }, this.#white, this.#black), ' ', this.#count);
    this.root = el('button', { type: 'button', class: 'board-filter' }, top, this.#lane.root);
    this.root.addEventListener('click', chosen);
  }

  /** @param {Head} head */
  update(head) {
    mark(this.root, 'data-board-filter', head.board);
    write(this.#number, head.board ? String(head.board) : 'all boards');
    write(this.#white, head.board ? head.white || 'White' : '');
    write(this.#black, head.board ? ` – ${head.black || 'Black'}` : '');
    mark(this.root, 'title', head.board ? `${this.#white.textContent}${this.#black.textContent}` : null);
  }

  /** @param {{open: number, now: number} | undefined} c */
  count(c) {
    write(this.#figure, String(c?.open ?? 0));
    mark(this.#count, 'hidden', !c?.open);
    mark(this.#count, 'data-now', (c?.now ?? 0) > 0);
  }

  /** @param {Board | undefined} board @param {number} now @param {number | null} lostAt */
  draw(board, now, lostAt) {
    this.#lane.draw(board, now, lostAt);
  }
}
