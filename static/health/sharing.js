// @ts-check
/** @typedef {import('../lib/wire.js').Bus} Bus */
import { byId, el, mark, write } from '../lib/dom.js';
import { BUS } from '../lib/wire.js';
import { icon } from '../surface/dom.js';
import { count } from '../surface/words.js';

/** What a process is while all is well, and what it is when it is cut off. @type {Record<string, [string, string]>} */
const WORDS = {
  [BUS.LEADS]: ['Leads the show', 'Leads the show, but the bus fails'],
  [BUS.STANDS_BY]: ['Stands by', 'Stands by, but is cut off'],
  [BUS.FOLLOWS]: ['An edge', 'An edge that is cut off'],
};

/**
 * How this process shares the show with others, in words.
 *
 * @param {Bus} bus
 * @param {string} verdict the page's headline, which may say the same already
 * @returns {{look: 'kept' | 'failing' | 'off', word: string, text: string}} look 'off': it is not shared
 */
export function busWords({ role, leader, wrong, waiting }, verdict) {
  const known = WORDS[role];
  if (!known) return { look: 'off', word: '', text: '' };
  if (wrong) {
    const kept = waiting > 0 && `${count(waiting, 'message')} kept until the bus is back`;
    return { look: 'failing', word: known[1], text: [!verdict.includes(wrong) && wrong, kept].filter(Boolean).join('; ') };
  }
  return { look: 'kept', word: known[0], text: role === BUS.LEADS ? 'what happens is shared over the bus' : followWords(role, leader) };
}

/** @param {string} role @param {string} leader */
function followWords(role, leader) {
  const led = leader ? `led by ${leader}` : 'nobody is known to lead';
  return role === BUS.FOLLOWS ? `${led}: feeds are heard there, and what you enter goes there` : led;
}

/** Sharing says below the journal how this process shares the show, and what of the page is of this process alone. */
export class Sharing {
  #sign = el('span', { class: 'journal-sign' });
  #word = el('strong');
  #text = el('span', { class: 'journal-text', dir: 'auto' });
  #root = byId('sharing');
  #ownPages = byId('own-pages');

  constructor() {
    this.#root.append(this.#sign, el('span', { class: 'journal-words', role: 'status' }, this.#word, ' ', this.#text));
  }

  /** @param {Bus} bus @param {string} verdict */
  update(bus, verdict) {
    const { look, word, text } = busWords(bus, verdict);
    if (this.#root.dataset.state !== look) this.#sign.replaceChildren(icon(look === 'failing' ? 'warning' : 'bus'));
    mark(document.body, 'data-cut', look === 'failing' && bus.role !== BUS.LEADS);
    mark(this.#root, 'hidden', look === 'off');
    mark(this.#ownPages, 'hidden', look === 'off');
    mark(this.#root, 'data-state', look);
    write(this.#word, word);
    write(this.#text, text);
    mark(this.#text, 'title', text || null);
  }
}
