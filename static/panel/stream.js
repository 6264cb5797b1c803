// @ts-check
/** @typedef {import('../lib/wire.js').Prompt} Prompt */
/** @typedef {import('./marks.js').Marks} Marks */

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
 * @property {boolean} settled said and moved to the lines below
 */

/** @typedef {{board: number, kind: string}} Filter board 0 and kind "" let everything through */

/** A prompt's key: ids may start again with the relay, instants do not. @param {Prompt} p */
export const keyOf = (p) => `${p.id}@${p.at}`;

/** @param {Prompt} p @param {Filter} filter */
export function passes(p, filter) {
  // What concerns the whole show passes every board.
  return (filter.board === 0 || p.board === 0 || p.board === filter.board) && (filter.kind === '' || p.kind === filter.kind);
}

/**
 * Stream decides which cards stand on the panel and in which order. The relay's
 * order holds, except that nothing moves, comes or goes while somebody touches
 * the panel, and that a card that ends says so in its place before it leaves.
 */
export class Stream {
  /** @type {Map<string, {prompt: Prompt, endedAt: number | null, end: string}>} endedAt null: it holds */ #known = new Map();
  /** @type {string[]} keys in the relay's order */ #listed = [];
  /** @type {string[]} keys on the screen */ #order = [];
  /** @type {Set<string>} said and moved below */ #settled = new Set();
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
   * @param {boolean} busy somebody touches the panel
   * @param {Filter} filter
   * @returns {{cards: Card[], waiting: number}} waiting: cards that come when the panel is let go
   */
  view(now, busy, filter) {
    const { open, said } = this.#wanted(now, filter);
    const wanted = [...open, ...said];
    if (!busy) {
      this.#order = wanted;
      this.#settled = new Set(said);
      this.#forget(now);
    }
    const onScreen = new Set(this.#order);
    return {
      cards: this.#order.map((key) => this.#card(key)),
      waiting: wanted.filter((key) => !onScreen.has(key)).length,
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

  /** @param {number} now @param {Filter} filter @returns {{open: string[], said: string[]}} */
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
    return { open: this.#withEnding(open, now, filter), said };
  }

  /**
   * Put cards that end back where they stood. One that was never on the screen
   * is not shown: nobody needs to hear that a thing unheard is no longer true.
   *
   * @param {string[]} open @param {number} now @param {Filter} filter
   */
  #withEnding(open, now, filter) {
    for (const [i, key] of this.#order.entries()) {
      const known = this.#known.get(key);
      if (!known || known.endedAt === null || now - known.endedAt >= LINGER_MS) continue;
      if (this.#marks.get(key) || !passes(known.prompt, filter)) continue;
      const before = this.#order.slice(0, i).reverse().find((k) => open.includes(k));
      open.splice(before === undefined ? 0 : open.indexOf(before) + 1, 0, key);
    }
    return open;
  }

  /** @param {string} key @returns {Card} */
  #card(key) {
    const known = this.#known.get(key);
    if (!known) throw new Error(`card ${key} stands on the panel and is not known`);
    const mark = this.#marks.get(key);
    const state = mark ? mark.kind : known.endedAt !== null ? known.end : CARD.OPEN;
    return { key, prompt: known.prompt, state, markedAt: mark?.at ?? 0, settled: mark !== undefined && this.#settled.has(key) };
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
