// @ts-check
import { el, write } from './dom.js';

const FIGURE = /\d/g;

/**
 * Digits writes a text whose figures change every second. Each figure is a strip of all ten
 * behind a window of one (digits.css): another one moves the strip, which browsers do
 * without laying anything out. Only another shape, 10:00 to 9:59, is written anew.
 * What is drawn cannot be read: say it in an aria-label beside.
 */
export class Digits {
  #root;
  #shape = '';
  /** @type {HTMLElement[]} */ #strips = [];
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
    figures.forEach((figure, i) => {
      if (this.#strips[i].style.getPropertyValue('--figure') !== figure) this.#strips[i].style.setProperty('--figure', figure);
    });
  }

  /** @param {string} shape @param {number} count */
  #build(shape, count) {
    this.#shape = shape;
    if (count === 0) return write(this.#root, shape);
    this.#strips = Array.from({ length: count }, () => el('i', { class: 'digit' }));
    let next = 0;
    this.#root.replaceChildren(...[...shape].map((c) => (c === '0' ? this.#strips[next++] : c)));
  }
}
