// @ts-check
import { byId, mark, write } from '../lib/dom.js';

/** Where there are tabs, see sizes.css. */
export const NARROW = '(max-width: 599px)';

/** Tabs show one part of the panel at a time, where the screen is too narrow for all of them. */
export class Tabs {
  /** @type {Map<string, HTMLElement>} */ #buttons = new Map();

  constructor() {
    for (const button of byId('bar').querySelectorAll('button[data-tab]')) {
      const tab = /** @type {HTMLElement} */ (button);
      const name = tab.dataset.tab ?? '';
      this.#buttons.set(name, tab);
      tab.addEventListener('click', () => this.show(name));
    }
  }

  /** Show a part, where one is shown at a time. @param {string} name "prompts", "pinned" or "notes" */
  show(name) {
    if (!matchMedia(NARROW).matches) return;
    document.body.dataset.tab = name;
    for (const [key, button] of this.#buttons) mark(button, 'aria-current', key === name && 'true');
    scrollTo(0, 0);
  }

  /** @param {{prompts: number, pinned: number, notes: number}} counts @param {{prompts: boolean, pinned: boolean}} calls which have something urgent */
  update(counts, calls) {
    for (const [name, n] of Object.entries(counts)) {
      const button = this.#buttons.get(name);
      if (!button?.lastElementChild) continue;
      write(button.lastElementChild, n ? `${name}, ${n}` : name);
      mark(button, 'data-calls', calls[/** @type {'prompts'} */ (name)] === true);
    }
  }
}
