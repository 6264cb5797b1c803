// @ts-check
import { next } from './keys.js';

/**
 * Roving makes a group of buttons one tab stop: left and right move inside it,
 * Home and End to its ends. The stop is the button that has the focus or had it
 * last; after a change of the group, the one that is pressed.
 */
export class Roving {
  #group;

  /** @param {Element} group of buttons with aria-pressed */
  constructor(group) {
    this.#group = group;
    group.addEventListener('focusin', (e) => e.target instanceof Element && this.#stop(e.target.closest('button')));
    group.addEventListener('keydown', (e) => this.#key(/** @type {KeyboardEvent} */ (e)));
  }

  /** Buttons came, went or were pressed. */
  refresh() {
    const buttons = this.#buttons();
    const focused = buttons.find((b) => b === document.activeElement);
    this.#stop(focused ?? buttons.find((b) => b.getAttribute('aria-pressed') === 'true') ?? buttons[0] ?? null);
  }

  #buttons() {
    return [...this.#group.querySelectorAll('button')];
  }

  /** @param {HTMLButtonElement | null} stop */
  #stop(stop) {
    for (const button of this.#buttons()) button.tabIndex = button === stop ? 0 : -1;
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    if (event.ctrlKey || event.metaKey || event.altKey || event.shiftKey) return;
    const buttons = this.#buttons();
    const at = buttons.find((b) => b === document.activeElement) ?? null;
    /** @type {Record<string, HTMLButtonElement | undefined>} */
    const to = { ArrowRight: next(buttons, at, 1), ArrowLeft: next(buttons, at, -1), Home: buttons[0], End: buttons[buttons.length - 1] };
    if (!(event.key in to)) return;
    event.preventDefault(); // the row does not scroll besides
    to[event.key]?.focus();
  }
}
