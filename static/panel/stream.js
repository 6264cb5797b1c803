// @ts-check
/** @typedef {import('../lib/wire.js').Prompt} Prompt */
/** @typedef {import('./marks.js').Marks} Marks */
import { PRIORITY } from '../lib/wire.js';

/** How long a prompt stays that is no longer true, or was just said or dropped; wall milliseconds. */
export const LINGER_MS = 6000;

/** States of a card. "gone": the relay lists it no more and did not say why. */
export const CARD = Object.freeze({ OPEN: 'open', SAID: 'said', DROPPED: 'dropped', WITHDRAWN: 'withdrawn', GONE: 'gone' });

/**
 * @typedef {object} Card
 * @property {string} key
 * @property {Prompt} prompt
 * @property {string} state one of CARD
 * @property {number} markedAt wall ms when it was said or dropped here, or 0
 * @property {boolean} settled moved below the sentences to say: said to its own list, ended to a line
 */

/** @typedef {{board: number, kind: string}} Filter board 0 and kind "" let everything through */

/** What is to be said first. @type {string[]} */
const URGENCY = [PRIORITY.NOW, PRIORITY.SOON, PRIORITY.BACKGROUND];

/** A prompt's key: ids may start again with the relay, instants do not. @param {Prompt} p */
export const keyOf = (p) => p.key;

/** @param {Prompt} p @param {Filter} filter */
export function passes(p, filter) {
  // What concerns the whole show passes every board.
  return (filter.board === 0 || p.board === 0 || p.board === filter.board) && (filter.kind === '' || p.kind === filter.kind);
}

/** Order of two prompts: the urgent first, then the newest. @param {Prompt} a @param {Prompt} b */
export function byUrgency(a, b) {
  const rank = (/** @type {Prompt} */ p) => (URGENCY.includes(p.priority) ? URGENCY.indexOf(p.priority) : URGENCY.length);
  return rank(a) - rank(b) || b.at - a.at;
}

/**
 * Stream decides which cards stand on the panel and in which order: the urgent
 * first, then the newest, and below everything true what is true no longer,
 * until it leaves. Nothing moves, comes or goes while somebody is at the panel.
 */
export class Stream {
  /** @type {Map<string, {prompt: Prompt, endedAt: number | null, end: string}>} endedAt null: it holds */ #known = new Map();
  /** @type {string[]} keys in the relay's order */ #listed = [];
  /** @type {string[]} keys on the screen */ #order = [];
  /** @type {Set<string>} moved below the sentences to say */ #settled = new Set();
  #marks;

  /** @param {Marks} marks */
  constructor(marks) {
    this.#marks = marks;
  }

  /**
   * Take the relay's list.
   *
   * @param {Prompt[]} items
   * @param {number} now wall ms
   */
  receive(items, now) {
    this.#listed = [];
    for (const prompt of items) {
      const key = keyOf(prompt);
      this.#listed.push(key);
      // A card in sight says that it ended for its full time, however late we hear of it.
      const endedAt = prompt.withdrawn === 0 ? null : this.#known.get(key)?.endedAt ?? now;
      this.#known.set(key, { prompt, endedAt, end: CARD.WITHDRAWN });
    }
    const listed = new Set(this.#listed);
    for (const [key, known] of this.#known) {
      if (!listed.has(key) && known.endedAt === null) Object.assign(known, { endedAt: now, end: CARD.GONE });
    }
  }

  /**
   * What to draw now.
   *
   * @param {number} now wall ms
   * @param {boolean} busy somebody is at the panel
   * @param {Filter} filter
   * @returns {{cards: Card[], waiting: number, above: boolean}} waiting: cards that come when the panel is let go;
   *   above: whether one of them comes above a card on the screen
   */
  view(now, busy, filter) {
    const { open, ended, said } = this.#wanted(now, filter);
    if (!busy) {
      this.#order = [...open, ...ended, ...said];
      this.#settled = new Set([...ended, ...said]);
      this.#forget(now);
    }
    const onScreen = new Set(this.#order);
    const stands = (/** @type {string} */ key) => onScreen.has(key);
    const first = open.findIndex((key) => !stands(key));
    return {
      cards: this.#order.map((key) => this.#card(key)),
      waiting: [...open, ...said].filter((key) => !stands(key)).length,
      above: first >= 0 && (open.slice(first).some(stands) || !open.some(stands)),
    };
  }

  /** Whether a prompt still holds. @param {string} key */
  holds(key) {
    return this.#known.get(key)?.endedAt === null;
  }

  /** Keys of the prompts that were dropped here and still hold. */
  dropped() {
    return this.#listed.filter((key) => this.holds(key) && this.#marks.get(key)?.kind === CARD.DROPPED);
  }

  /** How many open prompts a filter hides. @param {Filter} filter */
  hidden(filter) {
    return this.#open().filter((p) => !passes(p, filter)).length;
  }

  /** Open prompts of each board, for the filters. @returns {Map<number, {open: number, now: number}>} */
  counts() {
    /** @type {Map<number, {open: number, now: number}>} */ const counts = new Map();
    for (const prompt of this.#open()) {
      const c = counts.get(prompt.board) ?? { open: 0, now: 0 };
      c.open++;
      if (prompt.priority === 'now') c.now++;
      counts.set(prompt.board, c);
    }
    return counts;
  }

  /** Prompts that hold and were neither said nor dropped here. */
  #open() {
    return [...this.#known].filter(([key]) => this.holds(key) && !this.#marks.get(key)).map(([, known]) => known.prompt);
  }

  /** @param {number} now @param {Filter} filter @returns {{open: string[], ended: string[], said: string[]}} */
  #wanted(now, filter) {
    /** @type {string[]} */ const open = [];
    /** @type {string[]} */ const said = [];
    for (const key of this.#listed) {
      const known = this.#known.get(key);
      if (!known || known.endedAt !== null || !passes(known.prompt, filter)) continue;
      const mark = this.#marks.get(key);
      if (!mark || now - mark.at < LINGER_MS) open.push(key);
      else if (mark.kind === CARD.SAID) said.push(key);
    }
    const prompt = (/** @type {string} */ key) => /** @type {{prompt: Prompt}} */ (this.#known.get(key)).prompt;
    open.sort((a, b) => byUrgency(prompt(a), prompt(b)));
    return { open, ended: this.#order.filter((key) => this.#ends(key, now, filter)), said };
  }

  /**
   * Whether a card on the screen says that it ended. One that was never there
   * does not: nobody needs to hear that a thing unheard is no longer true.
   *
   * @param {string} key @param {number} now @param {Filter} filter
   */
  #ends(key, now, filter) {
    const known = this.#known.get(key);
    if (!known || known.endedAt === null || now - known.endedAt >= LINGER_MS) return false;
    return !this.#marks.get(key) && passes(known.prompt, filter);
  }

  /** @param {string} key @returns {Card} */
  #card(key) {
    const known = this.#known.get(key);
    if (!known) throw new Error(`card ${key} stands on the panel and is not known`);
    const mark = this.#marks.get(key);
    const state = mark ? mark.kind : known.endedAt !== null ? known.end : CARD.OPEN;
    return { key, prompt: known.prompt, state, markedAt: mark?.at ?? 0, settled: state !== CARD.OPEN && this.#settled.has(key) };
  }

  /** @param {number} now */
  #forget(now) {
    const listed = new Set(this.#listed);
    for (const [key, known] of this.#known) {
      const over = known.endedAt !== null && now - known.endedAt >= LINGER_MS;
      if (over && !listed.has(key)) this.#known.delete(key);
    }
  }
}
