// @ts-check
/** @typedef {import('../pulse.js').Moment} Moment */

/** A clock changes too early or too late by no more than this for the sake of others, wall time. */
const REACH_MS = 45;
/** What the page may be wrong in the time and what it adds to it stay below this together: 100 ms is what a drawn clock may be off. */
const OFF_MS = 95;

/**
 * A frame costs more than what is in it, and every clock of a wall changes at its own moment: those
 * that change at about the same time, as clocks of one feed do, change in one frame.
 *
 * @param {number} unsureMs how far the page's show time may be off, wall time
 * @returns {number} by how much a clock may change too early or too late, wall time
 */
export function reachOf(unsureMs) {
  return Math.max(0, Math.min(REACH_MS, OFF_MS - unsureMs));
}

/**
 * When to look at the clocks: in the middle of the first changes that one look reaches. One that
 * is alone changes at its own moment.
 *
 * @param {number[]} dues when each changes by itself, wall time, one at least
 * @param {number} reach
 */
export function together(dues, reach) {
  const first = Math.min(...dues);
  const last = Math.max(...dues.filter((due) => due <= first + 2 * reach));
  return (first + last) / 2;
}

/** The moment at which something is due that is drawn a little earlier. @param {Moment} moment @param {number} due wall time @returns {Moment} */
export function dueAt(moment, due) {
  return due <= moment.wall ? moment : { ...moment, wall: due, now: moment.now + (due - moment.wall) * moment.rate };
}
