// @ts-check
/** @typedef {import('../../lib/wire.js').Board} Board */
/** @typedef {import('../news.js').Notice} Notice */
/** @typedef {import('../pulse.js').Moment} Moment */
/** @typedef {import('./layout.js').Box} Box */
import { mark } from '../../lib/dom.js';
import { Card } from './card.js';

/** As --window in tokens.css. */
const RISE_MS = 400;

/** Lifted is the place where one board of the wall is seen large. */
export class Lifted {
  #card;
  #root;
  #box;
  #motion;
  /** @type {Board | null} */ #board = null;
  #why = '';

  /**
   * @param {HTMLElement} root
   * @param {Box} box
   * @param {import('./layout.js').Card} card
   * @param {{top: 'white' | 'black', motion: boolean}} look
   */
  constructor(root, box, card, look) {
    this.#root = root;
    this.#box = box;
    this.#motion = look.motion;
    this.#card = new Card(card, look);
    for (const side of /** @type {const} */ (['x', 'y', 'w', 'h'])) root.style.setProperty(`--${side}`, `${box[side]}px`);
    root.replaceChildren(this.#card.root);
    mark(root, 'data-shown', 'false');
  }

  /**
   * @param {Board | null} board null: none
   * @param {Notice | null} why it burns, if it still does
   * @param {Box | null} from the cell it rises from
   * @param {Moment} moment
   */
  show(board, why, from, moment) {
    mark(this.#root, 'data-shown', String(board !== null));
    const another = board?.board !== this.#board?.board;
    // Where one board follows another there is no camera picture between them.
    if (another) mark(this.#root, 'data-ground', this.#board !== null);
    if (board) this.#draw(board, moment);
    else this.#board = null;
    this.#say(board && why);
    if (board && another && from && this.#motion && !document.hidden) this.#rise(from);
  }

  /** Another state of a board. @param {Board} board @param {Moment} moment */
  update(board, moment) {
    if (board.board === this.#board?.board) this.#draw(board, moment);
  }

  /** @param {Board} board @param {Moment} moment */
  #draw(board, moment) {
    if (board !== this.#board) this.#card.draw(board, moment);
    this.#board = board;
  }

  /** Returns the wall time at which it changes by itself. @param {Moment} moment @param {number} by what is due by then, wall time, is drawn now @param {boolean} anew whether all is */
  tick(moment, by, anew) {
    return this.#board ? this.#card.upTo(moment, by, anew) : Infinity;
  }

  /** The tell line up to a moment. @param {Moment} moment */
  line(moment) {
    if (this.#board) this.#card.line(moment);
  }

  refit() {
    this.#card.refit();
  }

  /** @param {Notice | null} why */
  #say(why) {
    const text = JSON.stringify([this.#board?.board, why?.headline, why?.evidence]);
    if (text === this.#why) return;
    this.#why = text;
    this.#card.say(why);
  }

  /** @param {Box} from */
  #rise(from) {
    const { x, y, w, h } = this.#box;
    const start = `translate(${from.x - x}px, ${from.y - y}px) scale(${Math.min(from.w / w, from.h / h)})`;
    this.#card.root.animate([{ transform: start }, { transform: 'none' }], { duration: RISE_MS, easing: 'ease-out' });
  }
}
