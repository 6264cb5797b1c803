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
    const go = this.#goOn(text);
    this.#shown = text;
    if (go) return;
    const shape = text.replace(FIGURE, '0');
    const figures = text.match(FIGURE) ?? [];
    if (shape !== this.#shape) this.#build(shape, figures.length);
    figures.forEach((figure, i) => this.#figures[i].show(Number(figure)));
  }

  /** Of the same shape, as nearly every text is, only the figures that differ are touched; false: it is another. @param {string} text */
  #goOn(text) {
    const before = this.#shown;
    if (text.length !== before.length) return false;
    for (let i = 0, figure = 0; i < text.length; i++) {
      const is = isFigure(text, i);
      if (is !== isFigure(before, i) || (!is && text[i] !== before[i])) return false;
      if (is) this.#figures[figure++].show(Number(text[i]));
    }
    return true;
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

/** @param {string} text @param {number} i */
function isFigure(text, i) {
  return text[i] >= '0' && text[i] <= '9';
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
