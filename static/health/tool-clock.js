// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').BoardSources} BoardSources */
/** @typedef {import('./sender.js').Sender} Sender */
import { timeText } from '../lib/clock.js';
import { el, write } from '../lib/dom.js';
import { isWhite, moveNumber } from '../lib/san.js';
import { TextForm } from './form.js';

/** A ply as people call it: "23...Qd7". @param {import('../lib/wire.js').Ply} ply */
export const plyName = ({ number, san }) => `${moveNumber(number)}${isWhite(number) ? '.' : '...'}${san}`;

/**
 * Which ply a clock is read after: the last one, unless another is chosen or a
 * time is being typed for the one that was last when the typing began.
 *
 * @param {string[]} names of the plies as they are
 * @param {number} chosen index of the ply chosen, -1 for the last
 * @param {string} name of the ply chosen
 * @returns {number} index, -1 when the ply chosen is no longer there
 */
export function plyFor(names, chosen, name) {
  if (chosen < 0) return names.length - 1;
  return names[chosen] === name ? chosen : -1;
}

/** What a clock showed after a ply. */
export class ClockForm extends TextForm {
  #sender;
  #item;
  #select;
  /** @type {string[]} */ #names = [];
  /** @type {Board | undefined} */ #board;
  #chosen = -1;
  #name = '';

  /** @param {Sender} sender @param {BoardSources} item */
  constructor(sender, item) {
    const select = /** @type {HTMLSelectElement} */ (el('select', { class: 'field', 'aria-label': 'after which move', 'data-field': 'clock-ply' }));
    super(sender, { button: 'Set clock', name: 'clock', placeholder: '0:09:58' });
    this.#sender = sender;
    this.#item = item;
    this.#select = select;
    this.input.before(select);
    select.addEventListener('change', () => this.#choose(Number(select.value)));
    select.addEventListener('blur', () => this.#list());
  }

  /** @param {BoardSources} item @param {Board | undefined} board */
  update(item, board) {
    this.#item = item;
    this.#board = board;
    this.#names = (board?.plies ?? []).map(plyName);
    this.root.hidden = this.#names.length === 0;
    if (document.activeElement !== this.#select) this.#list();
    this.#explain();
  }

  touched() {
    super.touched();
    if (this.text.trim() === '') this.#choose(-1);
    else if (this.#chosen < 0) this.#choose(this.#names.length - 1);
  }

  cleared() {
    super.cleared();
    this.#choose(-1);
  }

  /** @param {string} clock */
  async submit(clock) {
    const at = plyFor(this.#names, this.#chosen, this.#name);
    if (at < 0) return this.wrong(`${this.#name} is no longer on the board: choose the move again.`);
    if (clock === '') return this.wrong('Write the clock as hours, minutes, seconds (0:09:58), or minutes and seconds (9:58).');
    const what = `clock ${clock} after ${this.#names[at]}`;
    await this.send(this.#sender, { board: this.#item.board, act: 'clock', ply: at + 1, clock }, what, `${clock} is entered after ${this.#names[at]}.`);
  }

  /** @param {number} at index, -1 for the last */
  #choose(at) {
    this.#chosen = at;
    this.#name = this.#names[at] ?? '';
    this.#list();
    this.#explain();
  }

  /** Newest first, the last ply chosen unless told otherwise. */
  #list() {
    const key = this.#names.join(' ');
    if (this.#select.dataset.key !== key) {
      this.#select.dataset.key = key;
      const options = this.#names.map((name, i) => el('option', { value: i }, name)).reverse();
      this.#select.replaceChildren(...options);
    }
    const at = plyFor(this.#names, this.#chosen, this.#name);
    if (at >= 0) this.#select.value = String(at);
    else this.#select.selectedIndex = -1;
  }

  /** Whose clock it is, and what it shows now. */
  #explain() {
    const ply = this.#board?.plies[plyFor(this.#names, this.#chosen, this.#name)];
    if (!ply) return this.label('Clock after');
    const shown = ply.quality === 'none' ? 'none' : timeText(ply.leftMs);
    this.label(`${isWhite(ply.number) ? 'White' : 'Black'}’s clock after ${plyName(ply)}, now ${shown}`);
  }
}
