// @ts-check
import { byId, mark, write } from '../lib/dom.js';
import { Said } from './said.js';
import { Sender } from './sender.js';

/** What quiet mode means for the viewers now. @param {boolean | null} quiet null: not known yet */
export function quietWords(quiet) {
  if (quiet === null) return 'Not known yet';
  return quiet ? 'On: scenes tell no news of their own.' : 'Off: scenes tell what the clocks and the moves tell.';
}

/** Quiet is the switch of quiet mode. What it shows is what the relay says, not what was pressed. */
export class Quiet {
  /** @type {boolean | null} */ #quiet = null;
  #button = byId('quiet-switch');
  #words = byId('quiet-words');
  #note = byId('quiet-note');
  #sender;
  #said;

  /** @param {import('./sender.js').Post} post */
  constructor(post) {
    this.#sender = new Sender(post);
    this.#said = new Said(this.#sender);
    byId('quiet-part').append(this.#said.root);
    this.#button.addEventListener('click', () => this.#press());
    this.update(null);
  }

  /** @param {boolean | null} quiet */
  update(quiet) {
    if (quiet !== this.#quiet && this.#said.kind === 'done') this.#said.show('none');
    this.#quiet = quiet;
    mark(this.#button, 'aria-checked', String(quiet === true));
    mark(this.#button, 'aria-disabled', String(quiet === null));
    write(this.#words, quietWords(quiet));
    mark(this.#note, 'hidden', quiet !== true);
  }

  #press() {
    if (this.#quiet === null) return;
    const text = this.#quiet ? 'off' : 'on';
    void this.#said.follow(this.#sender, { act: 'quiet', text }, `quiet mode ${text}`, `Quiet mode is ${text}.`);
  }
}
