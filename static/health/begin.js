// @ts-check
import { byId, mark } from '../lib/dom.js';
import { Said } from './said.js';
import { Sender } from './sender.js';

/**
 * @typedef {object} Begun how far a board begun by hand has come
 * @property {number} board its number, 0 before the relay has it
 * @property {string[]} done sides whose name it has
 */

/**
 * What is to be sent next for a board begun by hand: the first name begins it,
 * the second one is given to it.
 *
 * @param {Begun} begun
 * @param {{white: string, black: string}} names
 * @param {number} next number of a board to be begun
 * @returns {{board: number, act: 'name', side: 'white' | 'black', text: string} | null}
 */
export function nextName(begun, names, next) {
  const sides = /** @type {const} */ (['white', 'black']);
  const side = sides.find((s) => names[s] !== '' && !begun.done.includes(s));
  return side ? { board: begun.board || next, act: 'name', side, text: names[side] } : null;
}

/** Begin is the form that begins a board by hand, for when no feed works at all. */
export class Begin {
  #sender;
  #said;
  #form = byId('begin');
  #toggle = byId('begin-toggle');
  #fields = { white: input('begin-white'), black: input('begin-black') };
  /** @type {Begun} */ #begun = { board: 0, done: [] };
  #sending = false;
  #next;
  #open;

  /**
   * @param {import('../surface/post.js').Post} post
   * @param {() => number} next number of a board to be begun
   * @param {(board: number) => void} open called when it is there
   */
  constructor(post, next, open) {
    this.#sender = new Sender(post);
    this.#next = next;
    this.#open = open;
    this.#said = new Said(this.#sender);
    this.#form.append(this.#said.root);
    for (const field of Object.values(this.#fields)) {
      mark(field, 'aria-describedby', this.#said.id);
      field.addEventListener('input', () => this.#sending || this.#said.show('none'));
    }
    this.#toggle.addEventListener('click', () => this.#show(this.#form.hidden));
    this.#form.addEventListener('keydown', (e) => e.key === 'Escape' && this.#show(false));
    this.#form.addEventListener('submit', (e) => {
      e.preventDefault();
      if (!this.#sending) this.#submit();
    });
  }

  /** @param {boolean} open */
  #show(open) {
    this.#form.hidden = !open;
    mark(this.#toggle, 'aria-expanded', String(open));
    (open ? this.#fields.white : this.#toggle).focus();
  }

  async #submit() {
    const names = { white: this.#fields.white.value.trim(), black: this.#fields.black.value.trim() };
    if (!names.white && !names.black) {
      this.#said.show('error', 'Write at least one name.');
      return this.#fields.white.focus();
    }
    this.#sending = true;
    const done = await this.#send(names);
    this.#sending = false;
    if (!done) return;
    const { board } = this.#begun;
    this.#begun = { board: 0, done: [] };
    for (const field of Object.values(this.#fields)) field.value = '';
    this.#said.show('none');
    this.#show(false);
    this.#open(board);
  }

  /** One name after the other; what was done is not sent again. @param {{white: string, black: string}} names */
  async #send(names) {
    for (let entry = nextName(this.#begun, names, this.#next()); entry; entry = nextName(this.#begun, names, this.#next())) {
      if (!(await this.#said.follow(this.#sender, entry, `board ${entry.board}, ${entry.text}`, `Board ${entry.board} has begun.`))) {
        this.#fields[entry.side].focus();
        return false;
      }
      this.#begun = { board: entry.board, done: [...this.#begun.done, entry.side] };
    }
    return true;
  }
}

/** @param {string} id @returns {HTMLInputElement} */
const input = (id) => /** @type {HTMLInputElement} */ (byId(id));
