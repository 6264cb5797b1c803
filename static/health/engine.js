// @ts-check
/** @typedef {import('../lib/wire.js').Engine} Engine */
import { el, mark, write } from '../lib/dom.js';
import { ENGINE } from '../lib/wire.js';
import { icon } from '../surface/dom.js';
import { ago, count } from '../surface/words.js';

/**
 * How the engine does: a word, what there is to know, and the look of it.
 *
 * @param {Engine} engine
 * @param {number} now show time
 * @returns {{look: 'kept' | 'failing' | 'off', word: string, text: string}}
 */
export function engineWords({ state, name, text, since, board, waiting, restarts, last }, now) {
  if (state === ENGINE.NONE) return { look: 'off', word: 'No engine', text: 'there is no second opinion; [engine] in the configuration sets one' };
  if (state === ENGINE.FAULT) return { look: 'failing', word: `${name || 'The engine'} gives no opinion`, text };
  const does = board ? `searching board ${board}` : since ? 'nothing to search' : 'getting ready';
  const more = [waiting > 0 && `${count(waiting, 'position')} waiting`, since && `ready ${ago(now - since)}`, restarts > 0 && `restarted ${count(restarts, 'time')}`, last && `last fault: ${last}`];
  return { look: 'kept', word: name, text: [does, ...more.filter(Boolean)].join('; ') };
}

/** EngineLine says below the journal how the engine does that gives second opinions. */
export class EngineLine {
  #sign = el('span', { class: 'journal-sign' });
  #word = el('strong', { dir: 'auto' });
  #text = el('span', { class: 'journal-text', dir: 'auto' });
  #said = el('span', { class: 'unseen', role: 'status' });
  /** @type {Engine | null} */ #engine = null;
  #root;

  #optional;

  /** @param {HTMLElement} root @param {boolean} [optional] where there is none nothing is said */
  constructor(root, optional = false) {
    this.#root = root;
    this.#optional = optional;
    root.append(this.#sign, el('span', { class: 'journal-words' }, this.#word, ' ', this.#text), this.#said);
  }

  /** @param {Engine} engine @param {number} now show time */
  update(engine, now) {
    this.#engine = engine;
    this.tick(now);
  }

  /** @param {number} now show time */
  tick(now) {
    if (!this.#engine) return;
    const { look, word, text } = engineWords(this.#engine, now);
    if (this.#root.dataset.state !== look) this.#sign.replaceChildren(icon(look === 'failing' ? 'warning' : 'engine'));
    mark(this.#root, 'hidden', this.#optional && this.#engine.state === ENGINE.NONE);
    mark(this.#root, 'data-state', look);
    write(this.#word, word);
    write(this.#text, text);
    mark(this.#text, 'title', text);
    write(this.#said, look === 'failing' ? `${word}: ${text}` : ''); // what it searches is no news to who listens
  }
}
