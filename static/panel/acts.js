// @ts-check
/** @typedef {import('./outbox.js').Act} Act */
import { Outbox } from './outbox.js';
import { Shared } from './shared.js';

/** So long a card says why something did not count; wall milliseconds. */
export const CONFLICT_MS = 12_000;
/** Steps that can be undone without choosing a card. */
const UNDO_MOST = 20;
const CAN_UNDO = ['take', 'said', 'drop'];

/** @typedef {{error: string, at: number}} Conflict */
/**
 * @typedef {object} Host what acts need of the page
 * @property {() => number} now show ms
 * @property {(then: (me: string) => void, what: string) => void} asMe calls back with this co-host's name, asking for it if need be
 * @property {() => void} changed something is to be drawn anew, now
 * @property {(act: Act, error: string) => void} refused
 */

/** Acts does what the co-host asks for: at once on this screen, then with the relay. */
export class Acts {
  /** @type {Map<string, Conflict>} */ #conflicts = new Map();
  /** @type {string[]} keys, the latest last */ #steps = [];
  #host;

  /** @param {import('../surface/post.js').Post} post @param {import('./outbox.js').Store | null} store @param {Host} host */
  constructor(post, store, host) {
    this.#host = host;
    this.outbox = new Outbox(store, post, {
      done: (act) => this.shared.done(act),
      refused: (act, error) => this.#refused(act, error),
      changed: () => host.changed(),
    });
    this.shared = new Shared(() => this.outbox.acts);
  }

  /** Do something with a prompt: an act of the relay, "over" to take it from another. @param {string} name @param {string} key */
  prompt(name, key) {
    const over = name === 'over';
    const act = over ? 'take' : name;
    this.#do({ act, over, prompt: act === 'off' ? '' : key }, name, () => {
      this.#conflicts.delete(key);
      this.#steps = this.#steps.filter((k) => k !== key);
      if (CAN_UNDO.includes(act)) this.#steps.push(key);
      this.#steps.splice(0, this.#steps.length - UNDO_MOST);
    });
  }

  /** Leave a note for the table. @param {string} text */
  note(text) {
    this.#do({ act: 'note', text }, 'note');
  }

  /** @param {string} id of a note */
  wipe(id) {
    this.#do({ act: 'wipe', note: id }, 'wipe');
  }

  /** Put a sentence of one's own on the air. @param {string} text */
  air(text) {
    this.#do({ act: 'air', text }, 'air');
  }

  off() {
    this.#do({ act: 'off' }, 'off');
  }

  /** Take back the last step that still can be. @param {(key: string) => boolean} can */
  undo(can) {
    const key = [...this.#steps].reverse().find(can);
    if (key !== undefined) this.prompt('undo', key);
    return key !== undefined;
  }

  /** Why something done here with a prompt did not count, "" for a while ago or never. @param {string} key */
  conflict(key) {
    const conflict = this.#conflicts.get(key);
    if (conflict && Date.now() - conflict.at < CONFLICT_MS) return conflict.error;
    this.#conflicts.delete(key);
    return '';
  }

  /** @param {Partial<Act> & {act: string}} act @param {string} what @param {() => void} [then] */
  #do(act, what, then) {
    this.#host.asMe((who) => {
      this.outbox.add({ ...act, who }, this.#host.now());
      then?.();
      this.#host.changed();
    }, what);
  }

  /** @param {Act} act @param {string} error */
  #refused(act, error) {
    if (act.prompt) this.#conflicts.set(act.prompt, { error, at: Date.now() });
    this.#host.refused(act, error);
  }
}
