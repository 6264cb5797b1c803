// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').Player} Player */
import { about, word } from '../lib/language.js';
import { spoken } from '../lib/placement.js';
import { isWhite, moveNumber } from '../lib/san.js';
import { inTrouble, runningLook } from '../lib/tellmap.js';

/**
 * What stands under a name: the look of the sample, the word and its evidence.
 * Shades ("probably …") are for the working surfaces; on the air the verdict
 * stands alone.
 *
 * @param {Player} player
 * @param {boolean} held nobody knows whether the clocks run
 * @param {boolean} over the game has ended
 */
export function tellOf(player, held, over) {
  const { tell } = player;
  if (over || !tell.verdict) return { look: '', word: '', evidence: '' };
  if (held) return { look: 'none', word: word('no reading'), evidence: lastWord(tell) };
  if (inTrouble(tell)) return { look: 'trouble', word: word('time trouble'), evidence: word(tell.evidence) };
  const look = runningLook(tell);
  switch (tell.verdict) {
    case 'preparation':
      return { look: 'preparation', word: word('in preparation'), evidence: word(tell.evidence) };
    case 'thinking':
      return { look, word: word('thinking'), evidence: word(tell.evidence) };
    case 'noclock':
      return { look, word: word('no reading'), evidence: word(tell.evidence) };
  }
  return { look: '', word: '', evidence: '' }; // figures without a word would say nothing
}

/** @param {import('../lib/wire.js').Tell} tell */
function lastWord(tell) {
  if (inTrouble(tell)) return word('last: time trouble');
  if (tell.verdict === 'preparation') return word('last: in preparation');
  return tell.verdict === 'thinking' ? word('last: thinking') : '';
}

/** "round 5 · board 1", without what the feed leaves open. @param {Board} board */
export function placeOf(board) {
  return [roundOf(board), tableOf(board)].filter(Boolean).join(' · ');
}

/** Whether there is a game to show. @param {Board | null} board */
export function hasGame(board) {
  return board !== null && board.fen !== '' && (board.plies.length > 0 || board.white.name !== '' || board.black.name !== '');
}

/** @param {{result: string}} board */
export function isOver(board) {
  return board.result !== '*' && board.result !== '';
}

/** Whether nobody knows if the clocks run. @param {Board} board @param {number | null} heldAt since when the page knows nothing any more */
export function isHeld(board, heldAt) {
  return !isOver(board) && (board.frozen || heldAt !== null || board.white.clock.state === 'held' || board.black.clock.state === 'held');
}

/** Whether the clocks are kept from the viewers, who think about a question. @param {Board} board */
export function isVeiled({ white, black }) {
  return [white, black].every(({ clock, tell }) => clock.state === 'held' && clock.quality === 'none' && !tell.verdict);
}

/** How long a correction is told, show time. */
export const CORRECTION_MS = 20_000;

/** The correction to tell now. @param {Board} board @param {number} now show time */
export function told(board, now) {
  const c = board.correction;
  return c && now - c.at < CORRECTION_MS ? c : null;
}

/** The board in words. @param {Omit<Board, 'plies'> & {plies: {number: number, san: string}[]}} board */
export function description(board) {
  const last = board.plies[board.plies.length - 1];
  const moved = last ? ` ${word('Last move')} ${moveNumber(last.number)}${isWhite(last.number) ? '' : ' …'} ${last.san}.` : '';
  const next = isOver(board) ? about('Result {}.', board.result) : word(board.fen.split(' ')[1] === 'b' ? 'Black to move.' : 'White to move.');
  const players = about('{} against', board.white.name);
  return `${players} ${board.black.name}. ${spoken(board.fen)}${moved} ${next}`;
}

/** The board asked for, from 1; anything that is no number means the first. @param {string | null} text */
export function boardOption(text) {
  return /^[1-9]\d{0,2}$/.test(text ?? '') ? Number(text) : 1;
}

/** Whose row is the upper one, and whose men stand at the upper edge. @param {URLSearchParams} options @returns {'white' | 'black'} */
export function topOption(options) {
  return options.get('side')?.toLowerCase() === 'black' ? 'white' : 'black';
}

/** Further than this many plies from the picture is a cut, not a move. */
const NEAR_PLIES = 2;

/** Whether one state of a board follows another closely enough for its men to move. @param {Board | null} before @param {Board} board */
export function isNear(before, board) {
  if (!before || board.correction?.at !== before.correction?.at) return false;
  return Math.abs(board.plies.length - before.plies.length) <= NEAR_PLIES;
}

/** "round 5", or "". @param {Board} board */
export function roundOf(board) {
  return said('round {}', board.round);
}

/** "board 1", as the feed numbers it or else the show. @param {Board} board */
export function tableOf(board) {
  return said('board {}', tableNumber(board));
}

/** The same without its word. @param {Board} board */
export function tableNumber({ table, board }) {
  return isTold(table) ? table : String(board);
}

/** A word with its value; "" where the feed leaves it open. @param {string} english @param {string} value */
function said(english, value) {
  return isTold(value) ? about(english, value) : '';
}

/** @param {string} value */
function isTold(value) {
  return /^[^?\-*]/.test(value);
}
