// @ts-check
/** @typedef {import('../lib/wire.js').Prompt} Prompt */
import { PRIORITY, PROMPT } from '../lib/wire.js';

/**
 * Speaker reads to a screen reader what must not be missed, each thing once:
 * new "now" prompts that nobody has, conflicts, what goes on and off the air.
 */
export class Speaker {
  /** @type {Set<string>} */ #spoken = new Set();
  #region;

  /** @param {Pick<Element, 'textContent'>} region the page's one live region */
  constructor(region) {
    this.#region = region;
  }

  /** @param {Prompt[]} items */
  hear(items) {
    const urgent = items.filter((p) => p.priority === PRIORITY.NOW && p.withdrawn === 0 && p.state === PROMPT.OPEN);
    const fresh = urgent.filter((p) => !this.#spoken.has(p.key));
    if (fresh.length === 0) return;
    for (const p of fresh) this.#spoken.add(p.key);
    this.say(fresh.map((p) => p.text).join(' '));
  }

  /** @param {string} text */
  say(text) {
    this.#region.textContent = text;
  }
}
