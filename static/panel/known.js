// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').Reference} Reference */
import { el, mark, write } from '../lib/dom.js';
import { move } from '../lib/figures.js';
import { STAND, answer, newMove, notCounted, numbered, standOf, subject } from './standing.js';
import { ended, lastGame, usual } from './games.js';

/** An answer takes milliseconds: so long the last one stands, wall milliseconds. */
const PATIENCE_MS = 400;

/** Whether a mouse can rest over something. */
const hovers = () => matchMedia('(hover: hover)').matches;

/**
 * KnownView is what the reference has to say of a board: the answer in a line
 * that always stands, the games behind it folded out below. A while after the
 * new move it folds away, unless somebody wants it open.
 */
export class KnownView {
  #word = el('strong');
  #move = el('span', { class: 'about-move' });
  #text = el('span', { dir: 'auto' });
  #summary;
  #body = el('div', { class: 'known-body' });
  #open;
  /** What was chosen by hand, in the opening and after it. @type {Map<boolean, boolean>} */ #chosen = new Map();
  #stand = '';
  #drawn = '';
  #waiting = Infinity; // since when, wall milliseconds
  /** @type {[Board, Reference] | null} */ #of = null;

  /** @param {number} number of the board @param {boolean} open whether it starts unfolded */
  constructor(number, open) {
    this.#open = open;
    const line = el('span', { class: 'known-line' }, this.#word, ' ', this.#move, ' ', this.#text);
    this.#summary = el('summary', { id: `known-${number}` }, line);
    this.root = el('details', { class: 'known', hidden: true }, this.#summary, this.#body);
    this.#summary.addEventListener('click', () => this.#chosen.set(this.#calm, !this.unfolded));
  }

  /** @param {Board} board @param {Reference | null} reference */
  update(board, reference) {
    const stand = standOf(board, reference);
    this.#of = reference && [board, reference];
    mark(this.root, 'hidden', stand === STAND.NONE);
    if (stand === STAND.WAITING && this.#stand !== '') {
      this.#waiting = Math.min(this.#waiting, performance.now());
    } else {
      this.#waiting = Infinity;
      this.#draw();
    }
  }

  /** Fold what is to be folded, and say what is still waited for. */
  tick() {
    if (performance.now() - this.#waiting >= PATIENCE_MS) {
      this.#waiting = Infinity;
      this.#draw();
    }
    const want = this.#chosen.get(this.#calm) ?? (this.#open && !this.#calm);
    const touched = this.root.parentElement?.matches(hovers() ? ':hover, :active' : ':active');
    if (want !== this.unfolded && !touched) mark(this.root, 'open', want); // nothing folds under a finger
  }

  get unfolded() {
    return this.root.hasAttribute('open');
  }

  /** @param {boolean} open */
  unfold(open) {
    this.#chosen.set(this.#calm, open);
    mark(this.root, 'open', open);
  }

  /** Whether the opening is over. */
  get #calm() {
    return this.#stand === STAND.LEFT || this.#stand === STAND.BEYOND;
  }

  #draw() {
    if (!this.#of) return;
    const [board, reference] = this.#of;
    const stand = (this.#stand = standOf(board, reference));
    if (stand === STAND.NONE) return;
    const about = answer(board, reference);
    const more = subject(board, reference);
    const key = JSON.stringify([stand, about, more, reference.counted, newMove(board)]);
    if (key === this.#drawn) return;
    this.#drawn = key;
    mark(this.root, 'data-stand', stand);
    mark(this.root, 'data-empty', more === null);
    write(this.#word, about.word);
    write(this.#text, about.text);
    this.#move.replaceChildren(...(about.ply ? [`${numbered(about.ply)}\u00a0`, move(about.san), ','] : []));
    this.#body.replaceChildren(...(more ? details(board, reference, more) : []));
  }
}

/** @param {Board} board @param {Reference} reference @param {NonNullable<ReturnType<typeof subject>>} more */
function details(board, reference, { known, ply, before }) {
  const parts = [ended(known, before), usual(known, ply, before)];
  if (known.last) parts.push(lastGame(known.last, ply, before));
  if (reference.counted) parts.push(counted(reference, known));
  if (!before && board.novelty) parts.push(leftWith(board));
  return parts;
}

/** Which games count, and how many more there are. @param {Reference} reference @param {import('../lib/wire.js').Known} known */
function counted(reference, known) {
  const more = known.all - known.games;
  const rest = more > 0 ? `; ${notCounted(more)} came here too` : '';
  return el('p', { class: 'known-note', dir: 'auto' }, `Counted: ${reference.counted}${rest}`);
}

/** @param {Board} board */
function leftWith(board) {
  const { ply, san } = newMove(board);
  return el('p', { class: 'known-note' }, `It had left the reference with ${numbered(ply)} `, move(san));
}
