// @ts-check
/** @typedef {import('../lib/wire.js').Journal} Journal */
import { el, mark, write } from '../lib/dom.js';
import { icon } from '../surface/dom.js';
import { BUS, JOURNAL } from '../lib/wire.js';

/**
 * Whether what happens is written down, in words.
 *
 * @param {Journal} journal
 * @param {string} verdict the page's headline, which may say the same already
 * @returns {[string, string]} the state, and what else there is to say
 */
export function journalWords({ state, text }, verdict) {
  switch (state) {
    case JOURNAL.KEPT:
      return ['Journal kept', text];
    case JOURNAL.FAILING:
      return ['Journal fails, nothing is written down', text !== '' && verdict.includes(text) ? '' : text];
  }
  return ['No journal', 'after a crash the show log and entries by hand are gone'];
}

/** JournalView stands beside the verdict. */
export class JournalView {
  #sign = el('span', { class: 'journal-sign' });
  #word = el('strong');
  #text = el('span', { class: 'journal-text', dir: 'auto' });
  #root;

  /** @param {HTMLElement} root */
  constructor(root) {
    this.#root = root;
    root.append(this.#sign, el('span', { class: 'journal-words', role: 'status' }, this.#word, ' ', this.#text));
  }

  /** @param {Journal} journal @param {string} verdict @param {string} role of this process in a show that is shared */
  update(journal, verdict, role) {
    const [word, text] = journalWords(journal, verdict);
    if (this.#root.dataset.state !== journal.state) this.#sign.replaceChildren(icon(journal.state === JOURNAL.FAILING ? 'warning' : 'journal'));
    mark(this.#root, 'hidden', role === BUS.FOLLOWS && journal.state === JOURNAL.OFF); // an edge has nothing to lose
    mark(this.#root, 'data-state', journal.state);
    write(this.#word, word);
    write(this.#text, text);
    mark(this.#text, 'title', text || null);
  }
}
