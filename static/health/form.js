// @ts-check
import { el, mark, write } from '../lib/dom.js';
import { Said } from './said.js';

/** Properties of a field that holds something for machines. */
const PLAIN = { type: 'text', autocomplete: 'off', autocapitalize: 'off', spellcheck: 'false', enterkeyhint: 'send' };

let made = 0; // for ids of this page

/** TextForm is a labelled field with its button and the line that tells what came of it. Enter sends. */
export class TextForm {
  #label = el('span', { class: 'label-words' });
  sending = false;

  /**
   * @param {import('./sender.js').Sender} sender
   * @param {{button: string, name: string, placeholder?: string, max?: number}} about name: tells the field to style and tests
   */
  constructor(sender, about) {
    const id = `field-${++made}`;
    this.said = new Said(sender);
    this.input = /** @type {HTMLInputElement} */ (
      el('input', { ...PLAIN, id, class: 'field', 'data-field': about.name, 'aria-describedby': this.said.id, placeholder: about.placeholder ?? '', maxlength: about.max ?? 20 })
    );
    this.button = el('button', { type: 'submit', class: 'button' }, about.button);
    const label = el('label', { for: id }, this.#label);
    const line = el('div', { class: 'form-line' }, this.input, this.button);
    this.root = el('form', { class: 'tool', 'data-tool': about.name, novalidate: true, autocomplete: 'off' }, label, line, this.said.root);
    this.input.addEventListener('input', () => this.touched());
    this.root.addEventListener('submit', (e) => {
      e.preventDefault();
      if (!this.sending) this.submit(this.input.value.trim());
    });
  }

  /** @param {string} words */
  label(words) {
    write(this.#label, words);
  }

  get text() {
    return this.input.value;
  }

  /** Somebody typed. */
  touched() {
    if (this.sending) return;
    this.said.show('none');
    this.invalid(false);
  }

  /** What Enter does. @param {string} _text */
  submit(_text) {}

  /** @param {string} words */
  wrong(words) {
    this.said.show('error', words);
    this.invalid(true);
    this.input.focus();
  }

  /** @param {boolean} is */
  invalid(is) {
    mark(this.input, 'aria-invalid', is ? 'true' : null);
  }

  /**
   * Send an entry; what was typed stays until it is done.
   *
   * @param {import('./sender.js').Sender} sender
   * @param {Partial<import('../lib/wire.js').Entry>} entry
   * @param {string} what @param {string} done
   * @returns {Promise<boolean>} whether it was done
   */
  async send(sender, entry, what, done) {
    const sent = this.input.value;
    this.sending = true;
    mark(this.root, 'data-sending', true);
    mark(this.button, 'aria-disabled', 'true');
    const ok = await this.said.follow(sender, entry, what, done);
    this.sending = false;
    mark(this.root, 'data-sending', false);
    mark(this.button, 'aria-disabled', null);
    this.invalid(this.said.kind === 'error');
    if (ok && this.input.value === sent) this.cleared();
    return ok;
  }

  /** Nothing is left to be sent. */
  cleared() {
    this.input.value = '';
  }
}
