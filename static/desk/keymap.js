// @ts-check
/** @typedef {import('./actions.js').Action} Action */

/** The page's own key that shows and folds the second opinion. */
export const OPINION_KEY = 's';

/** What the page itself needs, or the browser. */
const RESERVED = [OPINION_KEY, '?', 'Escape', 'Enter', 'Tab', ' ', 'Shift', 'Control', 'Alt', 'Meta', 'AltGraph', 'CapsLock', 'Dead', 'Unidentified', 'Process', 'F5', 'F11', 'F12'];

const STORE_KEY = 'clocktell.desk.keys';

/** Keys whose name is longer than what stands on them. @type {Record<string, string>} */
const WORDS = {
  ArrowLeft: '←', ArrowRight: '→', ArrowUp: '↑', ArrowDown: '↓', Delete: 'Del', PageUp: 'Page up', PageDown: 'Page down', Backspace: 'Back space',
};

/**
 * A pressed key as actions name it: "a", "Shift+H", "ArrowLeft", "]".
 *
 * @param {{key: string, shiftKey: boolean}} event
 */
export function keyOf({ key, shiftKey }) {
  const letter = key.length === 1 && key.toLowerCase() !== key.toUpperCase();
  if (letter) return shiftKey ? `Shift+${key.toUpperCase()}` : key.toLowerCase();
  return shiftKey && key.length > 1 ? `Shift+${key}` : key; // a sign is what Shift makes of its key
}

/** What stands on the key. @param {string} key */
export function keyWords(key) {
  return key
    .split(/(?<=.)\+(?=.)/)
    .map((part) => WORDS[part] ?? (part.length === 1 ? part.toUpperCase() : part))
    .join(' ');
}

/** As a browser wants a shortcut told. @param {string} key */
export const ariaKey = (key) => key.replace(/(^|\+)\+$/, '$1Plus');

/** Keymap says which key does what: those of the table, and over them what this person chose. */
export class Keymap {
  #actions;
  #store;
  /** @type {Record<string, string>} */ #own = {};

  /** @param {Action[]} actions @param {Pick<Storage, 'getItem' | 'setItem' | 'removeItem'> | null} store null: nothing is kept */
  constructor(actions, store) {
    this.#actions = actions;
    this.#store = store;
    const names = new Set(actions.map((a) => a.name));
    for (const [name, key] of Object.entries(read(store))) if (names.has(name) && typeof key === 'string') this.#own[name] = key;
  }

  /** The key of an action, "" none. @param {string} name */
  key(name) {
    return this.#own[name] ?? this.#actions.find((a) => a.name === name)?.key ?? '';
  }

  /** What a key does; undefined: nothing. @param {string} key */
  action(key) {
    return key === '' ? undefined : this.#actions.find((a) => this.key(a.name) === key);
  }

  /** Whether any key is another than in the table. */
  get changed() {
    return Object.keys(this.#own).length > 0;
  }

  /**
   * Give an action another key.
   *
   * @param {string} name
   * @param {string} key
   * @returns {string} why not, "" done
   */
  assign(name, key) {
    if (RESERVED.includes(key.replace(/^Shift\+/, ''))) return `${keyWords(key)} is taken by the page itself.`;
    const other = this.action(key);
    if (other && other.name !== name) return `${keyWords(key)} is “${other.title}”. Give that another key first.`;
    this.#own[name] = key;
    if (key === this.#actions.find((a) => a.name === name)?.key) delete this.#own[name];
    this.#keep();
    return '';
  }

  /** All keys as in the table. */
  reset() {
    this.#own = {};
    this.#keep();
  }

  #keep() {
    try {
      if (this.changed) this.#store?.setItem(STORE_KEY, JSON.stringify(this.#own));
      else this.#store?.removeItem(STORE_KEY);
    } catch {
      // The store is full or forbidden: the keys hold until the page is left.
    }
  }
}

/** @param {Pick<Storage, 'getItem'> | null} store @returns {Record<string, unknown>} */
function read(store) {
  try {
    const kept = JSON.parse(store?.getItem(STORE_KEY) ?? '{}');
    return kept && typeof kept === 'object' ? kept : {};
  } catch {
    return {};
  }
}
