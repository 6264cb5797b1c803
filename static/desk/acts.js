// @ts-check
/** @typedef {import('../lib/wire.js').DeskAct} DeskAct */
/** @typedef {import('../surface/post.js').Answer} Answer */
import { isFinal, newID, pauseAfter, refusal } from '../surface/retry.js';

/** An act that could not be sent for so long is given up: at a desk it is done now or not at all; wall milliseconds. */
export const WAIT_MS = 5000;
/** And it is tried again at least so often. */
const PAUSE_MOST_MS = 1000;

/**
 * Acts sends what is done here, one after the other, so that the relay does it in
 * the order of the hands. Each keeps its id: it is done once, however often it is sent.
 */
export class Acts {
  /** How many are not answered yet. */
  waiting = 0;
  #post;
  #now;
  #pause;
  /** @type {Promise<unknown>} */ #last = Promise.resolve();

  /**
   * @param {(name: string, body: string) => Promise<Answer>} post
   * @param {() => number} [now] wall ms
   * @param {(ms: number) => Promise<unknown>} [pause]
   */
  constructor(post, now = Date.now, pause = (ms) => new Promise((wake) => setTimeout(wake, ms))) {
    this.#post = post;
    this.#now = now;
    this.#pause = pause;
  }

  /**
   * @param {string} name of the action
   * @param {Partial<DeskAct>} fields
   * @returns {Promise<string>} why it was not done, as a sentence; "" it was
   */
  do(name, fields) {
    const body = JSON.stringify({ id: newID(), ...fields });
    const at = this.#now();
    this.waiting++;
    const done = this.#last.then(() => this.#send(name, body, at));
    this.#last = done;
    return done.finally(() => this.waiting--);
  }

  /** @param {string} name @param {string} body @param {number} at wall ms */
  async #send(name, body, at) {
    for (let tries = 1; ; tries++) {
      const late = this.#now() - at >= WAIT_MS;
      if (late) return 'The relay was not reached in time.';
      const answer = await this.#post(name, body);
      if (answer.done) return '';
      if (isFinal(answer.status)) return refusal(answer);
      await this.#pause(Math.min(pauseAfter(tries), PAUSE_MOST_MS));
    }
  }
}
