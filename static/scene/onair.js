// @ts-check
/** @typedef {import('../lib/wire.js').Caption} Caption */

/**
 * How long a sentence without an end of its own stays once the line is lost, wall time: from
 * then on nobody can take it off.
 */
export const ORPHAN_MS = 60_000;
/** The longest wait that a browser's timer takes. */
const LONGEST_TIMER_MS = 2 ** 31 - 1;

/**
 * How long a sentence may still stay on this page, wall milliseconds; 0: it has to go.
 *
 * @param {Caption} caption
 * @param {number} now show time
 * @param {number} rate show time per wall time
 * @param {number | null} lostFor wall ms since the line was lost, null while it is open
 */
export function staysFor(caption, now, rate, lostFor) {
  if (caption.until) return Math.max(0, (caption.until - now) / rate);
  return lostFor === null ? Infinity : Math.max(0, ORPHAN_MS - lostFor);
}

/**
 * OnAir holds the sentence on the air. The relay says when it goes; without the relay it stays
 * until its own end, and no longer.
 */
export class OnAir {
  /** @type {Caption | null} */ #caption = null;
  /** @type {number | null} */ #lostAt = null;
  #told = 'null';
  #timer = 0;
  #time;
  #change;

  /**
   * @param {{now: () => number, pageNow: () => number, rate: number}} time as of Live
   * @param {(caption: Caption | null) => void} change called with another sentence, or with none
   */
  constructor(time, change) {
    this.#time = time;
    this.#change = change;
  }

  /** A frame came. @param {import('../lib/wire.js').CaptionFrame} frame */
  take(frame) {
    this.#caption = frame.caption;
    this.#look();
  }

  /** The line opened or was lost. @param {'open' | 'lost'} state */
  line(state) {
    this.#lostAt = state === 'open' ? null : (this.#lostAt ?? this.#time.pageNow());
    this.#look();
  }

  #look() {
    clearTimeout(this.#timer);
    if (!this.#caption) return this.#tell(null);
    const lostFor = this.#lostAt === null ? null : this.#time.pageNow() - this.#lostAt;
    const left = staysFor(this.#caption, this.#time.now(), this.#time.rate, lostFor);
    if (left < Infinity && left > 0) this.#timer = window.setTimeout(() => this.#look(), Math.min(left + 1, LONGEST_TIMER_MS));
    this.#tell(left > 0 ? this.#caption : null);
  }

  /** Another end alone is no other sentence. @param {Caption | null} caption */
  #tell(caption) {
    const text = JSON.stringify(caption && { ...caption, until: 0 });
    if (text === this.#told) return;
    this.#told = text;
    this.#change(caption);
  }
}
