// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
import { boardOption } from './words.js';

/** Chosen knows which board a scene shows: the one its address names, or with board=air the one that the desk has put on the air. */
export class Chosen {
  /** @type {Map<number, Board>} what has come */ #boards = new Map();
  #number;
  #follows;

  /** @param {string | null} option */
  constructor(option) {
    this.#follows = option?.toLowerCase() === 'air';
    this.#number = this.#follows ? 0 : boardOption(option);
  }

  /** As Live asks for it. */
  get asked() {
    return this.#follows ? 'air' : this.#number;
  }

  /** Its number; 0: none has been chosen yet. */
  get number() {
    return this.#number;
  }

  /** Its latest state, once that has come. */
  get board() {
    return this.#boards.get(this.#number) ?? null;
  }

  /** @param {Board} board */
  take(board) {
    this.#boards.set(board.board, board);
  }

  /** What the board before was is forgotten: it goes on while nothing of it comes. @param {import('../lib/wire.js').Air} air */
  air(air) {
    if (!this.#follows || air.board === this.#number) return;
    this.#boards.delete(this.#number);
    this.#number = air.board;
  }
}
