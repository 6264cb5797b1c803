// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
import { TROUBLE_SHOWS } from '../lib/tellmap.js';
import { about, word } from '../lib/language.js';
import { moveNumber, resultText, thousands } from '../lib/san.js';
import { isOver } from './words.js';

/**
 * One line for the viewers. brief: the headline where a name has no room. key: the condition it tells of. level: a higher one
 * of the same condition is news again. rank: the higher goes first. at: show
 * time it became true.
 *
 * @typedef {{kind: string, key: string, level: number, headline: string, brief: string, evidence: string, rank: number, at: number}} Notice
 */

/** @type {Record<string, {rank: number, says: string, brief: string}>} */
const TOLD = {
  timeTrouble: { rank: 3, says: '{} in time trouble', brief: 'Time trouble' },
  leftPreparation: { rank: 2, says: '{} has left preparation', brief: 'Out of preparation' },
  firstThink: { rank: 2, says: 'First long think by {}', brief: 'First long think' },
  longThink: { rank: 1, says: 'Long think by {}', brief: 'Long think' },
};
/** A new move is told when nothing else is. */
const NOVELTY_RANK = 0;
/** What is worse goes before all that is not: time trouble by its level, then the end of the game. */
const WORST_RANK = 4;
const RESULT_RANK = 9;

/** What a line of evidence keeps where it has not the room for all: its part with a figure, "6:52" of "6:52, the longest so far". @param {string} evidence */
export function gist(evidence) {
  const parts = evidence.split(', ');
  return parts.find((part) => /\d/.test(part)) ?? parts[0];
}

/** Everything that is true now and would be worth a line. @param {Board} board @returns {Notice[]} */
export function news(board) {
  if (isOver(board)) return [ended(board)];
  return board.alerts.flatMap((a) => {
    if (a.kind === 'novelty') return newMove(board, a.at);
    const told = TOLD[a.kind];
    const player = a.side === 'white' ? board.white : a.side === 'black' ? board.black : null;
    if (!told || !player || (a.kind === 'timeTrouble' && a.level < TROUBLE_SHOWS)) return [];
    const headline = about(told.says, player.short);
    // Time trouble is one condition that gets worse; relief is no news.
    const [key, level] = a.kind === 'timeTrouble' ? [a.id.replace(/-\d+$/, ''), a.level] : [`${a.id} ${a.at}`, 0];
    const rank = level > TROUBLE_SHOWS ? WORST_RANK : told.rank;
    return [{ kind: a.kind, key, level, headline, brief: word(told.brief), evidence: a.evidence || a.reason, rank, at: a.at }];
  });
}

/** The move with which the game left the reference. @param {Board} board @param {number} at @returns {Notice[]} */
function newMove({ novelty }, at) {
  if (!novelty) return [];
  const { ply, all, before } = novelty;
  const evidence = all > 0 ? amongCounted(before.games, all) : notPlayed(before.games);
  const headline = word(`Move ${moveNumber(ply)} is new`);
  return [{ kind: 'novelty', key: `novelty ${ply} ${at}`, level: 0, headline, brief: headline, evidence, rank: NOVELTY_RANK, at }];
}

/** @param {number} games that came here */
function notPlayed(games) {
  return word(games === 1 ? 'the only game to come here went on otherwise' : `not played in ${thousands(games)} games that came here`);
}

/** Where games are not counted that have it, the move is not simply new. @param {number} games @param {number} others */
function amongCounted(games, others) {
  const [among, more] = [thousands(games), thousands(others)];
  return word(others === 1 ? `among ${among} games counted; ${more} other has it` : `among ${among} games counted; ${more} others have it`);
}

/** @param {Board} board @returns {Notice} */
function ended(board) {
  const winner = board.result === '1-0' ? board.white : board.result === '0-1' ? board.black : null;
  const last = board.plies[board.plies.length - 1];
  const end = last && (last.san.endsWith('#') ? `checkmate on move ${moveNumber(last.number)}` : `after move ${moveNumber(last.number)}`);
  return {
    kind: 'result',
    key: `result ${board.result} ${board.plies.length} ${board.white.name}`,
    level: 0,
    headline: winner ? about('{} wins', winner.short) : word('Draw'),
    brief: word(!winner ? 'Draw' : winner === board.white ? 'White wins' : 'Black wins'),
    evidence: end ? word(end) : resultText(board.result),
    rank: RESULT_RANK,
    at: board.at,
  };
}
