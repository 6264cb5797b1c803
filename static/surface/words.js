// @ts-check
/** Words of the working surfaces: ages, counts, what a lost line means. */

import { timeText } from '../lib/clock.js';

const SECOND = 1000;
const MINUTE = 60 * SECOND;
const HOUR = 60 * MINUTE;

/** An age short enough to glance at: "6 s", "12 min", "3 h". @param {number} ms */
export function age(ms) {
  if (ms < 100 * SECOND) return `${Math.max(0, Math.floor(ms / SECOND))} s`;
  return ms < 100 * MINUTE ? `${Math.floor(ms / MINUTE)} min` : `${Math.floor(ms / HOUR)} h`;
}

/** How long ago something happened: "just now", "2:10 ago". @param {number} ms */
export function ago(ms) {
  return ms < 5 * SECOND ? 'just now' : `${timeText(ms)} ago`;
}

/** "1 board", "3 boards". @param {number} n @param {string} one @param {string} [many] */
export function count(n, one, many = `${one}s`) {
  return `${n} ${n === 1 ? one : many}`;
}

/** How fast show time runs, "" when as fast as the wall. @param {number} rate */
export function rehearsal(rate) {
  if (rate === 1) return '';
  return `rehearsal, runs ${Number(rate.toFixed(2))} × as fast`;
}

/**
 * What a page says while it does not hear from the relay: the news, and an age
 * that runs on behind it.
 *
 * @param {number | null} silentMs how long ago the line was lost, wall time; null if it never stood
 * @returns {[string, string]}
 */
export function lostWords(silentMs) {
  if (silentMs === null) return ['Relay not reached, trying again; nothing to show yet', ''];
  return ['Relay not reached, trying again; what you see is old', `, from ${timeText(silentMs)} ago`];
}

/** The same as a headline. @param {number | null} silentMs as for lostWords */
export function lostHeadline(silentMs) {
  return `Relay not reached: ${silentMs === null ? 'nothing to show yet' : `this is how it was ${age(silentMs)} ago`}`;
}

/** How many boards, and how many of them play. @param {{result: string}[]} boards */
export function boardsWords(boards) {
  if (boards.length === 0) return 'no board yet';
  const running = boards.filter((b) => b.result === '*' || b.result === '').length;
  return `${count(boards.length, 'board')}, ${running === boards.length && running > 0 ? 'all' : running} running`;
}
