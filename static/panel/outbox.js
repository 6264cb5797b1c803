// @ts-check
/** @typedef {import('../lib/wire.js').PanelAct} PanelAct */
import { isFinal, newID, pauseAfter, refusal } from '../surface/retry.js';

/** Acts that wait to be sent, at most; the oldest make room. */
export const WAIT_MOST = 50;
/** An act that could not be sent for so long is given up; wall milliseconds. */
export const WAIT_MS = 10 * 60_000;
/** The same for what viewers see: a sentence is on the air now or not at all. */
export const AIR_WAIT_MS = 10_000;

const PREFIX = 'clocktell.panel.act.';
const AIR = ['air', 'off'];

/** @typedef {PanelAct & {at: number, since: number}} Act at: wall ms; since: show ms */
/** @typedef {{getItem: (key: string) => string | null, setItem: (key: string, value: string) => void, removeItem: (key: string) => void, key: (i: number) => string | null, length: number}} Store */
/** @typedef {{done: (act: Act) => void, refused: (act: Act, error: string) => void, changed: () => void}} Told */

/**
 * Outbox holds what was done here until the relay has answered it, in order and
 * over a reload. Each act keeps its id, so that it is done once however often it
 * must be sent.
 */
export class Outbox {
  /** Why the relay takes nothing from this page, "" it does. */
  held = '';
  /** @type {Act[]} oldest first */ #acts;
  #store;
  #post;
  #told;
  #now;
  #pause;
  #sending = false;
  #wake = () => {};

  /**
   * @param {Store | null} store null: nothing is kept over a reload
   * @param {import('../surface/post.js').Post} post
   * @param {Told} told
   * @param {() => number} [now] wall ms
   * @param {(ms: number, run: () => void) => void} [pause] runs later
   */
  constructor(store, post, told, now = Date.now, pause = (ms, run) => void setTimeout(run, ms)) {
    this.#store = store;
    this.#post = post;
    this.#told = told;
    this.#now = now;
    this.#pause = pause;
    this.#acts = read(store);
  }

  /** What is not answered yet, oldest first. @returns {readonly Act[]} */
  get acts() {
    return this.#acts;
  }

  /**
   * Do something, and send it as soon as it can be.
   *
   * @param {Partial<PanelAct> & {act: string, who: string}} act without its id
   * @param {number} since show ms
   */
  add(act, since) {
    const all = { id: newID(), prompt: '', over: false, text: '', note: '', ...act, at: this.#now(), since };
    this.#acts = [...this.#acts, all];
    this.#keep(all);
    for (const old of this.#acts.slice(0, -WAIT_MOST)) this.#give(old, 'Too much waits to be sent; this was the oldest.');
    this.send();
    return all;
  }

  /** Send what waits, now. */
  send() {
    this.#wake();
    if (this.#sending) return;
    this.#sending = true;
    void this.#all();
  }

  async #all() {
    for (let tries = 1; (this.#sending = this.#next()); ) {
      const act = this.#acts[0];
      const answer = await this.#post(JSON.stringify(wire(act)));
      const barred = answer.status === 401 || answer.status === 403;
      this.held = barred ? refusal(answer) : '';
      if (!this.#acts.includes(act)) continue; // it made room meanwhile
      if (answer.done) this.#settle(act, () => this.#told.done(act));
      else if (isFinal(answer.status) && !barred) this.#give(act, refusal(answer));
      if (this.#acts[0] !== act) tries = 1;
      else await this.#rest(tries++);
    }
  }

  /** Wait until another try makes sense. @param {number} tries */
  #rest(tries) {
    this.#told.changed();
    return new Promise((wake) => this.#pause(pauseAfter(tries), (this.#wake = () => wake(null))));
  }

  /** Give up what is too old; whether anything is left. */
  #next() {
    for (const act of this.#acts) {
      const most = AIR.includes(act.act) ? AIR_WAIT_MS : WAIT_MS;
      if (this.#now() - act.at >= most) this.#give(act, 'The relay was not reached in time.');
    }
    return this.#acts.length > 0;
  }

  /** @param {Act} act @param {string} error */
  #give(act, error) {
    this.#settle(act, () => this.#told.refused(act, error));
  }

  /** @param {Act} act @param {() => void} tell */
  #settle(act, tell) {
    this.#acts = this.#acts.filter((a) => a !== act);
    try {
      this.#store?.removeItem(PREFIX + act.id);
    } catch {
      // A store that is forbidden held nothing.
    }
    tell();
    this.#told.changed();
  }

  /** @param {Act} act */
  #keep(act) {
    try {
      this.#store?.setItem(PREFIX + act.id, JSON.stringify(act));
    } catch {
      // The store is full or forbidden: the act holds until the page is left.
    }
  }
}

/** What the relay is sent of an act. @param {Act} act @returns {PanelAct} */
function wire({ id, who, act, prompt, over, text, note }) {
  return { id, who, act, prompt, over, text, note };
}

/** What was not answered when the page was left. @param {Store | null} store @returns {Act[]} */
function read(store) {
  /** @type {Act[]} */ const acts = [];
  for (let i = 0; i < (store?.length ?? 0); i++) {
    const key = store?.key(i) ?? '';
    const act = key.startsWith(PREFIX) && parse(store?.getItem(key) ?? '');
    if (act) acts.push(act);
  }
  return acts.sort((a, b) => a.at - b.at);
}

/** @param {string} text @returns {Act | null} null: somebody else's */
function parse(text) {
  try {
    const act = JSON.parse(text);
    const words = ['id', 'who', 'act', 'prompt', 'text', 'note'].every((k) => typeof act?.[k] === 'string');
    return words && Number.isFinite(act.at) && Number.isFinite(act.since) ? act : null;
  } catch {
    return null;
  }
}
