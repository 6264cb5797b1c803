// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').Clock} Clock */
import { STEP, Steady, inStep, standsFor, stepOf } from '../lib/clock.js';
import { el, mark, write } from '../lib/dom.js';
import { MARK, QUALITY, STATE } from '../lib/wire.js';

/**
 * @typedef {object} Times
 * @property {number} now show time
 * @property {number} clocks show time as far as clocks may use it
 * @property {number | null} lostAt show time when the line was lost, null while it stands
 */

/** How long a running clock goes on after the line was lost, wall milliseconds. */
export const PRETEND_MS = 5000;

/**
 * A clock in figures, no finer than it is known; "≈" when it is not exact.
 *
 * @param {Clock} clock
 * @param {number} left show milliseconds
 * @param {boolean} heard whether the relay is heard
 */
export function clockText(clock, left, heard) {
  if (clock.quality === QUALITY.NONE) return 'no clock';
  const goes = clock.state === STATE.RUNNING || clock.state === STATE.RISING;
  const sure = clock.quality !== QUALITY.ESTIMATED && clock.state !== STATE.HELD && (heard || !goes);
  return (sure ? '' : '≈ ') + inStep(left, Math.max(STEP.SECOND, stepOf(clock)));
}

/** @type {Record<string, string>} */
const MARKS = { [MARK.MENDED]: 'mended', [MARK.DOUBTFUL]: 'doubtful', [MARK.UNREAD]: 'no reading' };

/**
 * A word before a clock that does not simply fall, or is not simply what the feed
 * says: "delay 5", "rising", "mended", "doubtful".
 *
 * @param {Board} board
 * @param {'white' | 'black'} side
 * @param {number} now show time
 */
export function clockNote(board, side, now) {
  const { clock } = board[side];
  const stands = standsFor(board, side, now);
  if (stands > 0) return `delay ${Math.ceil(stands / 1000)}`;
  return clock.state === STATE.RISING ? 'rising' : (MARKS[clock.mark] ?? '');
}

/** ClockView writes one side's clock, with the word before it. */
export class ClockView {
  #side;
  #note = el('span', { class: 'clock-note' });
  #figures = el('span');
  #steady = new Steady();

  /** @param {'white' | 'black'} side */
  constructor(side) {
    this.#side = side;
    this.root = el('span', { class: 'clock' }, this.#note, ' ', this.#figures);
  }

  /** @param {Board} board @param {Times} times */
  tick(board, times) {
    const { clock } = board[this.#side];
    const left = this.#steady.next(board, this.#side, times.clocks);
    write(this.#note, clockNote(board, this.#side, times.clocks));
    const text = clockText(clock, left, times.lostAt === null);
    write(this.#figures, text);
    mark(this.root, 'data-words', /[a-z]/.test(text)); // "1 h 19 min" is wider than "1:19:05"
    mark(this.root, 'title', clock.remark || null);
  }
}

/**
 * The times a page draws with: its clocks stop soon after the line is lost.
 *
 * @param {number} now show time
 * @param {number | null} lostAt show time when the line was lost, null while it stands
 * @param {number} rate
 * @returns {Times}
 */
export function times(now, lostAt, rate) {
  return { now, clocks: lostAt === null ? now : Math.min(now, lostAt + PRETEND_MS * rate), lostAt };
}
