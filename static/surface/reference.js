// @ts-check
/** Words about the reference, for panel and health. */
/** @typedef {import('../lib/wire.js').Reference} Reference */
import { moveNumber, thousands } from '../lib/san.js';

/** How a reference is built, and where it is named. The command and the key are those of the manual. */
export const BUILD = 'clocktell reference build --out FILE GAMES.pgn';
export const KEY = { file: 'file', section: '[reference]' };

/** "one game", "34 games", "48 213 games". @param {number} n */
export function games(n) {
  return n === 1 ? 'one game' : `${thousands(n)} games`;
}

/** Whether positions are looked up. @param {Reference | null} reference */
export function isAttached(reference) {
  return reference !== null && reference.games > 0 && reference.fault === '';
}

/** How far into a game a reference reaches: "move 30". @param {Reference} reference */
export function reach(reference) {
  return `move ${moveNumber(reference.depth)}`;
}

/**
 * What there is to look positions up in: the state, and what else there is to say.
 *
 * @param {Reference} reference
 * @returns {{state: 'attached' | 'fault' | 'none', word: string, text: string}}
 */
export function referenceWords(reference) {
  if (reference.fault) return { state: 'fault', word: 'The reference cannot be used', text: reference.fault };
  if (reference.games === 0) return { state: 'none', word: 'No reference', text: 'whether a move is new cannot be told' };
  const counted = reference.counted ? `; counted: ${reference.counted}` : '';
  return { state: 'attached', word: 'Reference', text: `${games(reference.games)}, as far as ${reach(reference)}${counted}` };
}
