// @ts-check
import { el, write } from './dom.js';

const FIGURE = /\d/g;

/**
 * Digits writes a text whose figures change every second. For each figure all ten lie in one place
 * (digits.css) and one has a colour: another one is only painted, nothing is laid out, moved or cut,
 * of which browsers take account in the whole page. Only another shape, 10:00 to 9:59, is written anew.
 * What is drawn cannot be read: say it in an aria-label beside.
 */
export class Digits {
  #root;
  #shape = '';
  /** @type {Figure[]} */ #figures = [];
  #shown = '';

  /** @param {HTMLElement} root */
  constructor(root) {
    this.#root = root;
  }

  /** @param {string} text */
  write(text) {
    if (text === this.#shown) return;
    this.#shown = text;
    const shape = text.replace(FIGURE, '0');
    const figures = text.match(FIGURE) ?? [];
    if (shape !== this.#shape) this.#build(shape, figures.length);
    figures.forEach((figure, i) => this.#figures[i].show(Number(figure)));
  }

  /** @param {string} shape @param {number} count */
  #build(shape, count) {
    this.#shape = shape;
    if (count === 0) return write(this.#root, shape);
    while (this.#figures.length < count) this.#figures.push(new Figure()); // kept for other shapes: nothing is thrown away
    let next = 0;
    this.#root.replaceChildren(...[...shape].map((c) => (c === '0' ? this.#figures[next++].root : c)));
  }
}

/** Figure is the place of one figure. */
class Figure {
  #ten = Array.from({ length: 10 }, (_, n) => el('i', { 'data-figure': n }));
  #shown = -1;
  root = el('span', { class: 'digit' }, ...this.#ten);

  /** @param {number} n */
  show(n) {
    if (n === this.#shown) return;
    if (this.#shown >= 0) this.#ten[this.#shown].style.color = '';
    this.#ten[n].style.color = 'inherit';
    this.#shown = n;
  }
}
