// @ts-check
/** @typedef {import('./wire.js').Clock} Clock */

/** Below this a running clock shows tenths of a second. */
export const TENTHS_BELOW_MS = 20_000;

/** A running clock may jump up by this much only with an event; less is a fresh measurement, which waits. */
const JUMP_MS = 1000;

/**
 * Whole seconds as people read them off a clock: 0:07, 11:42, 1:05:00. What is
 * left of a second is cut off.
 *
 * @param {number} ms
 */
export function timeText(ms) {
  const s = Math.floor(Math.max(0, ms) / 1000);
  const hours = Math.floor(s / 3600);
  const minutes = Math.floor(s / 60) % 60;
  const seconds = String(s % 60).padStart(2, '0');
  return hours ? `${hours}:${String(minutes).padStart(2, '0')}:${seconds}` : `${minutes}:${seconds}`;
}

/** Tenths of a second behind timeText: ".6". @param {number} ms */
export function tenthsText(ms) {
  return '.' + (Math.floor(Math.max(0, ms) / 100) % 10);
}

/** What is left at a show time, never below zero. @param {Clock} clock @param {number} now */
export function leftAt(clock, now) {
  const gone = clock.state === 'running' ? now - clock.at : 0;
  return Math.max(0, clock.leftMs - Math.max(0, gone));
}

/** Time on this move at a show time. @param {Clock} clock @param {number} now */
export function spentAt(clock, now) {
  return clock.spentMs + (clock.state === 'running' ? Math.max(0, now - clock.at) : 0);
}

/**
 * Falling keeps one side's shown clock from creeping up: show time is measured
 * again and again, and a better measurement may lie a little behind the last.
 * Only another move, another state or a clear jump may raise what is shown.
 */
export class Falling {
  #key = '';
  #shown = Infinity;

  /**
   * @param {number} left what the clock says now
   * @param {string} key changes with every event that may raise a clock
   */
  next(left, key) {
    if (key !== this.#key || left - this.#shown >= JUMP_MS) this.#shown = Infinity;
    this.#key = key;
    this.#shown = Math.min(this.#shown, left);
    return this.#shown;
  }
}

/**
 * How long until the text of a running clock changes, in milliseconds of show
 * time.
 *
 * @param {number} left
 */
export function untilChange(left) {
  if (left <= 0) return Infinity;
  const step = left < TENTHS_BELOW_MS ? 100 : 1000;
  return (left % step) + 1;
}
