// @ts-check
/** Squares of a board as they are reached by keyboard, and as they are told. */
/** @typedef {import('../lib/wire.js').Mark} Mark */
import { MEANING } from '../lib/wire.js';

const FILES = 'abcdefgh';
/** @type {Record<string, string>} */
const MEN = { k: 'king', q: 'queen', r: 'rook', b: 'bishop', n: 'knight', p: 'pawn' };

/** Marks in words. @type {Record<string, string>} */
const MARKED = {
  [MEANING.LOOK]: 'to look at', [MEANING.PLAN]: 'a plan', [MEANING.DANGER]: 'a threat', [MEANING.WEAK]: 'weak', [MEANING.GUARD]: 'guarded',
};

/** The squares row by row, from the upper left. @param {boolean} turned Black at the bottom @returns {string[][]} */
export function rows(turned) {
  const files = [...FILES];
  const ranks = [8, 7, 6, 5, 4, 3, 2, 1];
  if (turned) files.reverse();
  if (turned) ranks.reverse();
  return ranks.map((rank) => files.map((file) => `${file}${rank}`));
}

/** Steps of the arrow keys: columns and rows as seen. @type {Record<string, [number, number]>} */
const STEPS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

/**
 * The square that a key leads to from another; the same at the edge, null when the key leads nowhere.
 *
 * @param {string} square
 * @param {string} key as a browser names it
 * @param {boolean} turned
 */
export function neighbour(square, key, turned) {
  const step = STEPS[key];
  if (!step) return null;
  const grid = rows(turned);
  const y = grid.findIndex((row) => row.includes(square));
  const x = grid[y]?.indexOf(square) ?? -1;
  return grid[y + step[1]]?.[x + step[0]] ?? square;
}

/** "white knight"; "" for no man. @param {string | undefined} letter as in a FEN */
export function manWords(letter) {
  const man = MEN[letter?.toLowerCase() ?? ''];
  return man && letter ? `${letter === letter.toUpperCase() ? 'white' : 'black'} ${man}` : '';
}

/**
 * A square as a screen reader says it: "white knight on f3", "e4, empty".
 *
 * @param {string} square
 * @param {Map<string, string>} men by square
 * @param {{held?: string, targets?: Set<string>, marks?: Mark[]}} [more] what is picked up, where it may go, what is marked
 */
export function squareWords(square, men, { held = '', targets = new Set(), marks = [] } = {}) {
  const man = manWords(men.get(square));
  const words = [man ? `${man} on ${square}` : `${square}, empty`];
  if (square === held) words.push('picked up');
  if (targets.has(square)) words.push(man ? 'can be taken' : 'can be gone to');
  for (const m of marks) if (m.to === square && MARKED[m.kind]) words.push(`marked: ${MARKED[m.kind]}${m.from ? ` from ${m.from}` : ''}`);
  return words.join(', ');
}

/** The square at a point of the board; "" beside it. @param {number} x share of the width, 0 to 1 @param {number} y @param {boolean} turned */
export function squareAt(x, y, turned) {
  return rows(turned)[Math.floor(y * 8)]?.[Math.floor(x * 8)] ?? '';
}
