// @ts-check
/** @typedef {import('../lib/wire.js').Reference} Reference */
import { el, mark, write } from '../lib/dom.js';
import { icon } from '../surface/dom.js';
import { referenceWords } from '../surface/reference.js';

/** LookedUp says below the journal what positions are looked up in. */
export class LookedUp {
  #sign = el('span', { class: 'journal-sign' });
  #word = el('strong');
  #text = el('span', { class: 'journal-text', dir: 'auto' });
  #root;

  /** @param {HTMLElement} root */
  constructor(root) {
    this.#root = root;
    root.append(this.#sign, el('span', { class: 'journal-words', role: 'status' }, this.#word, ' ', this.#text));
  }

  /** @param {Reference} reference */
  update(reference) {
    const { state, word, text } = referenceWords(reference);
    const look = { attached: 'kept', fault: 'failing', none: 'off' }[state];
    if (this.#root.dataset.state !== look) this.#sign.replaceChildren(icon(state === 'fault' ? 'warning' : 'reference'));
    mark(this.#root, 'hidden', false);
    mark(this.#root, 'data-state', look);
    write(this.#word, word);
    write(this.#text, text);
    mark(this.#text, 'title', text);
  }
}
