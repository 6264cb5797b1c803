// @ts-check
/** @typedef {import('../../lib/wire.js').Board} Board */
/** @typedef {import('../../lib/wire.js').Caption} Caption */
/** @typedef {import('../../lib/wire.js').Mark} Mark */

/**
 * Aims knows which marks of the sentence on the air are true of the board as it stands. They are
 * meant for the position there was when the sentence came; with the next move they are over, and
 * no move taken back brings them back. A page that comes later cannot know that position, and
 * points at nothing rather than at the wrong square.
 */
export class Aims {
  #opened = 0;
  #key = '';
  #position = '';
  /** @type {Mark[]} */ #marks = [];

  /** The line has opened. @param {number} now show time: what was put on the air before, this page has not seen come */
  opened(now) {
    this.#opened = now;
  }

  /** A sentence is on the air, or none. @param {Caption | null} caption @param {Board | null} board the one of this scene */
  caption(caption, board) {
    const key = JSON.stringify(caption && [caption.key, caption.at, caption.marks]);
    if (key === this.#key) return;
    this.#key = key;
    const meant = caption !== null && board !== null && caption.board === board.board && caption.at >= this.#opened;
    this.#marks = meant ? caption.marks : [];
    this.#position = meant ? position(board) : '';
  }

  /** The marks to draw on it. @param {Board} board */
  on(board) {
    if (position(board) !== this.#position) this.#marks = [];
    return this.#marks;
  }
}

/** @param {Board} board */
function position(board) {
  return `${board.plies.length} ${board.fen}`;
}
