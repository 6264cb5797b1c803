// @ts-check
import { el, mark, write } from '../lib/dom.js';
import { icon } from '../surface/dom.js';

/** How long a button says that it copied; wall milliseconds. */
const COPIED_MS = 2000;

/** AddressField shows an address, with a button that copies it. */
export class AddressField {
  #word = el('span', {}, 'Copy');
  #timer = 0;
  #copied;

  /** @param {string} name of what it is the address @param {(done: boolean) => void} [copied] */
  constructor(name, copied = () => {}) {
    this.#copied = copied;
    this.field = /** @type {HTMLInputElement} */ (el('input', { type: 'text', readonly: true, 'aria-label': `Address of ${name}` }));
    this.field.addEventListener('focus', () => this.field.select());
    this.button = el('button', { type: 'button', class: 'button', 'aria-label': `Copy the address of ${name}` }, icon('copy'), this.#word);
    this.button.addEventListener('click', () => this.#copy());
  }

  /** @param {string} address "" for none that could be copied */
  show(address) {
    if (this.field.value === address) return;
    this.field.value = address;
    mark(this.button, 'disabled', address === '');
    this.#says('Copy');
  }

  async #copy() {
    const done = await this.#toClipboard();
    this.#says(done ? 'Copied' : 'Press Ctrl C');
    this.#copied(done);
    this.#timer = window.setTimeout(() => this.#says('Copy'), COPIED_MS);
  }

  /** @param {string} word */
  #says(word) {
    clearTimeout(this.#timer);
    write(this.#word, word);
  }

  /** Pages that came over plain HTTP from another machine have no clipboard: there the selection is copied. */
  async #toClipboard() {
    try {
      await navigator.clipboard.writeText(this.field.value);
      return true;
    } catch {
      this.field.focus();
      this.field.select();
      return document.execCommand('copy');
    }
  }
}
