// @ts-check
/** @typedef {import('../lib/wire.js').LogLine} LogLine */
import { groupOf } from './notes.js';

/** Lines kept in the page. */
export const LINES_MOST = 500;

/** @typedef {LogLine & {missed?: number}} Line missed: so many lines before this one never came here */
/** @typedef {{board: number, group: string}} LogFilter board 0 and group "" let everything through */

/** Logbook keeps the newest lines of the show log. */
export class Logbook {
  #run = '';
  #newest = 0;
  /** Newest first. @type {Line[]} */ lines = [];

  /** A connection began. Another run of the relay numbers its lines anew. @param {string} run @returns {boolean} whether it is another one */
  welcome(run) {
    if (run === this.#run) return false;
    [this.#run, this.#newest, this.lines] = [run, 0, []];
    return true;
  }

  /** Take lines, oldest first; those that are here already come again after a reconnection. @param {LogLine[]} items */
  receive(items) {
    for (const item of items) {
      if (item.seq <= this.#newest) continue;
      const missed = this.#newest > 0 ? item.seq - this.#newest - 1 : 0;
      this.lines = [missed > 0 ? { ...item, missed } : item, ...this.lines];
      this.#newest = item.seq;
    }
    this.lines = this.lines.slice(0, LINES_MOST);
  }

  /** @param {LogFilter} filter */
  view(filter) {
    return this.lines.filter((line) => passes(line, filter));
  }
}

/** What concerns the whole show passes every board. @param {LogLine} line @param {LogFilter} filter */
export function passes(line, filter) {
  const board = filter.board === 0 || line.board === 0 || line.board === filter.board;
  return board && (filter.group === '' || groupOf(line.kind) === filter.group);
}

/**
 * Steady decides which lines stand on the screen: the newest, but while
 * somebody reads further down, those that stood there, so that nothing moves.
 */
export class Steady {
  /** @type {Line[]} */ #shown = [];

  /**
   * @param {Line[]} lines that pass the filter, newest first
   * @param {boolean} held somebody reads further down
   * @returns {{shown: Line[], waiting: number}} waiting: new lines that are not shown yet
   */
  next(lines, held) {
    const top = this.#shown[0]?.seq;
    if (!held || top === undefined) this.#shown = lines;
    return { shown: this.#shown, waiting: top === undefined ? 0 : lines.filter((line) => line.seq > this.#shown[0].seq).length };
  }
}
