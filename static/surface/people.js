// @ts-check
import { byId, el, mark, write } from '../lib/dom.js';

const STORE_KEY = 'clocktell.panel.name';
/** Characters of a name, as in relay/atpanel.go. */
export const NAME_MOST = 40;
/** Names told one by one; the rest is a number. */
const NAMES_MOST = 6;

/** What the name is asked for, in words. @type {Record<string, string>} */
const FOR = {
  take: 'Your name, and the sentence is yours.',
  over: 'Your name, and the sentence is yours.',
  air: 'Your name, and it goes on the air.',
  note: 'Your name, and the note is on the table.',
};

/**
 * Who sits at the table, this co-host first and then the others.
 *
 * @param {string[]} names as the relay lists them
 * @param {string} me "" while not known
 * @returns {string[]} the others told one by one, and "and 3 more"
 */
export function others(names, me) {
  const rest = names.filter((n) => n !== me);
  const more = rest.length - NAMES_MOST;
  return more > 1 ? [...rest.slice(0, NAMES_MOST), `and ${more} more`] : rest;
}

/** People says who sits at the table, and asks this co-host once for a name. */
export class People {
  /** This co-host's name, "" while not known. */
  me = '';
  #store;
  #told;
  #why;
  #form = /** @type {HTMLFormElement} */ (byId('who'));
  #field = /** @type {HTMLInputElement} */ (byId('who-name'));
  #mine = byId('who-me');
  #others = byId('who-others');
  /** @type {((me: string) => void)[]} what waits for the name */ #waiting = [];
  /** @type {string[]} */ #names = [];
  /** @type {HTMLElement | null} where the focus goes back to */ #from = null;

  /**
   * @param {Pick<Storage, 'getItem' | 'setItem'> | null} store
   * @param {() => void} told called when there is a name, or another
   * @param {string} [why] what the name is for, while nobody waits for it
   */
  constructor(store, told, why = 'Who are you? The others see who takes a sentence.') {
    this.#store = store;
    this.#told = told;
    this.#why = why;
    this.me = clean(store?.getItem(STORE_KEY) ?? '');
    this.#form.addEventListener('submit', (e) => {
      e.preventDefault();
      this.#given();
    });
    this.#form.addEventListener('keydown', (e) => e.key === 'Escape' && this.#close());
    byId('who-later').addEventListener('click', () => this.#close());
    this.#mine.addEventListener('click', () => this.#ask('Your name, as the others see it.'));
    this.#draw();
  }

  /** @param {string[]} names */
  heard(names) {
    this.#names = names;
    this.#draw();
  }

  /** Do something in this co-host's name, when there is one. @param {(me: string) => void} then @param {string} what */
  asMe(then, what) {
    if (this.me) return then(this.me);
    this.#waiting = [then]; // the last touch is what is meant
    this.#ask(FOR[what] ?? 'Your name, and it is done.');
  }

  /** @param {string} why */
  #ask(why) {
    this.#from = /** @type {HTMLElement | null} */ (document.activeElement);
    write(byId('who-why'), why);
    mark(this.#form, 'hidden', false);
    mark(this.#form, 'data-asks', true);
    mark(byId('who-later'), 'hidden', false);
    this.#field.value = this.me;
    this.#field.focus({ preventScroll: true });
  }

  #close() {
    this.#waiting = [];
    mark(this.#form, 'data-asks', false);
    this.#field.blur(); // at once: the next key is meant for the page
    this.#from?.focus({ preventScroll: true });
    this.#draw();
  }

  #given() {
    const name = clean(this.#field.value);
    if (!name) return this.#field.focus();
    const waiting = this.#waiting;
    this.me = name;
    try {
      this.#store?.setItem(STORE_KEY, name);
    } catch {
      // The store is full or forbidden: the name holds until the page is left.
    }
    this.#close();
    this.#told();
    for (const then of waiting) then(name);
  }

  #draw() {
    const asks = this.#form.hasAttribute('data-asks');
    mark(this.#form, 'hidden', this.me !== '' && !asks);
    mark(byId('who-later'), 'hidden', !asks);
    if (!asks) write(byId('who-why'), this.#why);
    mark(this.#mine, 'hidden', this.me === '');
    write(this.#mine, `${this.me} (you)`);
    const rest = others(this.#names, this.me);
    const comma = (/** @type {string} */ name, /** @type {number} */ i) => (i > 0 || this.me !== '') && !/^and \d+ more$/.test(name);
    this.#others.replaceChildren(...rest.flatMap((name, i) => [comma(name, i) ? ', ' : ' ', el('bdi', {}, name)]));
    mark(byId('people'), 'hidden', this.me === '' && rest.length === 0);
  }
}

/** A name as the relay takes it. @param {string} text */
export const clean = (text) => [...text.replace(/\p{Cc}/gu, ' ').trim()].slice(0, NAME_MOST).join('').trim();
