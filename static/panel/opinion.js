// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').Opinion} Opinion */
/** @typedef {import('../lib/wire.js').Opinions} Opinions */
import { el, mark, write } from '../lib/dom.js';
import { move } from '../lib/figures.js';
import { isWhite, moveNumber } from '../lib/san.js';
import { ENGINE } from '../lib/wire.js';

/** Moves of the best line that a board's tile has. */
const MOVES_MOST = 4;

/**
 * What an engine thinks of where a board stands, and what is said in its place.
 *
 * @param {Opinions} opinions
 * @param {Board} board
 * @returns {{opinion: Opinion | null, text: string}}
 */
export function tileWords({ boards, kept, state }, board) {
  if (kept === board.board) return { opinion: null, text: 'kept back while viewers are asked' };
  if (state === ENGINE.FAULT) return { opinion: null, text: 'gives no opinion now' };
  const opinion = boards.find((o) => o.board === board.board && o.ply === board.plies.length) ?? null;
  return { opinion, text: opinion ? '' : 'looking' };
}

/** OpinionTile is one line on a board's tile: the best line's first moves and its score, small. */
export class OpinionTile {
  #score = el('b');
  #moves = el('span', { class: 'engine-moves' });
  #drawn = '';
  root = el('p', { class: 'engine-line', hidden: true }, el('span', { class: 'engine-word' }, 'Engine'), ' ', this.#score, ' ', this.#moves);

  /** @param {Opinions | null} opinions null: not heard of yet @param {Board} board */
  update(opinions, board) {
    mark(this.root, 'hidden', opinions === null || opinions.state === ENGINE.NONE || (board.result !== '*' && board.result !== ''));
    if (!opinions) return;
    const { opinion, text } = tileWords(opinions, board);
    const line = opinion?.lines[0];
    const drawn = JSON.stringify([line, text]);
    if (drawn === this.#drawn) return;
    this.#drawn = drawn;
    write(this.#score, line?.score ?? '');
    mark(this.root, 'title', opinion ? `${opinion.words}; ${opinion.depth} plies deep, ${opinion.engine}` : null);
    if (!line) return write(this.#moves, text);
    this.#moves.replaceChildren(
      ...line.moves.slice(0, MOVES_MOST).flatMap(({ number, san }, i) => [
        ...(i === 0 || isWhite(number) ? [el('span', { class: 'engine-number' }, `${moveNumber(number)}${isWhite(number) ? '.' : '…'}`)] : []),
        move(san),
        ' ',
      ]),
    );
  }
}
