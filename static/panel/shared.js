// @ts-check
/** @typedef {import('../lib/wire.js').Prompt} Prompt */
/** @typedef {import('../lib/wire.js').TableNote} TableNote */
/** @typedef {import('../lib/wire.js').Caption} Caption */
/** @typedef {import('./outbox.js').Act} Act */
import { after, signature } from './use.js';

/** So long an act that was done is shown before the relay's frame tells of it; wall milliseconds. */
export const DONE_MS = 2000;
/** An act unanswered for so long is said to wait; wall milliseconds. */
export const SOON_MS = 800;

/** @typedef {import('./use.js').Use & {own: boolean, waits: boolean}} Shown own: something done here is not yet in the relay's frames; waits: nor was it answered */
/** @typedef {TableNote & {waits: boolean}} ShownNote */

/**
 * Shared is what the co-hosts share, as this screen shows it: what the relay
 * says, and over it what was done here and is not in the relay's frames yet.
 */
export class Shared {
  /** @type {Map<string, Prompt>} */ #prompts = new Map();
  /** @type {{rev: number, notes: TableNote[]}} */ #table = { rev: 0, notes: [] };
  /** @type {{rev: number, caption: Caption | null}} */ #air = { rev: 0, caption: null };
  /** @type {{act: Act, seen: string, until: number}[]} answered, the relay's frame still to come */ #done = [];
  #waiting;
  #now;

  /** @param {() => readonly Act[]} waiting what is not answered @param {() => number} [now] wall ms */
  constructor(waiting, now = Date.now) {
    this.#waiting = waiting;
    this.#now = now;
  }

  /** @param {Prompt[]} items */
  receive(items) {
    this.#prompts = new Map(items.map((p) => [p.key, p]));
  }

  /** @param {import('../lib/wire.js').Table} frame */
  table(frame) {
    this.#table = frame;
  }

  /** @param {import('../lib/wire.js').CaptionFrame} frame */
  caption(frame) {
    this.#air = frame;
  }

  /** The relay did it; its frame may have come already, or comes soon. @param {Act} act */
  done(act) {
    this.#done.push({ act, seen: this.#mark(act), until: this.#now() + DONE_MS });
  }

  /** @param {Prompt} prompt as it was last listed @returns {Shown} */
  use(prompt) {
    const { state, by, since, pinned } = this.#prompts.get(prompt.key) ?? prompt;
    const acts = this.#acts().filter((a) => a.prompt === prompt.key && a.act !== 'air');
    const use = acts.reduce((u, a) => after(u, a, a.since), { state, by, since, pinned });
    return { ...use, own: acts.length > 0, waits: acts.some((a) => this.#waits(a)) };
  }

  /** The notes on the table, oldest first. @returns {ShownNote[]} */
  notes() {
    const acts = this.#acts();
    const wiped = new Set(acts.filter((a) => a.act === 'wipe').map((a) => a.note));
    const there = new Set(this.#table.notes.map((n) => n.id));
    const fresh = acts.filter((a) => a.act === 'note' && !there.has(a.id));
    return [
      ...this.#table.notes.map((n) => ({ ...n, waits: false })),
      ...fresh.map((a) => ({ id: a.id, by: a.who, at: a.since, text: a.text, waits: this.#waits(a) })),
    ].filter((n) => !wiped.has(n.id));
  }

  /**
   * What is on the air. It is never shown there before the relay says so: "to"
   * is what was asked for here.
   *
   * @returns {{caption: Caption | null, to: Act | null, waits: boolean}}
   */
  air() {
    const { caption } = this.#air;
    const to = this.#acts().filter((a) => a.act === 'air' || a.act === 'off').pop() ?? null;
    const there = to && (to.act === 'off' ? !caption : caption && (to.prompt ? caption.key === to.prompt : caption.key === '' && caption.text === to.text));
    return there || !to ? { caption, to: null, waits: false } : { caption, to, waits: this.#waits(to) };
  }

  /** What was done here and is not in the relay's frames yet, oldest first. */
  #acts() {
    const now = this.#now();
    this.#done = this.#done.filter((d) => d.until > now && d.seen === this.#mark(d.act));
    return [...this.#done.map((d) => d.act), ...this.#waiting()];
  }

  /** @param {Act} act */
  #waits(act) {
    return this.#waiting().includes(act) && this.#now() - act.at >= SOON_MS;
  }

  /** What changes with the frame that tells of an act. @param {Act} act */
  #mark({ act, prompt }) {
    if (act === 'air' || act === 'off') return String(this.#air.rev);
    return prompt ? signature(this.#prompts.get(prompt)) : String(this.#table.rev);
  }
}
