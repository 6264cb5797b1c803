// @ts-check
/** @typedef {import('./ribbonwords.js').Plate} Plate */
import { byId, mark, write } from '../lib/dom.js';
import { icon } from '../surface/dom.js';
import { SLIP_MS } from '../surface/twice.js';

/** Ribbon says at the top what the desk sees and what the viewers see, with the one red action between them. */
export class RibbonView {
  #root = byId('ribbon');
  #button = /** @type {HTMLButtonElement} */ (byId('air-action'));
  #action = '';
  #changedAt = -Infinity;

  /** @param {(action: string) => void} run */
  constructor(run) {
    // A second tap meant for what the button did before does nothing.
    this.#button.addEventListener('click', () => performance.now() - this.#changedAt >= SLIP_MS && run(this.#action));
    byId('mine').querySelector('.sign')?.append(icon('desk'));
    byId('theirs').querySelector('.sign')?.append(icon('eye'));
  }

  /**
   * @param {import('./ribbonwords.js').Ribbon} ribbon
   * @param {{title: string, key: string}} action as the table and the keys have it
   */
  update({ state, mine, theirs, action }, { title, key }) {
    if (action !== this.#action && this.#action !== '') this.#changedAt = performance.now();
    this.#action = action;
    mark(this.#root, 'data-state', state);
    mark(document.body, 'data-air', state);
    mark(this.#button, 'data-does', action === 'put-on-air' ? 'on' : 'off');
    plate(byId('mine'), mine);
    plate(byId('theirs'), theirs);
    const [word, kbd] = this.#button.children;
    write(word, title);
    write(kbd, key);
  }
}

/** @param {HTMLElement} root @param {Plate} words */
function plate(root, { head, text, more }) {
  mark(root, 'hidden', text === '');
  const words = /** @type {Element} */ (root.querySelector('.plate-words'));
  [head, text, more].forEach((t, i) => write(words.children[i], t));
}
