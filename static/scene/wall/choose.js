// @ts-check
/** @typedef {import('../../lib/wire.js').Board} Board */
/** @typedef {import('../news.js').Notice} Notice */
/** @typedef {import('../pulse.js').Moment} Moment */
import { news } from '../news.js';
import { isHeld, isOver } from '../words.js';

/** A board once lifted stays so long at least, wall time. */
export const SHORTEST_MS = 15_000;
/** A board that burns gives way to another that burns as hot after so long, wall time. */
export const TURN_MS = 45_000;
/** What happened, such as a new move, burns so long; what lasts, such as time trouble, burns as long as it lasts. Wall time. */
export const FRESH_MS = 30_000;

/**
 * How hot it burns, by the kind of the news. What can end the game at any moment comes before what
 * has just ended one, that before a turn of the game, and a think under way comes last: it may
 * take long.
 *
 * @type {Record<string, {heat: number, lasts?: boolean}>}
 */
const HEAT = {
  timeTrouble: { heat: 50, lasts: true },
  result: { heat: 40 },
  leftPreparation: { heat: 30 },
  firstThink: { heat: 30 },
  novelty: { heat: 20 },
  longThink: { heat: 10, lasts: true },
};

/**
 * Why a board burns: the news, how hot, and until when in wall milliseconds if nothing changes.
 *
 * @typedef {{news: Notice, heat: number, until: number}} Fire
 */

/**
 * The hottest reason to look at a board; null: it is calm. A board whose clocks nobody knows does
 * not burn.
 *
 * @param {Board} board
 * @param {Pick<Moment, 'now' | 'wall' | 'rate'>} moment
 * @returns {Fire | null}
 */
export function fireOf(board, { now, wall, rate }) {
  if (isHeld(board, null)) return null;
  /** @type {Fire | null} */
  let hottest = null;
  for (const n of news(board)) {
    const kind = HEAT[n.kind];
    if (!kind) continue;
    const until = kind.lasts ? Infinity : wall + FRESH_MS - (now - n.at) / rate;
    const fire = { news: n, heat: kind.heat + n.level, until };
    if (until > wall && (!hottest || fire.heat > hottest.heat)) hottest = fire;
  }
  return hottest;
}

/**
 * Chooser decides which board of a wall is lifted. The hottest is; of two as hot the one that was
 * lifted longer ago, or never, then the one with the newer reason, then the one that stands first.
 * The one lifted stays for SHORTEST_MS whatever happens; then it gives way to a hotter one at once,
 * to one as hot after TURN_MS, and goes back when it is calm.
 */
export class Chooser {
  /** @type {number | null} */ #current = null;
  #since = -Infinity;
  /** When a board was lifted last, wall time. @type {Map<number, number>} */ #lifted = new Map();
  /** Since when a board is known to be over, show time. @type {Map<number, number>} */ #over = new Map();

  /**
   * @param {Board[]} boards of the wall, in its order
   * @param {Pick<Moment, 'now' | 'wall' | 'rate'>} moment
   * @param {boolean} [quiet] no board burns, and the one that was lifted goes back at once
   * @returns {{board: number | null, why: Notice | null, until: number}} the board to lift, why it burns if it still does,
   *   and the wall time at which to ask again though nothing has changed
   */
  at(boards, moment, quiet = false) {
    const { wall } = moment;
    const fires = new Map(boards.map((b) => this.#asEnded(b)).map((b) => [b.board, quiet ? null : fireOf(b, moment)]));
    if (quiet) this.#current = null;
    if (this.#current !== null && !fires.has(this.#current)) this.#current = null;
    const next = this.#next(fires, wall);
    if (next !== this.#current) [this.#current, this.#since] = [next, wall];
    if (next !== null) this.#lifted.set(next, wall);
    const turns = next === null ? [] : [this.#since + SHORTEST_MS, this.#since + TURN_MS];
    const ends = [...fires.values()].flatMap((f) => f?.until ?? []);
    const until = Math.min(...[...turns, ...ends].filter((t) => t > wall));
    return { board: next, why: (next !== null && fires.get(next)?.news) || null, until };
  }

  /** A game ends once, whatever else comes of it later. @param {Board} board @returns {Board} */
  #asEnded(board) {
    if (!isOver(board)) this.#over.delete(board.board);
    else if (!this.#over.has(board.board)) this.#over.set(board.board, board.at);
    return { ...board, at: this.#over.get(board.board) ?? board.at };
  }

  /** @param {Map<number, Fire | null>} fires @param {number} wall */
  #next(fires, wall) {
    const current = this.#current;
    if (current !== null && wall < this.#since + SHORTEST_MS) return current;
    const own = current === null ? 0 : (fires.get(current)?.heat ?? 0);
    const rival = this.#hottestBut(current, fires);
    if (rival && (rival.fire.heat > own || (rival.fire.heat === own && wall >= this.#since + TURN_MS))) return rival.board;
    return own > 0 ? current : null;
  }

  /** @param {number | null} but @param {Map<number, Fire | null>} fires */
  #hottestBut(but, fires) {
    /** @type {{board: number, fire: Fire} | null} */
    let best = null;
    for (const [board, fire] of fires) {
      if (fire && board !== but && (!best || this.#before({ board, fire }, best))) best = { board, fire };
    }
    return best;
  }

  /** @param {{board: number, fire: Fire}} a @param {{board: number, fire: Fire}} b */
  #before(a, b) {
    if (a.fire.heat !== b.fire.heat) return a.fire.heat > b.fire.heat;
    const [ago, than] = [this.#lifted.get(a.board) ?? -Infinity, this.#lifted.get(b.board) ?? -Infinity];
    return ago !== than ? ago < than : a.fire.news.at > b.fire.news.at;
  }
}
