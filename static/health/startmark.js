// @ts-check
import { byId, mark } from '../lib/dom.js';
import { Said } from './said.js';
import { Sender } from './sender.js';

/** What is wrong with the timecode of a recording's first picture, "" nothing: as the relay reads it. @param {string} typed */
export function timecodeWrong(typed) {
  if (typed === '' || /^([01]\d|2[0-3]):[0-5]\d:[0-5]\d[:;][0-5]\d$/.test(typed)) return '';
  return 'Write the timecode as 10:00:00:00, or leave it empty.';
}

/**
 * StartMark lets the producer say that a recording begins. What counts is when the button
 * was pressed, however long the entry takes to the relay.
 */
export class StartMark {
  #field = /** @type {HTMLInputElement} */ (byId('mark-timecode'));
  #now;
  #sender;
  #said;
  #sending = false;

  /** @param {import('./sender.js').Post} post @param {() => number | undefined} now show time in milliseconds, undefined: not known yet */
  constructor(post, now) {
    this.#now = now;
    this.#sender = new Sender(post);
    this.#said = new Said(this.#sender);
    const form = byId('mark-form');
    form.append(this.#said.root);
    mark(this.#field, 'aria-describedby', this.#said.id);
    this.#field.addEventListener('input', () => mark(this.#field, 'aria-invalid', null));
    form.addEventListener('submit', (e) => {
      e.preventDefault();
      if (!this.#sending) void this.#press(this.#field.value.trim());
    });
  }

  /** @param {string} timecode */
  async #press(timecode) {
    const now = this.#now();
    const wrong = now === undefined ? 'Wait: the time of the show is not known yet.' : timecodeWrong(timecode);
    if (wrong || now === undefined) {
      this.#said.show('error', wrong);
      mark(this.#field, 'aria-invalid', now === undefined ? null : 'true');
      return;
    }
    this.#sending = true;
    const at = new Date(now);
    await this.#said.follow(this.#sender, { act: 'recording', mark: at.toISOString(), timecode }, 'start of a recording', `A recording began at ${at.toTimeString().slice(0, 8)}.`);
    this.#sending = false;
  }
}
