// @ts-check
import { el, mark, write } from '../lib/dom.js';
import { icon } from '../surface/dom.js';
import { SLIP_MS } from '../surface/twice.js';

/**
 * ActButton is a button of a card that keeps its place while what it does
 * changes. A second tap meant for what it did before does nothing.
 */
export class ActButton {
  #word = el('span');
  #icon = el('span', { class: 'sign', 'aria-hidden': 'true' });
  #action = '';
  #drawn = '';
  #changedAt = -Infinity;

  /** @param {string} place its name for styles @param {string} about id of the sentence @param {(action: string) => void} run */
  constructor(place, about, run) {
    this.root = el('button', { type: 'button', class: 'button act', 'data-place': place, 'aria-describedby': about }, this.#icon, this.#word);
    this.root.addEventListener('click', () => {
      if (performance.now() - this.#changedAt >= SLIP_MS) run(this.#action);
    });
  }

  /**
   * @param {string} action
   * @param {string} word
   * @param {boolean} [enabled] out of sight where not
   * @param {string} [sign] name of the icon
   */
  says(action, word, enabled = true, sign = action) {
    if (action !== this.#action && this.#action !== '') this.#changedAt = performance.now();
    this.#action = action;
    mark(this.root, 'data-action', action);
    mark(this.root, 'disabled', !enabled);
    write(this.#word, word);
    if (sign !== this.#drawn) this.#icon.replaceChildren(icon((this.#drawn = sign)));
  }
}
