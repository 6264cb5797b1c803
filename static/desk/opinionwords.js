// @ts-check
/** What an engine thinks, in words for the desk. */
/** @typedef {import('../lib/wire.js').DeskAct} DeskAct */
/** @typedef {import('../lib/wire.js').DeskPlace} DeskPlace */
/** @typedef {import('../lib/wire.js').Opinion} Opinion */
/** @typedef {import('../lib/wire.js').OpinionLine} OpinionLine */
/** @typedef {import('../lib/wire.js').Opinions} Opinions */
import { ENGINE } from '../lib/wire.js';
import { lineWords } from './words.js';

/** Moves of a line that are shown, and played with it. */
export const MOVES_MOST = 10;

/** What is thought of where the desk stands, null: nothing yet. @param {Opinions} opinions @param {DeskPlace} place @returns {Opinion | null} */
export function opinionAt({ desk }, place) {
  return desk && desk.board === place.board && desk.ply === place.ply && desk.move === place.move ? desk : null;
}

/**
 * What stands in place of lines, "" where there are some.
 *
 * @param {Opinions} opinions
 * @param {{place: DeskPlace, moves: unknown[]}} desk
 */
export function whyNone(opinions, { place, moves }) {
  if (opinions.kept === place.board) return 'Kept back while the viewers are asked for the next move.';
  if (opinionAt(opinions, place)) return '';
  if (moves.length === 0) return 'No move is left here.';
  return opinions.state === ENGINE.FAULT ? opinions.text : 'Looking at this position…';
}

/** Whose opinion it is, and how far it has come. @param {Opinions} opinions @param {Opinion | null} opinion */
export function headWords({ engine, state }, opinion) {
  const parts = opinion ? [opinion.engine, depthWords(opinion), state === ENGINE.FAULT && 'not searching now'] : [engine];
  return parts.filter(Boolean).join(', ');
}

/**
 * What the engine thinks that the first is compared with, null: nothing of this place; and how
 * the two stand to each other.
 *
 * @param {Opinions} opinions
 * @param {DeskPlace} place
 * @returns {{opinion: Opinion | null, words: string}}
 */
export function otherAt({ other, differ }, place) {
  const opinion = other && other.board === place.board && other.ply === place.ply && other.move === place.move ? other : null;
  return { opinion, words: opinion ? `${opinion.engine} ${differ ? 'is of another mind' : 'agrees, more or less'}: ${opinion.words}` : '' };
}

/** How far the search has come: "22 plies deep so far". @param {Opinion} opinion */
export const depthWords = ({ depth, final }) => `${depth} ${depth === 1 ? 'ply' : 'plies'} deep${final ? '' : ' so far'}`;

/**
 * The engine's own guess at how a hundred such games end, "" where it gives none. What is
 * left over by rounding is drawn.
 *
 * @param {OpinionLine} line
 */
export function chancesWords({ wdl }) {
  if (!wdl) return '';
  const [white, black] = [Math.round(wdl.win / 10), Math.round(wdl.loss / 10)];
  return `Of 100 such games the engine expects White to win ${white} and Black ${black}, the rest drawn.`;
}

/** A line as a screen reader tells it behind its score. @param {OpinionLine} line @param {number} index */
export const lineName = (line, index) => `, line ${index + 1}: ${line.words}; ${lineWords(line.moves.slice(0, MOVES_MOST))}`;

/**
 * What is done to open a line on the board: all of it becomes a side line, and the desk stands
 * behind one of its moves. It begins where it was thought of, though the game has gone on since.
 *
 * @param {Opinion} opinion
 * @param {OpinionLine} line
 * @param {number} steps moves, from 1
 * @returns {Partial<DeskAct>}
 */
export function opening({ ply, move }, line, steps) {
  return { text: line.moves.slice(0, MOVES_MOST).map((m) => m.san).join(' '), from: 'begin', ply, move, steps };
}

/** Whether the sentence on the air is the engine's verdict, and of no prompt. @param {import('../lib/wire.js').Caption | null} caption */
export const isVerdict = (caption) => caption !== null && caption.kind === 'engine' && caption.key === '';
