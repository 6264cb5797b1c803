// @ts-check
/** @typedef {import('./outbox.js').Act} Act */
import { byId, mark, write } from '../lib/dom.js';
import { count } from '../surface/words.js';
import { SOON_MS } from './shared.js';

/** Acts in words, for one that came to nothing. @type {Record<string, string>} */
const WORDS = {
  take: 'taking', said: 'marking as said', drop: 'dropping', undo: 'undoing', pin: 'pinning', unpin: 'unpinning',
  air: 'putting on the air', off: 'taking off the air', note: 'leaving a note', wipe: 'wiping a note',
};

/** What is said of an act that came to nothing. @param {Act} act @param {string} sentence it was about, "" none @param {string} error */
export function refusedWords(act, sentence, error) {
  const about = sentence ? ` “${sentence.replace(/\.$/, '')}”` : '';
  return `Not done: ${WORDS[act.act] ?? act.act}${about}. ${error}`;
}

/** Trouble says, at the foot of the page, what was not done and what waits to be sent. */
export class Trouble {
  /** @type {string[]} the latest last */ #refused = [];
  #spoken = '';
  #say;

  /** @param {(text: string) => void} say reads it to a screen reader */
  constructor(say) {
    this.#say = say;
    byId('refused-ok').addEventListener('click', () => {
      this.#refused = [];
      this.#draw();
    });
  }

  /** @param {string} words */
  refused(words) {
    this.#refused.push(words);
    this.#say(words);
    this.#draw();
  }

  /** @param {{held: string, acts: readonly Act[]}} outbox */
  update({ held, acts }) {
    const waiting = acts.filter((a) => Date.now() - a.at >= SOON_MS).length;
    const waits = waiting ? `${count(waiting, 'act')} of yours ${waiting === 1 ? 'waits' : 'wait'} to be sent.` : '';
    const words = held ? `Nothing you do here reaches the others. ${held}` : waits;
    mark(byId('unsent'), 'hidden', words === '');
    mark(byId('unsent'), 'data-held', held !== '');
    write(byId('unsent-words'), held ? `${words} ${waits}` : words);
    if (held && held !== this.#spoken) this.#say(words);
    this.#spoken = held;
  }

  #draw() {
    const last = this.#refused[this.#refused.length - 1] ?? '';
    mark(byId('refused'), 'hidden', last === '');
    const more = this.#refused.length - 1;
    write(byId('refused-words'), more > 0 ? `${last} And ${more} more before.` : last);
  }
}
