// @ts-check
import { word } from './language.js';

const NAMES = { k: 'king', q: 'queen', r: 'rook', b: 'bishop', n: 'knight', p: 'pawn' };

/** More squares than this changed at once is a cut: castling changes four. */
const MOST_CHANGED = 6;

/**
 * The placement field of a FEN as a map from square to piece letter, White in
 * capitals. Bad input gives what could be read.
 *
 * @param {string} fen a whole FEN or its first field
 * @returns {Map<string, string>}
 */
export function pieces(fen) {
  /** @type {Map<string, string>} */
  const map = new Map();
  placement(fen)
    .split('/')
    .slice(0, 8)
    .forEach((row, i) => {
      let file = 0;
      for (const sign of row) {
        if (/[1-8]/.test(sign)) file += Number(sign);
        else if (/[kqrbnp]/i.test(sign) && file < 8) map.set('abcdefgh'[file++] + (8 - i), sign);
      }
    });
  return map;
}

/** The first field of a FEN. @param {string} fen */
export function placement(fen) {
  return fen.split(' ')[0];
}

/**
 * What to do to one set of pieces to get another: which slide, which go, which
 * appear. A promoted pawn slides from its square and changes on arrival.
 *
 * @typedef {{from: string, to: string, piece: string}} Slide
 * @typedef {{slides: Slide[], gone: string[], fresh: {square: string, piece: string}[], cut: boolean}} Change
 * @param {Map<string, string>} before
 * @param {Map<string, string>} after
 * @returns {Change}
 */
export function change(before, after) {
  const squares = new Set([...before.keys(), ...after.keys()]);
  const changed = [...squares].filter((s) => before.get(s) !== after.get(s));
  const left = changed.filter((s) => before.has(s));
  const fresh = changed.filter((s) => after.has(s)).map((square) => ({ square, piece: after.get(square) ?? '' }));
  /** @type {Slide[]} */
  const slides = [];
  for (const same of [equal, promoted]) match(same, left, fresh, slides, before);
  return { slides, gone: left, fresh, cut: changed.length > MOST_CHANGED };
}

/**
 * Take every pair that is the same piece out of left and fresh.
 *
 * @param {(from: string, to: string, toSquare: string) => boolean} same
 * @param {string[]} left
 * @param {{square: string, piece: string}[]} fresh
 * @param {Slide[]} slides
 * @param {Map<string, string>} before
 */
function match(same, left, fresh, slides, before) {
  for (const { square, piece } of [...fresh]) {
    const from = left.find((s) => s !== square && same(before.get(s) ?? '', piece, square));
    if (!from) continue;
    slides.push({ from, to: square, piece });
    left.splice(left.indexOf(from), 1);
    fresh.splice(
      fresh.findIndex((f) => f.square === square),
      1,
    );
  }
}

/** @param {string} from @param {string} to */
function equal(from, to) {
  return from === to;
}

/** @param {string} from @param {string} to @param {string} square */
function promoted(from, to, square) {
  return (from === 'P' && /[QRBN]/.test(to) && square[1] === '8') || (from === 'p' && /[qrbn]/.test(to) && square[1] === '1');
}

/**
 * The position in words, for whoever hears the page instead of seeing it.
 *
 * @param {string} fen
 */
export function spoken(fen) {
  const map = pieces(fen);
  return `${word('White')}: ${army(map, 'KQRBNP')}. ${word('Black')}: ${army(map, 'kqrbnp')}.`;
}

/** @param {Map<string, string>} map @param {string} letters */
function army(map, letters) {
  /** @type {string[]} */
  const words = [];
  for (const letter of letters) {
    const squares = [...map].filter(([, p]) => p === letter).map(([s]) => s);
    const name = NAMES[/** @type {keyof typeof NAMES} */ (letter.toLowerCase())];
    if (squares.length) words.push(`${word(name + (squares.length > 1 ? 's' : ''))} ${squares.sort().join(' ')}`);
  }
  return words.join(', ') || word('none');
}
