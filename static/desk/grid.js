// @ts-check
/** @typedef {import('../lib/wire.js').Mark} Mark */
import { el, mark } from '../lib/dom.js';
import { neighbour, rows, squareWords } from './squares.js';

/** Grid is the 64 squares as they are reached by keyboard and told by a screen reader: one tab stop, arrows inside. */
export class Grid {
  root = el('div', { class: 'cells', role: 'grid', 'aria-label': 'Board' });
  /** @type {Map<string, HTMLElement>} */ #cells = new Map();
  #turned = false;
  #stop = 'e2';

  constructor() {
    this.root.addEventListener('focusin', (e) => this.#stand(squareOf(e.target)));
    this.root.addEventListener('keydown', (e) => this.#key(/** @type {KeyboardEvent} */ (e)));
  }

  /** The square that has the focus, "" none. */
  get focused() {
    return this.root.contains(document.activeElement) ? squareOf(document.activeElement) : '';
  }

  focus() {
    this.#cells.get(this.#stop)?.focus();
  }

  /** @param {boolean} turned */
  build(turned) {
    const focused = this.focused;
    this.#turned = turned;
    this.#cells.clear();
    const lines = rows(turned).map((row, y) => el('div', { role: 'row' }, ...row.map((square, x) => this.#cell(square, x === 0, y === 7))));
    this.root.replaceChildren(...lines);
    this.#stand(this.#stop);
    if (focused) this.#cells.get(focused)?.focus();
  }

  /** @param {Map<string, string>} men @param {{held: string, targets: Set<string>, marks: Mark[]}} more */
  update(men, more) {
    for (const [square, cell] of this.#cells) {
      mark(cell, 'aria-label', squareWords(square, men, more));
      mark(cell, 'data-man', men.has(square));
      mark(cell, 'data-target', more.targets.has(square));
      mark(cell, 'aria-selected', square === more.held ? 'true' : 'false');
    }
  }

  /** The square whose man is under the pointer, "" none. @param {string} square */
  lifted(square) {
    for (const [name, cell] of this.#cells) mark(cell, 'data-lifted', name === square);
  }

  /** The square under a carried man, "" none. @param {string} square */
  over(square) {
    for (const [name, cell] of this.#cells) mark(cell, 'data-over', name === square);
  }

  /** @param {string} square @param {boolean} first of its row @param {boolean} last row */
  #cell(square, first, last) {
    const cell = el('div', { role: 'gridcell', 'data-square': square, tabindex: -1, 'data-rank': first && square[1], 'data-file': last && square[0] });
    this.#cells.set(square, cell);
    return cell;
  }

  /** @param {string} square "" stays */
  #stand(square) {
    if (square) this.#stop = square;
    for (const [name, cell] of this.#cells) cell.tabIndex = name === this.#stop ? 0 : -1;
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    if (event.ctrlKey || event.metaKey || event.altKey || event.shiftKey) return;
    const to = neighbour(this.focused, event.key, this.#turned);
    if (to === null) return;
    event.preventDefault(); // it is no step through the game
    this.#cells.get(to)?.focus();
  }
}

/** @param {EventTarget | null} target */
export function squareOf(target) {
  return (target instanceof Element && target.closest('[data-square]')?.getAttribute('data-square')) || '';
}
