// @ts-check
/** What scenes say of what the desk puts on the air, in each language that a show can have. */
/** @typedef {import('../lib/wire.js').Air} Air */
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {typeof ENGLISH} AirWords */
import { WAY } from '../lib/wire.js';
import { moveNumber, movesBehind } from '../lib/san.js';
import { challengeOn, explainedOn } from './picture.js';

const ENGLISH = {
  white: 'White to move',
  black: 'Black to move',
  at: (/** @type {number} */ move) => `move ${move}`,
  hint: (/** @type {number} */ n) => `Hint ${n}`,
  over: 'Time is up',
  answer: 'The answer',
  line: 'Side line',
  instead: 'instead of',
  unplayed: 'not played',
  back: 'Earlier in the game',
  behind: (/** @type {number} */ n) => `${n} ${n === 1 ? 'move' : 'moves'} behind`,
};

/** @type {AirWords} */
const GERMAN = {
  white: 'Weiß am Zug',
  black: 'Schwarz am Zug',
  at: (move) => `${move}. Zug`,
  hint: (n) => `Tipp ${n}`,
  over: 'Die Zeit ist um',
  answer: 'Die Lösung',
  line: 'Variante',
  instead: 'statt',
  unplayed: 'nicht gespielt',
  back: 'Rückblick',
  behind: (n) => `${n} ${n === 1 ? 'Zug' : 'Züge'} zurück`,
};

/** @param {string} lang a language tag @returns {AirWords} */
export function airWords(lang) {
  return /^de\b/i.test(lang) ? GERMAN : ENGLISH;
}

/** Whose move it is. @param {AirWords} words @param {string} fen */
export function toMove(words, fen) {
  return fen.split(' ')[1] === 'b' ? words.black : words.white;
}

/** Whether a question begins with whose move it is: that is not said twice. @param {AirWords} words @param {{question: string, fen: string}} challenge */
export function saysTurn(words, { question, fen }) {
  return question.toLowerCase().startsWith(toMove(words, fen).toLowerCase());
}

/**
 * What the strip tells in place of the game; null: of the game itself.
 *
 * @param {Board} board @param {Air | null} air
 * @param {import('./picture.js').Picture} picture
 * @param {AirWords} words
 * @returns {import('./board/strip.js').Told | null}
 */
export function inPlace(board, air, picture, words) {
  const steps = picture.steps.slice(0, picture.shown);
  const challenge = challengeOn(board, air);
  if (challenge) {
    const asked = picture.state === 'asked';
    const at = words.at(moveNumber(challenge.number));
    if (asked && saysTurn(words, challenge)) return { label: at[0].toUpperCase() + at.slice(1), note: '', steps, whole: true, last: true };
    const label = asked ? toMove(words, challenge.fen) : words.answer;
    return { label, note: asked ? at : '', steps, whole: true, last: true };
  }
  const explained = explainedOn(board, air);
  if (!explained || explained.live) return null;
  const { moves, name, way, ply } = explained;
  if (way === WAY.TEXT) {
    const played = board.plies.slice(ply, ply + 1);
    const note = played.length ? words.instead : words.unplayed;
    return { label: name || words.line, note, of: played, steps: moves, whole: true, last: false };
  }
  const behind = movesBehind(board.plies.length, ply);
  const note = behind ? words.behind(behind) : '';
  if (moves.length) return { label: name || words.line, note, steps, whole: false, last: true };
  return { label: words.back, note, steps: board.plies.slice(0, ply), whole: false, last: true };
}
