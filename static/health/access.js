// @ts-check
/** @typedef {import('../lib/wire.js').Access} AccessState */
import { byId, mark } from '../lib/dom.js';
import { Tokens } from './tokens.js';

/** Access knows the viewers' token, which the relay tells the producer alone: addresses of scenes hold it. */
export class Access {
  #tell;
  #fetcher;
  #pages = -1;
  #tokens = new Tokens(() => void this.ask());

  /**
   * @param {(token: string) => void} tell the viewers' token, "" for none
   * @param {typeof fetch} [fetcher]
   */
  constructor(tell, fetcher = (...args) => fetch(...args)) {
    this.#tell = tell;
    this.#fetcher = fetcher;
  }

  /** So many pages are connected; one that came or went may have told the relay of the token, or of another one. @param {number} count */
  pages(count) {
    if (count === this.#pages) return;
    this.#pages = count;
    void this.ask();
  }

  async ask() {
    try {
      const answer = await this.#fetcher('/api/access', { cache: 'no-store' });
      if (!answer.ok) return;
      const state = /** @type {AccessState} */ (await answer.json());
      mark(byId('no-viewers-token'), 'hidden', !state.tokens || state.viewers !== '');
      this.#tokens.update(state.roles);
      this.#tell(state.viewers);
    } catch {
      // The line is down: its welcome asks again.
    }
  }
}
