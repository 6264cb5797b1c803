// @ts-check
/** @typedef {import('../lib/wire.js').BoardSources} BoardSources */
/** @typedef {import('./sender.js').Sender} Sender */
import { TextForm } from './form.js';

/** The longest name the relay takes, in bytes of UTF-8; the field counts characters and is kept shorter. */
const NAME_MOST = 80;

/** A player's name. */
export class NameForm extends TextForm {
  #sender;
  #side;
  #item;
  #shown = '';

  /** @param {Sender} sender @param {'white' | 'black'} side @param {BoardSources} item */
  constructor(sender, side, item) {
    super(sender, { button: 'Set name', name: `name-${side}`, max: NAME_MOST });
    this.#sender = sender;
    this.#side = side;
    this.#item = item;
    this.input.dir = 'auto';
    this.label(side === 'white' ? 'Name of White' : 'Name of Black');
    this.update(item);
  }

  /** The field follows the board until somebody types. @param {BoardSources} item */
  update(item) {
    const changed = this.text !== this.#shown;
    this.#item = item;
    this.#shown = item[this.#side];
    if (!changed) this.input.value = this.#shown;
  }

  /** @param {string} text */
  async submit(text) {
    if (text === this.#item[this.#side]) return this.said.show('note', 'That is the name already.');
    if (text === '') return this.wrong('Write the name.');
    await this.send(this.#sender, { board: this.#item.board, act: 'name', side: this.#side, text }, text, `${text} is entered.`);
  }

  /** The name stays in the field; from now on it is the board's. */
  cleared() {
    this.#shown = this.text;
  }
}
