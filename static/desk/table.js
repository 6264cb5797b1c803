// @ts-check
/** @typedef {import('./actions.js').Action} Action */
import { mark, write } from '../lib/dom.js';
import { Keymap, ariaKey, keyWords } from './keymap.js';
import { readActions } from './actions.js';

/** Table is what the relay says can be done: it names the buttons of the page and gives the keys. */
export class Table {
  /** @type {Action[]} */ actions = [];
  /** @type {Keymap | null} */ keymap = null;
  #store;

  /** @param {Pick<Storage, 'getItem' | 'setItem' | 'removeItem'> | null} store */
  constructor(store) {
    this.#store = store;
  }

  /** Ask the relay; whether it answered. @param {typeof fetch} [fetcher] */
  async load(fetcher = (...args) => fetch(...args)) {
    try {
      const response = await fetcher('/api/actions', { cache: 'no-store' });
      this.actions = readActions(await response.json());
    } catch {
      return false;
    }
    this.keymap = new Keymap(this.actions, this.#store);
    return this.actions.length > 0;
  }

  /** @param {string} name */
  action(name) {
    return this.actions.find((a) => a.name === name);
  }

  /** The words on its button, "" while not known. @param {string} name */
  title = (name) => this.action(name)?.title ?? '';

  /** @param {string} name */
  key = (name) => this.keymap?.key(name) ?? '';

  /** Write the words and keys of all buttons that say which action they do. */
  nameButtons() {
    for (const button of document.querySelectorAll('[data-act]')) {
      const name = button.getAttribute('data-act') ?? '';
      const action = this.action(name);
      if (!action) continue;
      const key = this.key(name);
      if (button.hasAttribute('data-quiet')) mark(button, 'aria-label', action.title);
      else if (name !== 'to-live') write(/** @type {Element} */ (button.lastElementChild), action.title);
      mark(button, 'title', `${action.does}${key ? ` Key: ${keyWords(key)}` : ''}`);
      mark(button, 'aria-keyshortcuts', ariaKey(key) || null);
    }
  }
}
