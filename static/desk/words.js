// @ts-check
/** Where the desk stands, in words. */
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').DeskPlace} DeskPlace */
/** @typedef {import('../lib/wire.js').LineMove} LineMove */
/** @typedef {import('../lib/wire.js').Step} Step */
import { isWhite, moveNumber, movesBehind } from '../lib/san.js';
import { count } from '../surface/words.js';

/** "15…" or "15.", as it stands before a move. @param {number} number as Ply.Number */
export const numbered = (number) => `${moveNumber(number)}${isWhite(number) ? '.' : '…'}`;

/** "15…d5". @param {Pick<Step, 'number' | 'san'>} step */
export const stepWords = ({ number, san }) => `${numbered(number)}${san.replace('x', '×')}`;

/**
 * How far the live game is ahead of where a place is in the game, or leaves it: full moves.
 *
 * @param {Pick<DeskPlace, 'ply'>} place
 * @param {Board | undefined} board
 */
export const behind = (place, board) => movesBehind(board?.plies.length ?? 0, place.ply);

/** "2 moves behind", "" with the game. @param {number} moves */
export const behindWords = (moves) => (moves > 0 ? `${count(moves, 'move')} behind` : '');

/** "after 15…d5", or "the start". @param {Pick<Step, 'number' | 'san'> | null} last */
export const afterWords = (last) => (last ? `after ${stepWords(last)}` : 'at the start');

/** A line of moves as text: "14.Nxf5 Bxf5 15.exf5". @param {Pick<Step, 'number' | 'san'>[]} steps */
export function lineWords(steps) {
  return steps.map((s, i) => (i > 0 && !isWhite(s.number) ? s.san.replace('x', '×') : stepWords(s))).join(' ');
}

/** The last move of a game. @param {Board | undefined} board @returns {{number: number, san: string} | null} */
export const lastPly = (board) => board?.plies[board.plies.length - 1] ?? null;

/** "Quill – Tarn". @param {Board | undefined} board */
export function namesWords(board) {
  return board ? `${board.white.short || 'White'} – ${board.black.short || 'Black'}` : '';
}

/** Time left, as a countdown says it: "0:23", never negative; a part of a second counts. @param {number} ms */
export function countdown(ms) {
  const s = Math.ceil(Math.max(0, ms) / 1000);
  return `${Math.floor(s / 60)}:${String(s % 60).padStart(2, '0')}`;
}
