// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/**
 * A board as a list has it: number, short names and result. The names are "" until the board has come.
 *
 * @typedef {{board: number, white: string, black: string, result: string}} Head
 */

/** What comes in one packet reaches the page board by board: so long after the first, wall time, lists are drawn anew. */
const BURST_MS = 30;
/** When the page opens all boards come, and a list of hundreds takes long to draw: it is until then no oftener than this, wall time. */
const GATHER_MS = 500;

/** Heads are all boards of a show as a list has them: the show says how many there are, and each board what it is. */
export class Heads {
  /** @type {Map<number, Head>} */ #come = new Map();
  #count = 0;
  #soon = 0;
  #changed;

  /** @param {(heads: Head[]) => void} changed is handed all of them, in order, when there are others or one is another */
  constructor(changed) {
    this.#changed = changed;
  }

  /** @param {{boards: number}} show */
  show({ boards }) {
    this.#count = boards;
    for (const number of this.#come.keys()) if (number > boards) this.#come.delete(number);
    this.#tell();
  }

  /** @param {Board} board */
  board({ board, white, black, result }) {
    const was = this.#come.get(board);
    if (was?.white === white.short && was.black === black.short && was.result === result) return;
    this.#come.set(board, { board, white: white.short, black: black.short, result });
    const all = this.#come.size >= this.#count;
    if (!was && all) return this.#tell();
    this.#soon ||= window.setTimeout(() => this.#tell(), all ? BURST_MS : GATHER_MS);
  }

  #tell() {
    clearTimeout(this.#soon);
    this.#soon = 0;
    this.#changed(Array.from({ length: this.#count }, (_, i) => this.#come.get(i + 1) ?? { board: i + 1, white: '', black: '', result: '*' }));
  }
}
