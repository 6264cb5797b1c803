// @ts-check
/** @typedef {import('../lib/wire.js').Prompt} Prompt */
/** @typedef {import('./shared.js').Shown} Shown */
/** @typedef {import('./forms.js').Form} Form */
import { PRIORITY, PROMPT } from '../lib/wire.js';
import { FORM, Forms } from './forms.js';

/** How long a prompt stays that is no longer true, or was just said or dropped; wall milliseconds. */
export const LINGER_MS = 6000;

/** Why a sentence is to be said no more. "gone": the relay lists it no more and did not say why. */
export const END = Object.freeze({ WITHDRAWN: 'withdrawn', GONE: 'gone' });

/**
 * @typedef {object} Card
 * @property {string} key
 * @property {Prompt} prompt
 * @property {Shown} use
 * @property {boolean} mine whether this co-host has it, or said it, or dropped it
 * @property {string} end one of END, "" while it holds
 * @property {Form} form
 * @property {boolean} held drawn in the room it had before
 * @property {boolean} settled moved below the sentences to say: said or dropped to its own list, ended to a line
 */

/** @typedef {{board: number, kind: string, hideSaid: boolean}} Filter board 0 and kind "" let everything through */
/** @typedef {{stream: string[], said: string[], shelf: string[], dropped: string[]}} Places keys in their order */
/** @typedef {{prompt: Prompt, endedAt: number | null, end: string, state: string, changedAt: number}} Known endedAt null: it holds; both wall ms */

/** What is to be said first. @type {string[]} */
const URGENCY = [PRIORITY.NOW, PRIORITY.SOON, PRIORITY.BACKGROUND];

/** @param {Prompt} p @param {{board: number, kind: string}} filter */
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
 * Stream decides which cards stand where on the panel: to be said, on the
 * shelf, said, dropped. To be said are the urgent first, then the newest, and
 * below everything true what is true no longer, until it leaves. Nothing moves,
 * comes or goes while somebody is at the panel, whoever did something to it.
 */
export class Stream {
  /** @type {Map<string, Known>} */ #known = new Map();
  /** @type {string[]} keys in the relay's order */ #listed = [];
  /** @type {Places} on the screen */ #places = { stream: [], said: [], shelf: [], dropped: [] };
  /** @type {Set<string>} moved below the sentences to say */ #settled = new Set();
  #forms = new Forms();
  #use;
  #me;

  /** @param {(prompt: Prompt) => Shown} use @param {() => string} me this co-host's name, "" while not known */
  constructor(use, me) {
    this.#use = use;
    this.#me = me;
  }

  /**
   * Take the relay's list.
   *
   * @param {Prompt[]} items
   * @param {number} now wall ms
   */
  receive(items, now) {
    this.#listed = items.map((p) => p.key);
    for (const prompt of items) {
      const was = this.#known.get(prompt.key);
      // A card in sight says that it ended for its full time, however late we hear of it.
      const endedAt = prompt.withdrawn === 0 ? null : was?.endedAt ?? now;
      // What was said or dropped before this page knew of it does not linger.
      const { state, changedAt } = was ?? { state: this.#use(prompt).state, changedAt: -Infinity };
      this.#known.set(prompt.key, { prompt, endedAt, end: END.WITHDRAWN, state, changedAt });
    }
    const listed = new Set(this.#listed);
    for (const [key, known] of this.#known) {
      if (!listed.has(key) && known.endedAt === null) Object.assign(known, { endedAt: now, end: END.GONE });
    }
  }

  /**
   * What to draw now.
   *
   * @param {number} now wall ms
   * @param {boolean} busy somebody is at the panel
   * @param {Filter} filter
   * @returns {{cards: Card[], said: Card[], shelf: Card[], dropped: Card[], waiting: number, above: boolean}} waiting: cards
   *   that come when the panel is let go; above: whether one of them comes above a card on the screen
   */
  view(now, busy, filter) {
    const { open, ended, ...lists } = this.#wanted(now, filter);
    if (!busy) {
      this.#places = { ...lists, stream: [...open, ...ended] };
      this.#settled = new Set([...ended, ...lists.said, ...lists.dropped]);
      this.#forget(now);
    }
    const onScreen = new Set(Object.values(this.#places).flat());
    const stands = (/** @type {string} */ key) => onScreen.has(key);
    const first = open.findIndex((key) => !stands(key));
    const cards = (/** @type {string[]} */ keys) => keys.map((key) => this.#card(key, busy));
    const { stream, said, shelf, dropped } = this.#places;
    const drawn = { cards: cards(stream), said: cards(said), shelf: cards(shelf), dropped: cards(dropped) };
    this.#forms.keep(onScreen);
    return {
      ...drawn,
      waiting: [...open, ...lists.shelf, ...lists.said].filter((key) => !stands(key)).length,
      above: first >= 0 && (open.slice(first).some(stands) || !open.some(stands)),
    };
  }

  /** Whether a prompt still holds. @param {string} key */
  holds(key) {
    return this.#known.get(key)?.endedAt === null;
  }

  /** @param {string} key */
  prompt(key) {
    return this.#known.get(key)?.prompt;
  }

  /** Whether a card of it is on the screen. @param {string} key */
  shows(key) {
    return Object.values(this.#places).some((keys) => keys.includes(key));
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
      if (prompt.priority === PRIORITY.NOW) c.now++;
      counts.set(prompt.board, c);
    }
    return counts;
  }

  /** Prompts that hold, are nobody's and not on the shelf. */
  #open() {
    const prompts = [...this.#known.values()].filter((k) => k.endedAt === null).map((k) => k.prompt);
    return prompts.filter((p) => {
      const { state, pinned } = this.#use(p);
      return state === PROMPT.OPEN && pinned === '';
    });
  }

  /** @param {number} now @param {Filter} filter */
  #wanted(now, filter) {
    /** @type {string[]} */ const open = [];
    const lists = { said: open.slice(), shelf: open.slice(), dropped: open.slice() };
    for (const key of this.#listed) {
      const known = /** @type {Known} */ (this.#known.get(key));
      const place = this.#place(known, now);
      if (place === 'said' && filter.hideSaid) continue;
      if (place === 'open' ? passes(known.prompt, filter) : place === 'shelf' || (place !== '' && passes(known.prompt, filter))) {
        (place === 'open' ? open : lists[/** @type {'said'} */ (place)]).push(key);
      }
    }
    const prompt = (/** @type {string} */ key) => /** @type {Known} */ (this.#known.get(key)).prompt;
    open.sort((a, b) => byUrgency(prompt(a), prompt(b)));
    const since = (/** @type {string} */ key) => this.#use(prompt(key)).since;
    for (const list of [lists.said, lists.dropped]) list.sort((a, b) => since(b) - since(a));
    const placed = new Set([...open, ...Object.values(lists).flat()]);
    const ended = this.#places.stream.filter((key) => !placed.has(key) && this.#ends(key, now, filter));
    return { open, ended, ...lists };
  }

  /** Where a listed prompt belongs; "" nowhere. @param {Known} known @param {number} now */
  #place(known, now) {
    const { state, pinned } = this.#use(known.prompt);
    if (state !== known.state) Object.assign(known, { state, changedAt: now });
    const lingers = now - known.changedAt < LINGER_MS;
    const holds = known.endedAt === null;
    switch (state) {
      case PROMPT.DROPPED:
        return !holds ? '' : lingers ? 'open' : 'dropped';
      case PROMPT.SAID:
        return pinned ? 'shelf' : lingers ? 'open' : 'said';
      case PROMPT.TAKEN:
        return pinned ? 'shelf' : 'open';
    }
    return pinned ? 'shelf' : holds ? 'open' : '';
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
    return this.#use(known.prompt).state !== PROMPT.DROPPED && passes(known.prompt, filter);
  }

  /** @param {string} key @param {boolean} busy @returns {Card} */
  #card(key, busy) {
    const known = this.#known.get(key);
    if (!known) throw new Error(`card ${key} stands on the panel and is not known`);
    const use = this.#use(known.prompt);
    const end = known.endedAt === null ? '' : known.end;
    const mine = use.by !== '' && use.by === this.#me();
    const settled = this.#settled.has(key) && (use.state !== PROMPT.OPEN || end !== '');
    const over = use.state === PROMPT.SAID || use.state === PROMPT.DROPPED || (settled && end !== '');
    const shelved = this.#places.shelf.includes(key) && use.state === PROMPT.SAID;
    const form = over && !shelved ? FORM.LINE : use.state === PROMPT.TAKEN && !mine ? FORM.SAYING : FORM.FULL;
    const own = use.own && (mine || use.by === ''); // what another did first is not
    return { key, prompt: known.prompt, use, mine, end, settled, ...this.#forms.next(key, form, busy, own) };
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
