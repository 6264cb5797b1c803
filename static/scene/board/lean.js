// @ts-check
/** @typedef {import('../../lib/wire.js').Lean} Lean */
import { el, mark, write } from '../../lib/dom.js';

/**
 * LeanPlate says which way the engine leans, where somebody has put that on the air: words,
 * and a bead on a line that has gone from the middle towards a side, in its colour.
 */
export class LeanPlate {
  #root;
  #bead = el('i');
  #words = el('span');

  /** @param {HTMLElement} root */
  constructor(root) {
    this.#root = root;
    root.append(el('b', { 'aria-hidden': 'true' }, this.#bead), this.#words);
  }

  /** @param {Lean | null | undefined} lean null: none */
  show(lean) {
    mark(this.#root, 'data-shown', String(!!lean));
    if (!lean) return; // the words stay while the plate rolls back
    mark(this.#root, 'data-side', lean.side);
    write(this.#words, lean.text);
    const way = lean.side === 'white' ? -1 : 1;
    this.#bead.style.transform = `translateX(${lean.side ? way * Math.min(lean.size, 4) * 17 : 0}px)`;
  }
}
