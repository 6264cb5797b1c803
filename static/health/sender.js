// @ts-check
/** @typedef {import('../lib/wire.js').Entry} Entry */
/** @typedef {import('../surface/post.js').Post} Post */
import { isFinal, newID, pauseAfter, refusal } from '../surface/retry.js';

/** What became of an entry. */
export const OUTCOME = Object.freeze({ DONE: 'done', REFUSED: 'refused', STOPPED: 'stopped', BUSY: 'busy' });

/** @typedef {{state: string, error: string}} Outcome state: one of OUTCOME */
/** @typedef {{tries: number, error: string}} Progress how often it was sent in vain, and what the relay said of it */

/**
 * Sender sends the entries for one board, one at a time. An entry keeps its id
 * until it is answered, however often it must be sent: the relay does it once.
 */
export class Sender {
  #post;
  #id;
  #pause;
  /** @type {{what: string, stopped: boolean, wake: () => void} | null} */ #job = null;

  /**
   * @param {Post} post
   * @param {() => string} [id] makes an id
   * @param {(ms: number, run: () => void) => void} [pause] runs later
   */
  constructor(post, id = newID, pause = (ms, run) => void setTimeout(run, ms)) {
    this.#post = post;
    this.#id = id;
    this.#pause = pause;
  }

  /** What is on its way, in words; "" nothing. */
  get busy() {
    return this.#job?.what ?? '';
  }

  /**
   * @param {Partial<Entry>} entry without its id
   * @param {string} what the entry in words
   * @param {(progress: Progress) => void} tell called after each vain try
   * @returns {Promise<Outcome>}
   */
  async send(entry, what, tell) {
    if (this.#job) return { state: OUTCOME.BUSY, error: `Wait: ${this.#job.what} is still on its way.` };
    const job = { what, stopped: false, wake: () => {} };
    this.#job = job;
    try {
      return await this.#until(job, JSON.stringify({ ...entry, id: this.#id() }), tell);
    } finally {
      this.#job = null;
    }
  }

  /** Try no more. What was sent may have been done all the same. */
  stop() {
    if (!this.#job) return;
    this.#job.stopped = true;
    this.#job.wake();
  }

  /** @param {{stopped: boolean, wake: () => void}} job @param {string} body @param {(progress: Progress) => void} tell */
  async #until(job, body, tell) {
    for (let tries = 1; ; tries++) {
      const answer = await this.#post(body);
      if (answer.done) return { state: OUTCOME.DONE, error: '' };
      if (isFinal(answer.status)) return { state: OUTCOME.REFUSED, error: refusal(answer) };
      if (!job.stopped) tell({ tries, error: answer.error });
      if (!job.stopped) await new Promise((wake) => this.#pause(pauseAfter(tries), (job.wake = () => wake(null))));
      if (job.stopped) return { state: OUTCOME.STOPPED, error: 'Not sent again. It may have been done all the same: look at the board.' };
    }
  }
}
