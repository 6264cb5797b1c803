// @ts-check
/** @typedef {import('./wire.js').Board} Board */
/** @typedef {import('./wire.js').Clock} Clock */
/** @typedef {'white' | 'black'} Side */
import { DELAY, QUALITY, STATE } from './wire.js';

/** Below this a running clock shows tenths of a second, if it is known so finely. */
export const TENTHS_BELOW_MS = 20_000;

/** The steps in which a clock may be shown. */
export const STEP = Object.freeze({ TENTH: 100, SECOND: 1000, MINUTE: 60_000 });

/** A running clock may jump against its way by this much only with an event; less is a fresh measurement, which waits. */
const JUMP_MS = 1000;

/**
 * The finest step that a clock is known in: a step is shown when what the clock
 * may be wrong by is less than half of the next coarser one, or of itself where
 * it is tenths, which look exact.
 *
 * @param {Clock} clock
 */
export function stepOf(clock) {
  if (clock.stepMs >= STEP.MINUTE || clock.unsureMs >= STEP.MINUTE / 2) return STEP.MINUTE;
  const fine = clock.stepMs > 0 && clock.stepMs < STEP.SECOND && clock.unsureMs <= STEP.SECOND / 2;
  return fine && clock.state === STATE.RUNNING && clock.quality !== QUALITY.ESTIMATED ? STEP.TENTH : STEP.SECOND;
}

/**
 * A time in figures, each with what stands small behind it: 11:42, 0:07 .4,
 * 1 h 28 min. Whole minutes are the nearest ones, seconds and tenths are cut.
 *
 * @param {number} ms
 * @param {number} step one of STEP
 * @returns {[string, string][]}
 */
export function figures(ms, step) {
  if (step === STEP.TENTH && ms < TENTHS_BELOW_MS) return [[timeText(ms), tenthsText(ms)]];
  if (step !== STEP.MINUTE) return [[timeText(ms), '']];
  const minutes = Math.floor(Math.max(0, ms) / STEP.MINUTE + 0.5);
  if (minutes === 0) return [['<1', 'min']];
  const hours = Math.floor(minutes / 60);
  return hours ? [[String(hours), 'h'], [String(minutes % 60), 'min']] : [[String(minutes), 'min']];
}

/** The same in one line. @param {number} ms @param {number} step one of STEP */
export function inStep(ms, step) {
  const apart = step === STEP.MINUTE ? '\u00a0' : '';
  return figures(ms, step).map(([figure, small]) => figure + (small ? apart + small : '')).join(apart);
}

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
function tenthsText(ms) {
  return '.' + (Math.floor(Math.max(0, ms) / 100) % 10);
}

/** What a side has left at a show time, never below zero. @param {Board} board @param {Side} side @param {number} now */
export function leftAt(board, side, now) {
  const clock = board[side].clock;
  if (clock.state !== STATE.RISING) return fallen(clock, now);
  const other = board[side === 'white' ? 'black' : 'white'].clock;
  return clock.leftMs + other.leftMs - fallen(other, now);
}

/** @param {Clock} clock @param {number} now */
function fallen(clock, now) {
  const gone = clock.state === STATE.RUNNING ? now - clock.at : 0;
  return Math.max(0, clock.leftMs - Math.max(0, gone));
}

/** Time on this move at a show time. @param {Clock} clock @param {number} now */
export function spentAt(clock, now) {
  return Math.max(0, clock.spentMs + (clock.state === STATE.RUNNING ? now - clock.at : 0));
}

/** How much longer a side's clock stands still because of a delay; 0: it falls, or does not run. @param {Board} board @param {Side} side @param {number} now */
export function standsFor(board, side, now) {
  const { clock } = board[side];
  if (clock.state !== STATE.RUNNING || board.control.delay !== DELAY.SIMPLE) return 0;
  return Math.min(board.control.delayMs, Math.max(0, clock.at - now));
}

/**
 * Steady keeps one side's shown clock on its way: show time is measured again and
 * again, and a better measurement may lie a little behind the last. Only another
 * move, another state or a clear jump may turn it.
 */
export class Steady {
  #key = '';
  #shown = 0;

  /**
   * @param {Board} board
   * @param {Side} side
   * @param {number} now show time
   * @returns {number} what is shown, in milliseconds
   */
  next(board, side, now) {
    const { state } = board[side].clock;
    const left = leftAt(board, side, now);
    const key = `${board.plies.length} ${state}`;
    const goes = state === STATE.RUNNING || state === STATE.RISING;
    const against = state === STATE.RISING ? this.#shown - left : left - this.#shown;
    if (!goes || key !== this.#key || against >= JUMP_MS || against <= 0) this.#shown = left;
    this.#key = key;
    return this.#shown;
  }
}

/**
 * How long until the text of a clock that goes changes, in milliseconds of show
 * time.
 *
 * @param {number} left
 * @param {number} step one of STEP
 * @param {boolean} [rises] instead of falling
 */
export function untilChange(left, step, rises = false) {
  if (left <= 0 && !rises) return Infinity;
  const shown = step === STEP.TENTH && left >= TENTHS_BELOW_MS ? STEP.SECOND : step;
  const into = (left + (shown === STEP.MINUTE ? STEP.MINUTE / 2 : 0)) % shown;
  return (rises ? shown - into : into) + 1;
}
