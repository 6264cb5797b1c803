// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').BoardSources} BoardSources */
import { byId, el, mark, write } from '../lib/dom.js';
import { arrange } from '../surface/dom.js';
import { BoardRow } from './boardrow.js';
import { mergeItems } from './items.js';
import { isNotable, isSought, sumWords } from './sources.js';

/** With more boards than this there is something to find one by. */
const FEW_BOARDS = 8;

/** Boards draws a row for every board, and above all of them which ones ask something. */
export class Boards {
  /** @type {Map<number, BoardRow>} */ #rows = new Map();
  /** @type {Map<number, Board>} */ #held = new Map();
  /** @type {BoardSources[]} */ #items = [];
  #post;
  #list = byId('boards');
  #find = /** @type {HTMLInputElement} */ (byId('find-board'));
  #only = byId('only-notable');

  /** @param {import('../surface/post.js').Post} post */
  constructor(post) {
    this.#post = post;
    this.#find.addEventListener('input', () => this.#draw());
    this.#only.addEventListener('click', () => {
      mark(this.#only, 'aria-pressed', String(!this.#onlyNotable));
      this.#draw();
    });
  }

  /** How many boards there are. */
  get count() {
    return this.#items.length;
  }

  /** @param {import('../lib/wire.js').Sources} frame */
  sources(frame) {
    this.#items = mergeItems(this.#items, frame, (item) => item.board);
    for (const item of frame.items) this.#row(item.board).sources(item);
    this.#draw();
  }

  /** @param {Board} board */
  board(board) {
    this.#held.set(board.board, board);
    this.#rows.get(board.board)?.board(board);
  }

  /** Open a board's tools as soon as it is there. @param {number} number */
  unfold(number) {
    const row = this.#rows.get(number);
    if (!row) return false;
    row.unfold(() => this.#draw());
    return true;
  }

  /** @param {import('../surface/clocks.js').Times} times */
  tick(times) {
    for (const row of this.#rows.values()) row.tick(times);
  }

  get #onlyNotable() {
    return this.#only.getAttribute('aria-pressed') === 'true';
  }

  /** @param {number} number */
  #row(number) {
    let row = this.#rows.get(number);
    if (!row) {
      this.#rows.set(number, (row = new BoardRow(this.#post, number)));
      row.board(this.#held.get(number));
    }
    return row;
  }

  #draw() {
    const items = this.#items;
    const notable = items.filter(isNotable).length;
    // What is open stays: somebody works there.
    const shown = items.filter((item) => this.#row(item.board).isOpen || (isSought(item, this.#find.value) && (!this.#onlyNotable || isNotable(item))));
    arrange(this.#list, shown.map((item) => this.#row(item.board).root));
    write(byId('boards-words'), items.length === 0 ? 'No board yet' : sumWords(items));
    mark(byId('board-finder'), 'hidden', items.length <= FEW_BOARDS);
    write(this.#only, `Only what is out of the ordinary (${notable})`);
    mark(byId('no-board'), 'hidden', shown.length > 0 || items.length === 0);
    this.#questions(items.filter((item) => item.question !== null));
  }

  /** The line that stays in sight while something is asked. @param {BoardSources[]} asking */
  #questions(asking) {
    const line = byId('questions');
    const key = asking.map((item) => item.question?.id).join(' ');
    mark(line, 'hidden', asking.length === 0);
    if (line.dataset.key === key) return;
    line.dataset.key = key;
    write(byId('questions-words'), asking.length === 1 ? `Board ${asking[0].board} asks.` : `${asking.length} questions are open:`);
    write(byId('questions-text'), asking.length === 1 ? asking[0].question?.text ?? '' : '');
    const links = asking.map(({ board }) => {
      const button = el('button', { type: 'button', class: 'button small' }, asking.length === 1 ? 'Show it' : `Board ${board}`);
      button.addEventListener('click', () => this.#ask(board));
      return button;
    });
    byId('questions-boards').replaceChildren(...links);
  }

  /** @param {number} board */
  #ask(board) {
    const row = this.#row(board);
    if (!row.root.isConnected) {
      this.#find.value = '';
      mark(this.#only, 'aria-pressed', 'false');
      this.#draw();
    }
    row.ask();
  }
}
