// @ts-check
/** @typedef {import('../lib/wire.js').LatePast} LatePast */
/** @typedef {import('../lib/wire.js').ClockErrorAt} ClockErrorAt */
import { count } from '../surface/words.js';

/** Minutes that the charts show. */
export const SHOWN_MIN = 10;

/**
 * Lines over minutes before now, the newest at 0.
 *
 * @param {LatePast} past
 * @returns {(number | null)[][]} minutes, worst and middle of the scenes, worst of the others
 */
export function lateSeries({ pieceMs, sceneWorst, sceneMiddle, otherWorst }) {
  const minutes = sceneWorst.map((_, i) => ((i + 1 - sceneWorst.length) * pieceMs) / 60_000);
  return [minutes, sceneWorst, sceneMiddle, otherWorst];
}

/** @param {LatePast} past @param {number} limit milliseconds */
export function lateWords({ sceneWorst, pieceMs }, limit) {
  const drawn = sceneWorst.filter((ms) => ms !== null);
  if (drawn.length === 0) return 'no scene has drawn anything in the last ten minutes';
  const late = drawn.filter((ms) => ms > limit).length;
  const worst = `worst of the scenes ${Math.max(...drawn)} ms`;
  return late === 0 ? `${worst}, none later than ${limit}` : `${worst}; later than ${limit} in ${late} of ${count(drawn.length, `piece`)} of ${pieceMs / 1000} s`;
}

/** No more errors of clocks than these are held, the newest. */
const ERRORS_MOST = 256;

/**
 * The errors of clocks with those that a frame tells of.
 *
 * @param {ClockErrorAt[]} held @param {import('../lib/wire.js').Sources} frame
 */
export const mergeErrors = (held, { base, errors }) => (base === 0 ? errors : [...held, ...errors].slice(-ERRORS_MOST));

/**
 * Readings as points: minutes before now, and seconds by which the clock was wrong.
 *
 * @param {ClockErrorAt[]} errors @param {number} now show time
 * @returns {(number | null)[][]}
 */
export function errorSeries(errors, now) {
  const shown = errors.filter((e) => now - e.at <= SHOWN_MIN * 60_000);
  return [shown.map((e) => Math.min(0, (e.at - now) / 60_000)), shown.map((e) => e.ms / 1000)];
}

/** @param {ClockErrorAt[]} errors @param {number} now show time */
export function errorWords(errors, now) {
  const shown = errors.filter((e) => now - e.at <= SHOWN_MIN * 60_000);
  if (shown.length === 0) return 'no reading has told in the last ten minutes';
  const worst = shown.reduce((a, b) => (Math.abs(b.ms) > Math.abs(a.ms) ? b : a));
  if (worst.ms === 0) return `${count(shown.length, 'reading')}, every clock was right`;
  return `${count(shown.length, 'reading')}; most wrong: board ${worst.board} by ${(Math.abs(worst.ms) / 1000).toFixed(1)} s`;
}
