// @ts-check
/** @typedef {import('../../lib/wire.js').Board} Board */
/** @typedef {import('../../lib/wire.js').Player} Player */
import { inTrouble, runningLook } from '../../lib/tellmap.js';

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
  if (over) return { look: '', word: '', evidence: '' };
  if (held) return { look: 'none', word: 'no reading', evidence: lastWord(tell) };
  if (inTrouble(tell)) return { look: 'trouble', word: 'time trouble', evidence: tell.evidence };
  const look = runningLook(tell);
  switch (tell.verdict) {
    case 'preparation':
      return { look: 'preparation', word: 'in preparation', evidence: tell.evidence };
    case 'thinking':
      return { look, word: 'thinking', evidence: tell.evidence };
    case 'noclock':
      return { look, word: 'no reading', evidence: tell.evidence };
  }
  return { look: '', word: '', evidence: '' }; // figures without a word would say nothing
}

/** @param {import('../../lib/wire.js').Tell} tell */
function lastWord(tell) {
  if (inTrouble(tell)) return 'last: time trouble';
  if (tell.verdict === 'preparation') return 'last: in preparation';
  return tell.verdict === 'thinking' ? 'last: thinking' : '';
}

/** "round 5 · board 1", without what the feed leaves open. @param {Board} board */
export function placeOf(board) {
  const said = (/** @type {string} */ word, /** @type {string} */ value) => (/^[^?\-*]/.test(value) ? `${word} ${value}` : '');
  return [said('round', board.round), said('board', board.table || String(board.board))].filter(Boolean).join(' · ');
}

/** Whether there is a game to show. @param {Board | null} board */
export function hasGame(board) {
  return board !== null && board.fen !== '' && (board.plies.length > 0 || board.white.name !== '' || board.black.name !== '');
}

/** @param {Board} board */
export function isOver(board) {
  return board.result !== '*' && board.result !== '';
}
