// @ts-check
/** @typedef {import('../../lib/wire.js').Air} Air */
/** @typedef {import('../../lib/wire.js').Board} Board */
import { WAY } from '../../lib/wire.js';
import { moveNumber } from '../../lib/san.js';
import { toMove } from '../airwords.js';
import { challengeOn, explainedOn, movesBehind } from '../picture.js';

/**
 * What the strip tells in place of the game; null: of the game itself.
 *
 * @param {Board} board @param {Air | null} air
 * @param {import('../picture.js').Picture} picture
 * @param {ReturnType<typeof import('../airwords.js').airWords>} words
 * @returns {import('./strip.js').Told | null}
 */
export function inPlace(board, air, picture, words) {
  const steps = picture.steps.slice(0, picture.shown);
  const challenge = challengeOn(board, air);
  if (challenge) {
    const asked = picture.state === 'asked';
    const label = asked ? toMove(words, challenge.fen) : words.answer;
    return { label, note: asked ? words.at(moveNumber(challenge.number)) : '', steps, whole: false, last: true };
  }
  const explained = explainedOn(board, air);
  if (!explained || explained.live) return null;
  const { moves, name, way, ply } = explained;
  if (way === WAY.TEXT) return { label: name || words.line, note: '', steps: moves, whole: true, last: false };
  const behind = movesBehind(board.plies.length, ply);
  const note = behind ? words.behind(behind) : '';
  if (moves.length) return { label: name || words.line, note, steps, whole: false, last: true };
  return { label: words.back, note, steps: board.plies.slice(0, ply), whole: false, last: true };
}
