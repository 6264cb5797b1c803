// @ts-check
/** @typedef {import('../lib/wire.js').Clock} Clock */
import { timeText } from '../lib/clock.js';
import { QUALITY } from '../lib/wire.js';

/**
 * @typedef {object} Times
 * @property {number} now show time
 * @property {number} clocks show time as far as clocks may use it
 * @property {number | null} lostAt show time when the line was lost, null while it stands
 */

/** How long a running clock goes on after the line was lost, wall milliseconds. */
export const PRETEND_MS = 5000;

/**
 * A clock in figures; "≈" when it is not exact.
 *
 * @param {Clock} clock
 * @param {number} left show milliseconds
 * @param {boolean} heard whether the relay is heard
 */
export function clockText(clock, left, heard) {
  if (clock.quality === QUALITY.NONE) return 'no clock';
  const sure = clock.quality !== QUALITY.ESTIMATED && clock.state !== 'held' && (heard || clock.state !== 'running');
  return (sure ? '' : '≈ ') + timeText(left);
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
