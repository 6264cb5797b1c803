// @ts-check
/** @typedef {import('../../lib/wire.js').Board} Board */
/** @typedef {import('../news.js').Notice} Notice */
import { timeText } from '../../lib/clock.js';
import { moveNumber } from '../../lib/san.js';
import { news } from '../news.js';
import { isOver } from '../words.js';

const SHORTEST_MS = 4000;
const LONGEST_MS = 10_000;
/** News older than this, wall time, is no news: a page that just came does not tell it. */
const FRESH_MS = 12_000;

/**
 * Notices is the one place that says something to the viewers in words. One
 * notice stands at a time, between four and ten seconds; silence of the feed
 * stands as long as it lasts. Times of display are wall time.
 */
export class Notices {
  /** @type {Notice | null} */ #current = null;
  #from = 0;
  #until = 0;
  /** Highest level heard of, by key. @type {Map<string, number>} */ #heard = new Map();
  /** @type {Notice[]} */ #queue = [];

  /**
   * @param {Board} board
   * @param {number} now show time
   * @param {number} wall the page's own monotonic milliseconds
   * @param {number} rate show time per wall time
   * @returns {{notice: Notice | null, until: number}} what stands now, and until when at least it needs no look
   */
  at(board, now, wall, rate) {
    this.#hear(board, now, rate);
    const silence = stale(board, now) ?? unreadable(board);
    if (silence) return this.#stand(silence, wall + (1000 - ((now - board.feed.since) % 1000)) / rate + 1);
    if (this.#current?.kind === 'stale' || this.#current?.kind === 'fault') this.#current = null;
    this.#shorten(board);
    if (this.#current && (wall >= this.#until || this.#outranked())) this.#current = null;
    if (!this.#current) this.#next(board, now, wall, rate);
    return { notice: this.#current, until: this.#until };
  }

  /** @param {Board} board @param {number} now @param {number} rate */
  #hear(board, now, rate) {
    for (const notice of news(board)) {
      const heard = this.#heard.get(notice.key);
      if (heard !== undefined && heard >= notice.level) continue;
      this.#heard.set(notice.key, notice.level);
      const at = heard === undefined ? notice.at : now;
      if ((now - at) / rate < FRESH_MS) this.#queue.push({ ...notice, at });
    }
  }

  /** @param {Notice} notice @param {number} until */
  #stand(notice, until) {
    this.#current = notice;
    this.#until = until;
    return { notice, until };
  }

  /** What is no longer true leaves as soon as it could be read; what is said as of now, at once. @param {Board} board */
  #shorten(board) {
    if (!this.#current || holds(this.#current, board)) return;
    const least = this.#current.kind === 'longThink' ? 0 : SHORTEST_MS;
    this.#until = Math.min(this.#until, this.#from + least);
  }

  /** The end of the game does not wait. */
  #outranked() {
    return this.#current?.kind !== 'result' && this.#queue.some((n) => n.kind === 'result');
  }

  /** @param {Board} board @param {number} now @param {number} wall @param {number} rate */
  #next(board, now, wall, rate) {
    this.#queue = this.#queue.filter((n) => holds(n, board) && (now - n.at) / rate < FRESH_MS);
    this.#queue.sort((a, b) => b.rank - a.rank || a.at - b.at);
    const notice = this.#queue.shift();
    if (!notice) return;
    const signs = notice.headline.length + notice.evidence.length;
    this.#from = wall;
    this.#stand(notice, wall + Math.min(LONGEST_MS, Math.max(SHORTEST_MS, 2500 + 90 * signs)));
  }
}

/** @param {Board} board @param {number} now @returns {Notice | null} */
function stale(board, now) {
  if (board.feed.state !== 'stale' || isOver(board)) return null;
  const headline = board.feed.since ? `No data for ${timeText(now - board.feed.since)}` : 'No data yet';
  const evidence = 'clocks held, position may be behind';
  return { kind: 'stale', key: 'stale', level: 0, headline, brief: headline, evidence, rank: 10, at: board.feed.since };
}

/** A move that cannot be played: the game has gone on, and this board has not. @param {Board} board @returns {Notice | null} */
function unreadable(board) {
  if (!board.fault || isOver(board)) return null;
  const last = board.plies[board.plies.length - 1];
  const headline = last ? `Waiting for move ${moveNumber(last.number + 1)}` : 'Waiting for the first move';
  return { kind: 'fault', key: 'fault', level: 0, headline, brief: headline, evidence: 'its entry cannot be read', rank: 10, at: 0 };
}

/** Whether a notice is still true. @param {Notice} notice @param {Board} board */
function holds(notice, board) {
  return news(board).some((n) => n.key === notice.key);
}
