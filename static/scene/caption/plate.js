// @ts-check
/** @typedef {import('../../lib/wire.js').Caption} Caption */
import { el } from '../../lib/dom.js';
import { fit, stepsFor } from './fit.js';

/** What the edge draws, by the kind of the sentence; see caption.css. */
const EDGES = ['tell', 'clock', 'feed', 'reference', 'facts', 'match'];

/**
 * A sentence with its edge and its source. It has to be in the document before it is fitted.
 */
export class Plate {
  #sentence;

  /** @param {Caption} caption */
  constructor(caption) {
    this.caption = caption;
    this.#sentence = el('p', { class: 'sentence', dir: 'auto' }, caption.text);
    const words = el('div', { class: 'words' }, this.#sentence);
    // Whatever script the source is in, it begins under the sentence.
    if (caption.source) words.append(el('p', { class: 'source' }, el('bdi', {}, caption.source)));
    const edge = EDGES.includes(caption.kind) ? caption.kind : 'own';
    this.root = el('div', { class: 'plate', 'data-edge': edge }, el('i', { class: 'edge' }), words);
  }

  /** Whether the sentence is read from right to left. */
  get rtl() {
    return this.root.dir === 'rtl';
  }

  /** Where it lies on the stage. */
  get box() {
    return { left: this.root.offsetLeft, right: this.root.offsetLeft + this.root.offsetWidth };
  }

  /** Choose size and lines. */
  fit() {
    this.root.dir = getComputedStyle(this.#sentence).direction;
    const { step, width } = fit(stepsFor(this.caption.text), (s, w) => this.#set(s, w));
    this.#set(step, width + 1); // a browser tells widths rounded
    this.root.dataset.size = String(step.size);
  }

  /** @param {import('./fit.js').Step} step @param {number} width @returns {import('./fit.js').Lines} */
  #set(step, width) {
    const { style } = this.#sentence;
    style.fontSize = `${step.size}px`;
    style.lineHeight = `${step.leading}px`;
    style.width = `${width}px`;
    style.overflowWrap = 'normal';
    const broken = this.#sentence.scrollWidth > width;
    if (broken) style.overflowWrap = 'anywhere';
    return { lines: Math.round(this.#sentence.offsetHeight / step.leading), broken };
  }
}
