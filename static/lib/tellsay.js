// @ts-check
/** @typedef {import('./wire.js').Board} Board */
/** @typedef {import('./wire.js').Ply} Ply */
/** @typedef {'white' | 'black'} Side */
import { STEP, inStep } from './clock.js';
import { isWhite, moveNumber } from './san.js';
import { lasted, sideOf } from './tellmap.js';
import { LOOK, QUALITY } from './wire.js';

/**
 * The tell line in one sentence, for those who do not see it. It changes with
 * the moves, not with the seconds.
 *
 * @param {Board} board
 * @param {import('./tellmap.js').Head} head
 */
export function said(board, head) {
  const { plies } = board;
  if (plies.length === 0) return 'Times of the moves: no move yet.';
  const moves = count(moveNumber(plies[plies.length - 1].number), 'move');
  const timed = plies.filter((p) => p.quality !== QUALITY.NONE);
  if (timed.length === 0) return `Times of the moves: ${moves}, no clock readings.`;
  const total = timed.reduce((sum, p) => sum + p.spentMs, 0);
  const parts = [
    `${moves} in ${inStep(total, STEP.MINUTE)}`,
    ofSide(board, 'white'),
    ofSide(board, 'black'),
    newMove(board),
    unsure(plies),
    present(head),
  ];
  return `Times of the moves: ${parts.filter(Boolean).join('; ')}.`;
}

/** @param {Board} board @param {Side} side */
function ofSide({ plies, white }, side) {
  const own = plies.filter((p) => sideOf(p) === side && p.quality !== QUALITY.NONE);
  if (own.length === 0) return '';
  const prepared = own.filter((p) => p.look === LOOK.PREPARATION).length;
  const trouble = own.filter((p) => p.look === LOOK.TROUBLE).length;
  const longest = own.reduce((a, b) => (b.spentMs > a.spentMs ? b : a));
  const long = `longest ${lasted(longest, white.clock.stepMs)} on ${written(longest)}`;
  const looks = [`${prepared} of ${own.length} in preparation`, trouble ? `${trouble} in time trouble` : ''];
  return `${side === 'white' ? 'White' : 'Black'} ${[...looks, long].filter(Boolean).join(', ')}`;
}

/** @param {Board} board */
function newMove({ plies, novelty }) {
  const ply = plies.find((p) => p.number === novelty?.ply);
  return ply ? `new with ${written(ply)}` : '';
}

/** @param {Ply[]} plies */
function unsure(plies) {
  const bad = plies.filter((p) => p.mark !== '' || p.quality === QUALITY.ESTIMATED || p.quality === QUALITY.NONE).length;
  return bad ? `${count(bad, 'time')} not as read` : '';
}

/** @param {import('./tellmap.js').Head} head */
function present(head) {
  if (head.over) return 'the game has ended';
  if (head.held) return 'nobody knows whose clock runs';
  return head.side && `${head.side === 'white' ? 'White' : 'Black'} to move`;
}

/** @param {Ply} ply */
function written(ply) {
  return `${moveNumber(ply.number)}${isWhite(ply.number) ? '' : '…'} ${ply.san}`;
}

/** @param {number} n @param {string} one */
function count(n, one) {
  return `${n} ${n === 1 ? one : one + 's'}`;
}
