// @ts-check
/** @typedef {import('../../lib/wire.js').Board} Board */
/** @typedef {import('./attention.js').Notice} Notice */
import { timeText } from '../../lib/clock.js';
import { word } from '../../lib/language.js';
import { moveNumber, resultText } from '../../lib/san.js';
import { Attention } from './attention.js';
import { news } from '../news.js';
import { isOver } from '../words.js';

/** Notices is the one place that says something to the viewers in words. */
export class Notices {
  #attention = new Attention();

  /**
   * @param {Board} board
   * @param {import('./attention.js').When} when
   * @param {boolean} quiet news is not told; that the picture is behind still is
   * @param {number | null} [lostAt] since when the page is without the relay, show time
   * @returns {{notice: Notice | null, until: number}} what stands now, and until when at most it needs no look, wall time
   */
  at(board, when, quiet, lostAt = null) {
    const state = stale(board, when.now, lostAt) ?? unreadable(board);
    const stands = this.#attention.look({ news: news(board), state, over: goesOn(board), quiet }, when);
    // The words of a state count the seconds.
    const second = (1000 - ((when.now - (state?.at ?? 0)) % 1000)) / when.rate + 1;
    const until = stands?.state && state ? when.wall + second : (stands?.until ?? Infinity);
    return { notice: stands?.notice ?? null, until };
  }
}

/** That the picture is no longer behind. @param {Board} board @returns {Notice} */
function goesOn(board) {
  const [headline, evidence] = isOver(board) ? [word('The game has ended'), resultText(board.result)] : [word('The feed goes on'), word('clocks and position as they are now')];
  return { kind: 'stale', key: 'over', level: 0, headline, evidence, rank: 10, at: 0 };
}

/** That nothing is heard, from the feed or from the relay itself. @param {Board} board @param {number} now @param {number | null} lostAt @returns {Notice | null} */
function stale(board, now, lostAt) {
  const since = board.feed.state === 'stale' ? board.feed.since : lostAt;
  if (since === null || isOver(board)) return null;
  const headline = word(since ? `No data for ${timeText(now - since)}` : 'No data yet');
  const evidence = word('clocks held, position may be behind');
  return { kind: 'stale', key: 'stale', level: 0, headline, evidence, rank: 10, at: since };
}

/** A move that cannot be played: the game has gone on, and this board has not. @param {Board} board @returns {Notice | null} */
function unreadable(board) {
  if (!board.fault || isOver(board)) return null;
  const last = board.plies[board.plies.length - 1];
  const headline = word(last ? `Waiting for move ${moveNumber(last.number + 1)}` : 'Waiting for the first move');
  return { kind: 'fault', key: 'fault', level: 0, headline, evidence: word('its entry cannot be read'), rank: 10, at: 0 };
}
