// @ts-check
/** @typedef {import('../lib/wire.js').Prompt} Prompt */
import { PRIORITY } from '../lib/wire.js';
import { keyOf } from './stream.js';

/** Speaker reads new "now" prompts to a screen reader, each once, and nothing else. */
export class Speaker {
  /** @type {Set<string>} */ #spoken = new Set();
  #region;

  /** @param {Pick<Element, 'textContent'>} region the page's one live region */
  constructor(region) {
    this.#region = region;
  }

  /** @param {Prompt[]} items */
  hear(items) {
    const fresh = items.filter((p) => p.priority === PRIORITY.NOW && p.withdrawn === 0 && !this.#spoken.has(keyOf(p)));
    if (fresh.length === 0) return;
    for (const p of fresh) this.#spoken.add(keyOf(p));
    this.#region.textContent = fresh.map((p) => p.text).join(' ');
  }
}
