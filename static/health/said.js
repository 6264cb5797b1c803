// @ts-check
/** @typedef {import('./sender.js').Sender} Sender */
/** @typedef {import('../lib/wire.js').Entry} Entry */
import { el, mark, write } from '../lib/dom.js';
import { icon } from '../surface/dom.js';
import { count } from '../surface/words.js';
import { sentence } from '../surface/retry.js';
import { OUTCOME } from './sender.js';

/** @type {Record<string, string>} */
const ICONS = { error: 'warning', done: 'said', waiting: 'waiting', note: '' };

let made = 0; // for ids of this page

/** Said is the line beside a tool that tells what became of its entry. */
export class Said {
  #sign = el('span', { class: 'sign' });
  #words = el('span', { dir: 'auto' });
  #stop = el('button', { type: 'button', class: 'button small', hidden: true }, 'Stop trying');
  #kind = '';

  /** @param {Sender} sender */
  constructor(sender) {
    this.id = `said-${++made}`;
    this.#stop.addEventListener('click', () => sender.stop());
    const words = el('span', { class: 'said-words', id: this.id, role: 'status' }, this.#sign, this.#words);
    this.root = el('p', { class: 'said', 'data-kind': 'none' }, words, this.#stop);
  }

  /** @param {'none' | 'note' | 'done' | 'error' | 'waiting'} kind @param {string} [words] */
  show(kind, words = '') {
    if (kind !== this.#kind) this.#sign.replaceChildren(...(ICONS[kind] ? [icon(ICONS[kind])] : []));
    this.#kind = kind;
    mark(this.root, 'data-kind', kind);
    mark(this.#stop, 'hidden', kind !== 'waiting');
    write(this.#words, words);
  }

  get kind() {
    return this.#kind;
  }

  /**
   * Send an entry and tell here what becomes of it.
   *
   * @param {Sender} sender
   * @param {Partial<Entry>} entry
   * @param {string} what the entry in words
   * @param {string} done what to say when it was done
   * @returns {Promise<boolean>} whether it was done
   */
  async follow(sender, entry, what, done) {
    if (!sender.busy) this.show('note', 'Sending …');
    const { state, error } = await sender.send(entry, what, (progress) => this.show('waiting', waitingWords(what, progress)));
    if (state === OUTCOME.DONE) this.show('done', done);
    else this.show(state === OUTCOME.BUSY ? 'note' : 'error', error);
    return state === OUTCOME.DONE;
  }
}

/** @param {string} what @param {import('./sender.js').Progress} progress */
export function waitingWords(what, { tries, error }) {
  const why = error ? `${sentence(error)} ` : 'No answer yet. ';
  return `${why}${what}: sent ${count(tries, 'time')}, trying again.`;
}
