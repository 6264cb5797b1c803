// @ts-check
/** What scenes say of what the desk puts on the air, in each language that a show can have. */

const ENGLISH = {
  white: 'White to move',
  black: 'Black to move',
  at: (/** @type {number} */ move) => `move ${move}`,
  hint: (/** @type {number} */ n) => `Hint ${n}`,
  over: 'Time is up',
  answer: 'The answer',
  line: 'Side line',
  back: 'Earlier in the game',
  behind: (/** @type {number} */ n) => `${n} ${n === 1 ? 'move' : 'moves'} behind`,
};

/** @type {typeof ENGLISH} */
const GERMAN = {
  white: 'Weiß am Zug',
  black: 'Schwarz am Zug',
  at: (move) => `${move}. Zug`,
  hint: (n) => `Tipp ${n}`,
  over: 'Die Zeit ist um',
  answer: 'Die Lösung',
  line: 'Variante',
  back: 'Rückblick',
  behind: (n) => `${n} ${n === 1 ? 'Zug' : 'Züge'} zurück`,
};

/** @param {string} lang a language tag @returns {typeof ENGLISH} */
export function airWords(lang) {
  return /^de\b/i.test(lang) ? GERMAN : ENGLISH;
}

/** Whose move it is. @param {typeof ENGLISH} words @param {string} fen */
export function toMove(words, fen) {
  return fen.split(' ')[1] === 'b' ? words.black : words.white;
}
