// @ts-check
/** @typedef {{kind: 'said' | 'dropped', at: number}} Mark at: wall ms of the touch */

/** Marks kept; older ones belong to prompts long gone. */
const MOST_MARKS = 300;
const STORE_KEY = 'clocktell.panel.marks';

/**
 * Marks remembers what was said and dropped on this screen. It lives in this
 * browser tab only: nobody else sees it, and a reload keeps it.
 */
export class Marks {
  /** @type {Map<string, Mark>} the latest last */ #marks = new Map();
  #store;

  /** @param {Pick<Storage, 'getItem' | 'setItem'> | null} store null: remember nothing over a reload */
  constructor(store) {
    this.#store = store;
    for (const [key, mark] of this.#read()) this.#marks.set(key, mark);
  }

  /** @param {string} key */
  get(key) {
    return this.#marks.get(key);
  }

  /** @param {string} key @param {Mark['kind']} kind @param {number} now wall ms */
  set(key, kind, now) {
    this.#marks.delete(key); // so that the latest is last
    this.#marks.set(key, { kind, at: now });
    for (const old of [...this.#marks.keys()].slice(0, -MOST_MARKS)) this.#marks.delete(old);
    this.#write();
  }

  /** Take a mark back. @param {string} key */
  clear(key) {
    this.#marks.delete(key);
    this.#write();
  }

  /**
   * Take back the latest mark among those that still matter.
   *
   * @param {(key: string) => boolean} matters
   * @returns {string | undefined} its key
   */
  undo(matters) {
    const key = [...this.#marks.keys()].reverse().find(matters);
    if (key !== undefined) this.clear(key);
    return key;
  }

  /** @returns {[string, Mark][]} */
  #read() {
    try {
      const held = JSON.parse(this.#store?.getItem(STORE_KEY) ?? '[]');
      return Array.isArray(held) ? held.filter(isEntry) : [];
    } catch {
      return []; // somebody else's text under our key: begin anew
    }
  }

  #write() {
    try {
      this.#store?.setItem(STORE_KEY, JSON.stringify([...this.#marks]));
    } catch {
      // The store is full or forbidden: the marks hold until the page is left.
    }
  }
}

/** @param {any} e @returns {e is [string, Mark]} */
function isEntry(e) {
  return Array.isArray(e) && typeof e[0] === 'string' && ['said', 'dropped'].includes(e[1]?.kind) && Number.isFinite(e[1]?.at);
}

/** The tab's own store, or null where the browser forbids it. */
export function tabStore() {
  try {
    return window.sessionStorage;
  } catch {
    return null;
  }
}
