// @ts-check
/** Where a board stands to the reference, in words. */
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').Known} Known */
/** @typedef {import('../lib/wire.js').KnownGame} KnownGame */
/** @typedef {import('../lib/wire.js').KnownMove} KnownMove */
/** @typedef {import('../lib/wire.js').Novelty} Novelty */
/** @typedef {import('../lib/wire.js').Reference} Reference */
import { isWhite, moveNumber, resultText, thousands } from '../lib/san.js';
import { games, isAttached, reach } from '../surface/reference.js';

/** So few games, and each is worth naming; as rareGames in relay/knownalerts.go. */
export const RARE = 5;
/** So many plies after the new move it is no news; as noveltyPlies in relay/knownalerts.go. */
export const NEWS_PLIES = 6;
/** A move played in fewer finished games is not said to have done best. */
export const BEST_FROM = 10;

export const STAND = Object.freeze({
  NONE: 'none', // nothing is looked up
  WAITING: 'waiting', // not answered yet
  KNOWN: 'known',
  NEW: 'new', // the game has just left the reference
  LEFT: 'left', // it left it a while ago
  BACK: 'back', // it left it, and other moves led to a known position
  BEYOND: 'beyond', // deeper than the reference holds
  APART: 'apart', // it was never in it
});

/** @param {Board} board @param {Reference | null} reference */
export function standOf(board, reference) {
  if (!reference || !isAttached(reference)) return STAND.NONE;
  const { known, novelty, plies } = board;
  if (novelty) {
    if (known && known.games > 0) return STAND.BACK;
    const over = board.result !== '*' && board.result !== '';
    const since = (plies[plies.length - 1]?.number ?? novelty.ply) - novelty.ply;
    return over || since >= NEWS_PLIES ? STAND.LEFT : STAND.NEW;
  }
  if (known) return known.games > 0 ? STAND.KNOWN : STAND.APART;
  return plies.length > reference.depth ? STAND.BEYOND : STAND.WAITING;
}

/**
 * The answer in one line: a word, the move it is about, and what makes it so.
 *
 * @param {Board} board
 * @param {Reference} reference
 * @returns {{word: string, ply: number, san: string, text: string}} ply 0: about no move
 */
export function answer(board, reference) {
  const { known, novelty } = board;
  const say = (/** @type {string} */ word, /** @type {string} */ text) => ({ word, ply: 0, san: '', text });
  switch (standOf(board, reference)) {
    case STAND.NEW:
      return { ...newMove(board), word: novelty?.all ? 'New among those counted:' : 'New:', text: whyNew(/** @type {Novelty} */ (novelty)) };
    case STAND.LEFT:
      return { ...newMove(board), word: 'Left the reference with', text: `${games(novelty?.before.games ?? 0)} had come that far` };
    case STAND.BACK:
      return say('Back in the reference:', `${games(known?.games ?? 0)} came here by other moves`);
    case STAND.KNOWN:
      return say(...knownWords(/** @type {Known} */ (known), board.plies.length === 0));
    case STAND.BEYOND:
      return say('Beyond the reference:', `it ends after ${reach(reference)}`);
    case STAND.APART:
      return say('Not in the reference:', apart(/** @type {Known} */ (known)));
  }
  return say('', 'not looked up yet');
}

/** @param {Known} known @param {boolean} start no move has been played @returns {[string, string]} */
function knownWords(known, start) {
  const reached = `${games(known.games)} reached this position`;
  if (start) return ['Start:', `${games(known.games)} began here`];
  return known.games <= RARE ? ['Rare:', `only ${reached}`] : ['Not new:', reached];
}

/** @param {Novelty} novelty */
function whyNew({ all, before }) {
  if (all > 0) return `${games(before.games)} came that far; ${notCounted(all)} ${all === 1 ? 'has' : 'have'} it`;
  return before.games === 1 ? 'the one game that came that far went on otherwise' : `${games(before.games)} came that far, none played it`;
}

/** A position no counted game reached, in a game that never was in the reference. @param {Known} known */
function apart(known) {
  if (known.all > 0) return `none of those counted reached this position; ${notCounted(known.all)} did`;
  return 'this game began from another position than its games';
}

/** "3 games that are not counted". @param {number} n */
export function notCounted(n) {
  return n === 1 ? 'one game that is not counted' : `${games(n)} that are not counted`;
}

/** The move with which the game left the reference. @param {Board} board */
export function newMove({ novelty, plies }) {
  const ply = novelty?.ply ?? 0;
  return { ply, san: plies.find((p) => p.number === ply)?.san ?? '' };
}

/**
 * What the part has to tell more of: a position, the ply to come there, and
 * whether it is the one before the new move.
 *
 * @param {Board} board
 * @param {Reference | null} reference
 * @returns {{known: Known, ply: number, before: boolean} | null}
 */
export function subject(board, reference) {
  const { known, novelty } = board;
  switch (standOf(board, reference)) {
    case STAND.NEW:
    case STAND.LEFT:
      return novelty && { known: novelty.before, ply: novelty.ply, before: true };
    case STAND.BACK:
    case STAND.KNOWN:
      return known && { known, ply: nextPly(board.fen), before: false };
  }
  return null;
}

/** The number of the ply to come, as Ply.number. @param {string} fen */
export function nextPly(fen) {
  const [, side = 'w', , , , move = '1'] = fen.split(' ');
  return 2 * Math.max(1, Number(move) || 1) - (side === 'b' ? 0 : 1);
}

/** "12 …" before a move of Black, "12" before one of White. @param {number} ply */
export function numbered(ply) {
  return moveNumber(ply) + (isWhite(ply) ? '' : ' …');
}

/**
 * How games ended, in words that stand beside their sign. Games without a result
 * are told only where there are some.
 *
 * @param {{games: number, white: number, draws: number, black: number}} counts
 * @returns {{sign: 'white' | 'draw' | 'black' | 'open', games: number, text: string}[]}
 */
export function endings({ games: all, white, draws, black }) {
  const open = all - white - draws - black;
  /** @type {ReturnType<typeof endings>} */ const list = [
    { sign: 'white', games: white, text: `White won ${thousands(white)}` },
    { sign: 'draw', games: draws, text: `drawn ${thousands(draws)}` },
    { sign: 'black', games: black, text: `Black won ${thousands(black)}` },
  ];
  return open > 0 ? [...list, { sign: 'open', games: open, text: `no result ${thousands(open)}` }] : list;
}

/**
 * The move that took the largest share of the points for the side playing it; ""
 * where too few games tell, or two did equally well.
 *
 * @param {KnownMove[]} moves
 * @param {boolean} white
 */
export function didBest(moves, white) {
  const told = moves.filter((m) => m.white + m.draws + m.black >= BEST_FROM);
  const share = (/** @type {KnownMove} */ m) => ((white ? m.white : m.black) + m.draws / 2) / (m.white + m.draws + m.black);
  const [first, second] = [...told].sort((a, b) => share(b) - share(a));
  return first && second && share(first) > share(second) ? first.san : '';
}

/**
 * Who played a move: the best rated of them, by name where the game of the
 * highest ratings is theirs, and when it was last seen.
 *
 * @param {KnownMove} m
 * @param {boolean} white
 * @returns {{name: string, rating: string, year: string}} "" for what is not known
 */
export function playedBy(m, white) {
  const rating = white ? m.example?.whiteRating : m.example?.blackRating;
  const name = (white ? m.example?.white : m.example?.black) ?? '';
  const theirs = m.bestRating > 0 && rating === m.bestRating ? name : '';
  return { name: theirs, rating: m.bestRating ? String(m.bestRating) : '', year: m.lastYear ? String(m.lastYear) : '' };
}

/** "½–½, Velmarin Spring Open 2019", the year once. @param {KnownGame} game */
export function gameFacts({ event, year, result }) {
  const when = year && !event.includes(String(year)) ? String(year) : '';
  return { result: resultText(result) || 'no result', event: [event, when].filter(Boolean).join(' ') };
}
