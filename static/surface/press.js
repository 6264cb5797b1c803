// @ts-check
import { el, mark, write } from '../lib/dom.js';
import { ARMED_MS, Twice } from './twice.js';

/**
 * Press is a button; what is dangerous asks for a second press of it. It goes
 * back to its word when it is left, or after a while.
 */
export class Press {
  #twice = new Twice();
  #word = el('span');
  #timer = 0;
  #run;
  #plain = '';
  #key = '';
  #again = '';

  /** @param {Record<string, string>} attributes @param {() => void} run @param {...Element} children */
  constructor(attributes, run, ...children) {
    this.#run = run;
    this.root = el('button', { type: 'button', class: 'button', ...attributes }, ...children, this.#word);
    this.root.addEventListener('click', () => this.#pressed());
    this.root.addEventListener('blur', () => this.#drop());
    this.root.addEventListener('keydown', (e) => {
      if (e.key === 'Escape' && this.#drop()) e.stopPropagation();
    });
  }

  /**
   * @param {string} plain the button's word
   * @param {string} [again] its word while a second press is asked for; "" one press is enough
   * @param {string} [key] what it would do; when that changes, the first press counts no more
   */
  says(plain, again = '', key = again) {
    if (key !== this.#key) this.#drop();
    [this.#plain, this.#again, this.#key] = [plain, again, key];
    this.#draw();
  }

  #pressed() {
    if (this.#again === '' || this.#twice.press(this.#key, performance.now())) {
      this.#drop();
      return this.#run();
    }
    clearTimeout(this.#timer);
    this.#timer = window.setTimeout(() => this.#draw(), ARMED_MS + 50);
    this.#draw();
  }

  /** Whether it was armed. */
  #drop() {
    const was = this.#twice.armed(performance.now()) !== '';
    this.#twice.drop();
    this.#draw();
    return was;
  }

  #draw() {
    const armed = this.#again !== '' && this.#twice.armed(performance.now()) === this.#key;
    mark(this.root, 'data-armed', armed);
    write(this.#word, armed ? this.#again : this.#plain);
  }
}
