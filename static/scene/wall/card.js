// @ts-check
/** @typedef {import('../../lib/wire.js').Board} Board */
/** @typedef {import('../../lib/wire.js').Correction} Correction */
/** @typedef {import('../news.js').Notice} Notice */
/** @typedef {import('../pulse.js').Moment} Moment */
import { BoardView } from '../../lib/boardview.js';
import { el, mark, write } from '../../lib/dom.js';
import { word } from '../../lib/language.js';
import { moveNumber, resultText } from '../../lib/san.js';
import { gist } from '../news.js';
import { Rows } from '../rows.js';
import { dueAt } from './together.js';
import { CORRECTION_MS, description, isNear, isOver, tableOf, told } from '../words.js';

/** Pixels of a square below which lines and clocks need other shares of their room. */
const SMALL = 30;

/**
 * Card is one board of the wall with its players. It is drawn by draw(), and what depends on the
 * time by tick(), which says when it is due again; only the tell line by line(), for all
 * cards of a wall together.
 */
export class Card {
  #view;
  #rows;
  #place = el('span', { class: 'place' });
  #move = el('span', { class: 'number' });
  #edge = el('i', { class: 'edge' });
  #headline = el('b');
  #evidence = el('span', { class: 'evidence' });
  #square = el('div', { class: 'board', role: 'img' });
  #why;
  /** @type {Board | null} */ #board = null;
  /** @type {number | null} */ #held = null;
  /** Wall time at which it changes by itself. */
  due = Infinity;

  /**
   * @param {import('./layout.js').Card} card
   * @param {{top: 'white' | 'black', motion: boolean}} options
   */
  constructor(card, { top, motion }) {
    const line = el('div', { class: 'line' });
    this.#why = el('div', { class: 'why' }, this.#edge, this.#headline, this.#evidence);
    const head = el('div', { class: 'head' }, this.#why, this.#place, this.#move);
    this.#view = new BoardView(this.#square, { flipped: top === 'white', motion });
    this.#rows = new Rows(line, { size: card.line, width: card.w - 8, top, motion });
    const [upper, lower] = this.#rows.roots;
    const players = card.form === 'beside' ? [upper, head, lower] : [upper, lower];
    this.root = el('section', { class: `card ${card.form}`, 'data-words': card.words });
    this.root.append(...(card.form === 'beside' ? [] : [head]), this.#square, el('div', { class: 'players' }, ...players), line);
    mark(this.root, 'data-small', card.square < SMALL);
    for (const [name, px] of Object.entries(sizes(card))) this.root.style.setProperty(`--${name}`, `${px}px`);
  }

  /** @param {Board} board @param {Moment} moment */
  draw(board, moment) {
    const before = this.#board;
    this.#board = board;
    if (!before || before.board !== board.board || before.fen !== board.fen || before.plies.length !== board.plies.length) {
      const near = before?.board === board.board && isNear(before, board);
      this.#view.show(board.fen, board.plies[board.plies.length - 1] ?? null, near);
    }
    mark(this.root, 'data-board', board.board);
    mark(this.root, 'data-over', isOver(board));
    mark(this.#square, 'aria-label', description(board));
    write(this.#place, tableOf(board));
    this.#rows.draw(board, moment);
    this.tick(moment);
  }

  /** Draw what is due; returns the wall time at which it changes by itself. @param {Moment} moment @param {number} by what is due by then, wall time, is drawn now @param {boolean} anew whether all is */
  upTo(moment, by, anew) {
    if (anew || moment.heldAt !== this.#held) this.tick(moment);
    else if (by >= this.due) this.tick(dueAt(moment, this.due));
    return this.due;
  }

  /** @param {Moment} moment */
  tick(moment) {
    const board = this.#board;
    if (!board) return;
    const { now, wall, rate } = moment;
    this.#held = moment.heldAt;
    const fix = told(board, now);
    const [where, look] = at(board, fix, moment.heldAt !== null);
    write(this.#move, where);
    mark(this.#move, 'data-look', look);
    const waits = [this.#rows.clocks(board, moment), fix ? fix.at + CORRECTION_MS - now + 1 : Infinity];
    this.due = wall + Math.min(...waits) / rate;
  }

  /** The tell line up to a moment. @param {Moment} moment */
  line(moment) {
    if (this.#board) this.#rows.line(moment);
  }

  /**
   * Why it is lifted; null: no longer for anything that holds. What has no room gives way, the
   * evidence first in part and then whole, then the number of the move, then the name; never the news.
   *
   * @param {Notice | null} notice
   */
  say(notice) {
    mark(this.#why, 'data-look', notice?.kind ?? null);
    for (const room of ['all', 'gist', 'no-evidence', 'alone', 'brief']) {
      mark(this.root, 'data-room', room);
      write(this.#evidence, room === 'gist' ? gist(this.#evidence.textContent ?? '') : (notice?.evidence ?? ''));
      write(this.#headline, (room === 'brief' ? notice?.brief : notice?.headline) ?? '');
      if (![this.#headline, this.#evidence].some((e) => e.scrollWidth > e.clientWidth)) return;
    }
  }

  /** The type has arrived. */
  refit() {
    if (this.#board) this.#rows.refit(this.#board);
  }
}

/**
 * Where the game is, or what is the matter with it and how that is drawn. The result stands at the clocks.
 *
 * @param {Board} board @param {Correction | null} fix @param {boolean} lost the page is without the relay
 * @returns {[string, string | null]}
 */
function at(board, fix, lost) {
  const last = board.plies[board.plies.length - 1];
  const where = last ? word(`move ${moveNumber(last.number)}`) : '';
  if (isOver(board)) return [where || resultText(board.result) || word('over'), null];
  if (board.fault) return [word(`move ${last ? moveNumber(last.number + 1) : 1} awaited`), 'fault'];
  if (lost || board.feed.state === 'stale') return [word('no data'), 'stale'];
  return fix ? [word(fix.is ? 'corrected' : 'taken back'), 'corrected'] : [where, null];
}

/** @param {import('./layout.js').Card} card */
function sizes({ w, h, square, head, row, clock, name }) {
  return { w, h, square, head, clock, name, ...(row ? { row } : {}) };
}
