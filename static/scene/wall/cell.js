// @ts-check
/** @typedef {import('../../lib/wire.js').Board} Board */
/** @typedef {import('../pulse.js').Moment} Moment */
/** @typedef {import('./layout.js').Box} Box */
import { el, mark, write } from '../../lib/dom.js';
import { word } from '../../lib/language.js';
import { hasGame, roundOf, tableNumber } from '../words.js';
import { Card } from './card.js';

/** Cell is the place of one board in the wall: its card, or that it is seen large, or that it is awaited. */
export class Cell {
  #card;
  #sign = el('b');
  #words = el('span');
  #event = el('span');
  #round = el('span');
  /** @type {Board | null} */ #board = null;
  /** @type {Board | null} */ #drawn = null;
  #away = false;

  /**
   * @param {number} number of the board
   * @param {Box} box
   * @param {import('./layout.js').Card} card
   * @param {{top: 'white' | 'black', motion: boolean}} look
   */
  constructor(number, box, card, look) {
    this.number = number;
    this.box = box;
    this.#card = new Card(card, look);
    this.root = el('div', { class: 'cell' }, this.#card.root, el('div', { class: 'mark' }, this.#sign, this.#words, this.#event, this.#round));
    for (const side of /** @type {const} */ (['x', 'y', 'w', 'h'])) this.root.style.setProperty(`--${side}`, `${box[side]}px`);
    this.#mark();
  }

  /** @param {Board} board */
  update(board) {
    this.#board = board;
    this.#mark();
  }

  /** @param {boolean} away whether its board is seen large */
  lift(away) {
    if (away === this.#away) return;
    this.#away = away;
    this.#mark();
  }

  /** Returns the wall time at which it changes by itself. @param {Moment} moment @param {number} by what is due by then, wall time, is drawn now @param {boolean} anew whether all is */
  tick(moment, by, anew) {
    const board = this.#board;
    if (!board || !hasGame(board) || this.#away) return Infinity;
    if (board !== this.#drawn) this.#card.draw((this.#drawn = board), moment);
    return this.#card.upTo(moment, by, anew);
  }

  /** The tell line up to a moment. @param {Moment} moment */
  line(moment) {
    if (!this.#away) this.#card.line(moment);
  }

  refit() {
    this.#card.refit();
  }

  #mark() {
    const awaited = !this.#board || !hasGame(this.#board);
    mark(this.root, 'data-view', awaited ? 'awaited' : this.#away ? 'away' : 'card');
    write(this.#sign, this.#board ? tableNumber(this.#board) : String(this.number));
    write(this.#words, word(awaited ? 'not there yet' : 'seen large'));
    write(this.#event, this.#board?.event ?? '');
    write(this.#round, this.#board ? roundOf(this.#board) : '');
  }
}
