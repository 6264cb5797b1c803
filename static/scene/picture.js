// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').Air} Air */
/** @typedef {import('../lib/wire.js').Step} Step */
import { CHALLENGE, WAY } from '../lib/wire.js';

/**
 * What stands on a board, and how it was come by: so many plies of its game, and from there so many
 * steps that are not of it. wait: show milliseconds until another step is shown. fix: when the game
 * was corrected last.
 *
 * @typedef {{state: 'live' | 'explained' | 'asked' | 'revealed', board: number, fen: string, last: {from: string, to: string} | null,
 *   ply: number, steps: Step[], shown: number, wait: number, fix: number | undefined}} Picture
 */

/** Further than this many moves from the picture before is a cut, not a move. */
const NEAR = 2;

/**
 * How many steps are shown of those that are played through: the first comes when the position
 * before it has been seen for as long as each other.
 *
 * @param {number} at since when @param {number} stepMs @param {number} count @param {number} now all show time
 */
export function stepsShown(at, stepMs, count, now) {
  return Math.max(0, Math.min(count, Math.floor((now - at) / Math.max(1, stepMs))));
}

/** What a board shows now. @param {Board} board @param {Air | null} air @param {number} now show time @returns {Picture} */
export function pictureOf(board, air, now) {
  const [explained, challenge] = [explainedOn(board, air), challengeOn(board, air)];
  if (challenge) return questionOf(challenge, board, now);
  const like = { board: board.board, fix: board.correction?.at };
  if (!explained || explained.live || explained.way === WAY.TEXT) {
    const ply = board.plies.length;
    return { ...like, state: 'live', fen: board.fen, last: board.plies[ply - 1] ?? null, ply, steps: [], shown: 0, wait: Infinity };
  }
  const { fen, last, ply, moves, at, stepMs, way } = explained;
  // What viewers follow is shown at once, as if it had been played long ago.
  return { ...like, state: 'explained', ...played(fen, last, ply, moves, way === WAY.WHOLE ? at : -Infinity, stepMs, now) };
}

/** What is explained on a board, or null. @param {Board} board @param {Air | null} air */
export function explainedOn(board, air) {
  return air?.explained?.board === board.board ? air.explained : null;
}

/** The question that is put on a board, or null. @param {Board} board @param {Air | null} air */
export function challengeOn(board, air) {
  return air?.challenge?.board === board.board ? air.challenge : null;
}

/**
 * The position of a question, and from its answer on what of that is played.
 *
 * @param {import('../lib/wire.js').AirChallenge} challenge @param {Board | null} board where it is known @param {number} now
 * @returns {Picture}
 */
export function questionOf({ board: number, state, number: move, fen, last, answer, revealed, stepMs }, board, now) {
  const ply = board?.plies.filter((p) => p.number < move).length ?? move - 1;
  const like = { board: number, fix: board?.correction?.at };
  if (state !== CHALLENGE.REVEALED) return { ...like, state: 'asked', fen, last, ply, steps: [], shown: 0, wait: Infinity };
  return { ...like, state: 'revealed', ...played(fen, last, ply, answer, revealed, stepMs, now) };
}

/** @param {string} fen @param {Step | null} last @param {number} ply @param {Step[]} steps @param {number} at @param {number} stepMs @param {number} now */
function played(fen, last, ply, steps, at, stepMs, now) {
  const shown = stepsShown(at, stepMs, steps.length, now);
  const wait = shown < steps.length ? at + (shown + 1) * stepMs - now : Infinity;
  const step = steps[shown - 1];
  return { fen: step?.fen ?? fen, last: step ?? last, ply, steps, shown, wait };
}

/** Whether one picture follows another closely enough for its men to move: the moves between them are few. @param {Picture | null} a @param {Picture} b */
export function isStep(a, b) {
  if (!a || a.board !== b.board || a.fix !== b.fix) return false;
  let same = 0;
  if (a.ply === b.ply) while (same < Math.min(a.shown, b.shown) && a.steps[same].fen === b.steps[same].fen) same++;
  return a.shown + b.shown - 2 * same + Math.abs(a.ply - b.ply) <= NEAR;
}
