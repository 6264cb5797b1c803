// @ts-check
/** Words about a side's tell and a board's feed, for panel and health. */
/** @typedef {import('../lib/wire.js').Tell} Tell */
import { VERDICT } from '../lib/wire.js';

/** Black first: its lane is the upper one of the tell line. @type {('black' | 'white')[]} */
export const SIDES = ['black', 'white'];

const TROUBLE = ['', 'spending too fast', 'in time trouble', 'in severe time trouble'];
/** @param {number} level 0 to 3 */
export const troubleWords = (level) => TROUBLE[Math.min(level, TROUBLE.length - 1)] ?? '';

/** A finished game in a few words, "" while it is played. @param {string} result as in the PGN */
export function resultWords(result) {
  if (result === '*' || result === '') return '';
  return `finished, ${result.replaceAll('1/2', '½').replace('-', ' – ')}`;
}

/** What is wrong with a board's feed, "" when nothing. @param {string} state */
export const feedWords = (state) => (state === 'stale' ? 'the feed is silent' : '');

/** What the producer did to a board, "" when nothing. @param {boolean} frozen */
export const frozenWords = (frozen) => (frozen ? 'frozen by the producer' : '');

/** How sure the tell is, in hundredths: never quite none, never quite all. @param {Tell} tell */
export function certainty(tell) {
  if (tell.verdict === VERDICT.NO_CLOCK || tell.verdict === VERDICT.EARLY) return tell.shade;
  const thinking = tell.verdict === VERDICT.THINKING;
  const p = Math.round(100 * (thinking ? tell.thinking : 1 - tell.thinking));
  return `${tell.shade}, ${Math.min(99, Math.max(1, p))} in 100`;
}
