// @ts-check
/** @typedef {import('../lib/wire.js').Reference} Reference */
import { el, mark } from '../lib/dom.js';
import { icon } from '../surface/dom.js';
import { BUILD, KEY, referenceWords } from '../surface/reference.js';

/** AttachedLine says once for all boards what positions are looked up in. */
export class AttachedLine {
  #root;
  #drawn = '';

  /** @param {HTMLElement} root */
  constructor(root) {
    this.#root = root;
  }

  /** @param {Reference} reference */
  update(reference) {
    const { state, word, text } = referenceWords(reference);
    const key = `${state} ${text}`;
    mark(this.#root, 'hidden', false);
    if (key === this.#drawn) return;
    this.#drawn = key;
    mark(this.#root, 'data-state', state);
    const words = el('span', {}, el('strong', {}, word), state === 'attached' ? ' ' : ': ', el('span', { dir: 'auto' }, text), ...help(state));
    this.#root.replaceChildren(icon(state === 'fault' ? 'warning' : 'reference'), words);
  }
}

/** What to do where there is none. @param {string} state */
function help(state) {
  if (state !== 'none') return [];
  // A command breaks between its words only: "--" at the end of a line says nothing.
  const code = (/** @type {string} */ text) => el('code', { dir: 'ltr' }, ...text.split(/(?<= )/).map((word) => el('span', {}, word)));
  return ['. Build one with ', code(BUILD), ', then name it as ', code(KEY.file), ' under ', code(KEY.section), '.'];
}
