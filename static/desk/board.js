// @ts-check
/** @typedef {import('../lib/wire.js').Desk} Desk */
/** @typedef {import('../lib/wire.js').Mark} Mark */
import { BoardView } from '../lib/boardview.js';
import { el, mark } from '../lib/dom.js';
import { pieces } from '../lib/placement.js';
import { Pointer } from '../lib/pointer.js';
import { piece } from '../pieces/pieces.js';
import { Grid } from './grid.js';

/** Whether the person wants things to move. */
const motion = () => !matchMedia('(prefers-reduced-motion: reduce)').matches;

/**
 * DeskBoard is the large board: men, marks, and over them the squares that are
 * pressed, dragged over and reached by keyboard.
 */
export class DeskBoard {
  #root;
  /** @type {{view: BoardView, pointer: Pointer, draft: Pointer, turned: boolean} | null} */ #drawn = null;
  #ghost = el('div', { class: 'ghost', 'aria-hidden': 'true', hidden: true });
  /** @type {Desk | null} */ #desk = null;
  /** @type {Map<string, string>} */ men = new Map();
  /** The square whose man is picked up, "" none. */
  held = '';

  /** @param {HTMLElement} root */
  constructor(root) {
    this.#root = root;
    this.grid = new Grid();
  }

  /** Whether Black is at the bottom. */
  get turned() {
    return this.#desk?.turned ?? false;
  }

  /** @param {Desk} desk @param {boolean} slide whether the men go to their squares; after a drag they are there */
  update(desk, slide) {
    this.#desk = desk;
    if (this.#drawn?.turned !== desk.turned) this.#build(desk.turned);
    this.men = pieces(desk.place.fen);
    if (this.held && !this.targets(this.held).size) this.held = '';
    this.#drawn?.view.show(desk.place.fen, desk.place.last, slide);
    this.#drawn?.pointer.show(desk.marks, this.men);
    this.refresh();
  }

  /** Say and show anew what is picked up and where it may go. */
  refresh() {
    if (this.#desk) this.grid.update(this.men, { held: this.held, targets: this.targets(this.held), marks: this.#desk.marks });
  }

  /** Where the man of a square may go. @param {string} from */
  targets(from) {
    return new Set(from === '' ? [] : (this.#desk?.moves ?? []).filter((m) => m.from === from).map((m) => m.to));
  }

  /** A mark while it is drawn, null none. @param {Mark | null} draft */
  sketch(draft) {
    this.#drawn?.draft.show(draft ? [draft] : [], this.men);
  }

  /**
   * A man under the pointer. @param {string} letter "" none @param {number} x share of the board's width @param {number} y
   * @param {string} from the square it left
   */
  carry(letter, x = 0, y = 0, from = '') {
    const shown = this.#ghost.dataset.man ?? '';
    mark(this.#ghost, 'hidden', letter === '');
    if (letter !== shown) {
      this.#ghost.replaceChildren(...(letter ? [piece(letter)] : []));
      this.#ghost.dataset.man = letter;
    }
    this.#ghost.style.transform = `translate(${(x * 8 - 0.5) * 100}%, ${(y * 8 - 0.5) * 100}%)`;
    this.grid.lifted(letter ? from : '');
  }

  /** @param {boolean} turned */
  #build(turned) {
    const men = el('div', { class: 'men', 'aria-hidden': 'true' });
    const view = new BoardView(men, { flipped: turned, motion: motion() });
    const pointer = new Pointer({ flipped: turned, motion: motion() });
    const draft = new Pointer({ flipped: turned, motion: false });
    draft.root.classList.add('draft');
    this.#drawn = { view, pointer, draft, turned };
    this.grid.build(turned);
    this.#root.replaceChildren(men, pointer.root, draft.root, this.grid.root, this.#ghost);
  }
}
