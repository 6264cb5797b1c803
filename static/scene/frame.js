// @ts-check
/** @typedef {import('./picture.js').Picture} Picture */
import { BoardView } from '../lib/boardview.js';
import { byId, el } from '../lib/dom.js';
import { isStep } from './picture.js';

/** Frame is the large board with the letters and figures along it. */
export class Frame {
  /** @type {Picture | null} */ #shown = null;

  /** @param {{flipped: boolean, motion: boolean}} options flipped: Black at the bottom */
  constructor(options) {
    this.#view = new BoardView(byId('board'), options);
    coordinates(options.flipped);
  }
  #view;

  /** @param {Picture} picture */
  show(picture) {
    const was = this.#shown;
    this.#shown = picture;
    if (was?.board === picture.board && was.fen === picture.fen && was.ply + was.shown === picture.ply + picture.shown) return;
    this.#view.show(picture.fen, picture.last, isStep(was, picture));
  }
}

/** @param {boolean} flipped */
function coordinates(flipped) {
  const files = [...'abcdefgh'];
  const ranks = [...'87654321'];
  if (flipped) for (const list of [files, ranks]) list.reverse();
  byId('files').replaceChildren(...files.map((f) => el('span', {}, f)));
  byId('ranks').replaceChildren(...ranks.map((r) => el('span', {}, r)));
}
