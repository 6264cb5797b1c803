// @ts-check
/** @typedef {import('../surface/heads.js').Head} Head */
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('./logbook.js').Line} Line */
import { byId, el, mark, write } from '../lib/dom.js';
import { isWhite, moveNumber } from '../lib/san.js';
import { icon, keepRows } from '../surface/dom.js';
import { count } from '../surface/words.js';
import { Logbook, Steady } from './logbook.js';
import { GROUPS, dayTime, groupOf, isLoud, noteWords } from './notes.js';

/** Scrolled down further than this, somebody reads; CSS pixels. */
const READING_PX = 8;

/** Where a ply stands, "23...", by the board as it is; every game of a board is taken to start alike. @param {number} ply @param {Board | undefined} board */
export function placeOf(ply, board) {
  if (ply < 1) return '';
  const number = (board?.plies[0]?.number ?? 1) + ply - 1;
  return `${moveNumber(number)}${isWhite(number) ? '.' : '...'}`;
}

/** LogView shows the show log, newest first, and keeps still while somebody reads. */
export class LogView {
  #book = new Logbook();
  #steady = new Steady();
  /** @type {Map<string, {root: Element}>} */ #rows = new Map();
  /** @type {(board: number) => Board | undefined} */ #board;
  #box = byId('log-box');
  #list = byId('log');
  #more = byId('log-more');
  #boards = /** @type {HTMLSelectElement} */ (byId('log-board'));
  #kinds = /** @type {HTMLSelectElement} */ (byId('log-kind'));

  /** @param {(board: number) => Board | undefined} board the board as it is now */
  constructor(board) {
    this.#board = board;
    this.#kinds.append(...GROUPS.map(([group, name]) => el('option', { value: group }, name)));
    for (const select of [this.#boards, this.#kinds]) select.addEventListener('change', () => this.#top());
    this.#box.addEventListener('scroll', () => !this.#held && this.#draw(), { passive: true });
    this.#more.addEventListener('click', () => {
      this.#top();
      this.#box.focus({ preventScroll: true });
    });
  }

  /** @param {string} run of the relay */
  welcome(run) {
    if (!this.#book.welcome(run)) return;
    this.#rows.clear();
    this.#steady = new Steady();
    this.#draw();
  }

  /** @param {import('../lib/wire.js').Log} frame */
  receive(frame) {
    this.#book.receive(frame.items);
    this.#draw();
  }

  /** @param {Head[]} heads */
  heads(heads) {
    const names = heads.map(({ board, white, black }) => `Board ${board}, ${white || 'White'} – ${black || 'Black'}`);
    const key = names.join('\n');
    if (this.#boards.dataset.key === key) return;
    this.#boards.dataset.key = key;
    const chosen = this.#boards.value;
    const options = heads.map(({ board }, i) => el('option', { value: board }, names[i]));
    this.#boards.replaceChildren(el('option', { value: 0 }, 'All boards'), ...options);
    this.#boards.value = heads.some(({ board }) => String(board) === chosen) ? chosen : '0';
  }

  /** Whether somebody reads further down. */
  get #held() {
    return this.#box.scrollTop > READING_PX;
  }

  /** Whoever filters, or asks for the new lines, wants to see them now. */
  #top() {
    this.#box.scrollTop = 0;
    this.#draw();
  }

  #draw() {
    const lines = this.#book.view({ board: Number(this.#boards.value), group: this.#kinds.value });
    const { shown, waiting } = this.#steady.next(lines, this.#held);
    keepRows(this.#list, this.#rows, shown, (line) => String(line.seq), (line) => ({ root: this.#line(line) }));
    mark(this.#more, 'hidden', waiting === 0);
    write(this.#more, count(waiting, 'new line'));
    mark(byId('no-log'), 'hidden', shown.length > 0);
    write(byId('no-log'), this.#book.lines.length > 0 ? 'Nothing of that kind so far' : 'Nothing has happened yet');
  }

  /** @param {Line} line */
  #line(line) {
    const loud = isLoud(line);
    const where = line.board ? `Board ${line.board}` : 'Show';
    const words = noteWords(line, placeOf(line.ply, this.#board(line.board)));
    const sign = loud ? [icon('warning'), ' '] : groupOf(line.kind) === 'hand' ? [icon('hand'), ' '] : [];
    return el(
      'li',
      { class: 'log-line', 'data-kind': line.kind, 'data-loud': loud },
      el('time', { class: 'log-time' }, dayTime(line.at)),
      el('span', { class: 'log-board' }, where),
      el('span', { class: 'log-words', dir: 'auto' }, ...sign, words),
      ...(line.missed ? [el('span', { class: 'log-missed' }, `${count(line.missed, 'line')} before this did not reach this page`)] : []),
    );
  }
}
