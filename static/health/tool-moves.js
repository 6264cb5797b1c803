// @ts-check
/** @typedef {import('../lib/wire.js').BoardSources} BoardSources */
/** @typedef {import('./sender.js').Sender} Sender */
import { el } from '../lib/dom.js';
import { Binding } from './binding.js';
import { TextForm } from './form.js';
import { Press } from '../surface/press.js';
import { nextWords } from './sources.js';

/** A field for a move, which keeps to the ply it was begun for. */
class MoveForm extends TextForm {
  binding = new Binding();
  /** @type {BoardSources} */ item;
  sender;

  /** @param {Sender} sender @param {BoardSources} item @param {{button: string, name: string, placeholder?: string}} about */
  constructor(sender, item, about) {
    super(sender, about);
    this.sender = sender;
    this.item = item;
  }

  /** The ply that is now to be entered. @returns {import('./binding.js').Target} */
  get now() {
    return { ply: 0, label: '' };
  }

  /** @param {BoardSources} item */
  update(item) {
    this.item = item;
    this.binding.heard(this.text, this.now);
    this.draw();
    this.warn();
  }

  /** Say what the field is for. */
  draw() {}

  touched() {
    super.touched();
    if (this.sending) return;
    this.binding.typed(this.text, this.now);
    this.draw();
    this.warn();
  }

  /** The board went on under a half-typed move: say so, and send nothing by mistake. */
  warn() {
    const past = !this.sending && this.text.trim() !== '' && this.binding.isPast(this.now);
    if (past) this.said.show('error', `The board has gone on: this was for ${this.binding.target(this.now).label}. Empty the field to begin anew.`);
    return past;
  }

  /** Send what was typed. @param {{act: string, ply: number, san: string}} entry @param {string} what @param {string} done */
  async enter(entry, what, done) {
    this.binding.sent();
    const made = await this.send(this.sender, { board: this.item.board, ...entry }, what, `${done}.`);
    if (!made) return;
    this.binding.done();
    this.binding.typed(this.text, this.now);
    this.draw();
  }
}

/** The next move. */
export class NextMove extends MoveForm {
  /** @param {Sender} sender @param {BoardSources} item */
  constructor(sender, item) {
    super(sender, item, { button: 'Enter move', name: 'move' });
    this.update(item);
  }

  get now() {
    return { ply: this.item.plies + 1, label: nextWords(this.item) };
  }

  draw() {
    this.label(`Next move, ${this.binding.target(this.now).label}`);
    this.input.placeholder = this.item.turn === 'black' ? 'e.g. Nf6' : 'e.g. Nf3';
  }

  /** @param {string} san */
  async submit(san) {
    if (san === '') return this.wrong('Write the move as it is written on paper: e4, Nf3, O-O, exd8=Q.');
    if (this.warn()) return;
    const { ply } = this.binding.target(this.now);
    const what = `${this.item.next}${san}`;
    await this.enter({ act: 'move', ply, san }, what, `${what} is entered`);
  }
}

/** The last move: another one, or none. */
export class LastMove extends MoveForm {
  #back;

  /** @param {Sender} sender @param {BoardSources} item */
  constructor(sender, item) {
    const back = new Press({ class: 'button', 'data-act': 'back' }, () => this.#takeBack());
    super(sender, item, { button: 'Correct it', name: 'correct', placeholder: 'what was played' });
    this.#back = back;
    this.said.root.before(el('div', { class: 'choices below' }, back.root));
    this.update(item);
  }

  get now() {
    return { ply: this.item.plies, label: this.item.last };
  }

  draw() {
    const { last } = this.item;
    this.label(last ? `Instead of ${this.binding.target(this.now).label}` : 'Last move: none yet');
    this.#back?.says(`Take back ${last}`, `Press again to take back ${last}`, last);
    this.root.hidden = last === '';
  }

  /** @param {string} san */
  async submit(san) {
    if (san === '') return this.wrong(`Write the move that was played, or press Take back.`);
    if (this.warn()) return;
    const { ply, label } = this.binding.target(this.now);
    await this.enter({ act: 'correct', ply, san }, `${san} for ${label}`, `${san} stands instead of ${label}`);
  }

  /** What is typed in the field stays: it was not sent. */
  async #takeBack() {
    const { ply, label } = this.now;
    const entry = { board: this.item.board, act: 'correct', ply, san: '' };
    await this.said.follow(this.sender, entry, `taking back ${label}`, `${label} is taken back.`);
  }
}
