// @ts-check
/** @typedef {import('./wire.js').Board} Board */
/** @typedef {import('./wire.js').Ply} Ply */
import { STEP, inStep, spentAt } from './clock.js';
import { isWhite } from './san.js';
import { QUALITY } from './wire.js';

const MINUTE = 60_000;

/** Lengths of game time a lane may show, smallest first. */
export const WINDOWS_MS = [8, 12, 16, 20, 24, 30, 36, 48, 60, 72, 96, 120, 150, 180, 240, 300, 360, 480].map((m) => m * MINUTE);

/** No game lasts longer. */
const LONGEST_MS = 100_000 * MINUTE;

/** At a press the head stands no further right than this share of the lane. */
export const HEAD_SHARE = 0.86;

/** All moves at their least width may take this share of the room before the head. */
export const HELP_SHARE = 0.75;

/** From this probability on a running think is drawn as a full block, as the relay draws one that has ended. */
export const SURE_THINKING = 0.9;

/** From this probability on a move may be one of thought: neither tick nor full block. */
const LIKELY_THINKING = 0.5;

/** From this level on time trouble is a fact that viewers see; level 1 is a forecast, for the panel. */
export const TROUBLE_SHOWS = 2;

/** Whether viewers see a side in time trouble. @param {import('./wire.js').Tell} tell */
export function inTrouble(tell) {
  return tell.trouble >= TROUBLE_SHOWS;
}

/** Steps of the axis, in minutes. */
const STEPS = [1, 2, 5, 10, 15, 30, 60, 120];

/**
 * A break: the plies from `from` up to, not including, `to` are left out, and
 * all their time has `width` pixels.
 *
 * @typedef {{from: number, to: number, width: number}} Gap
 */

/**
 * The game's time laid along a lane. Game time is what both sides have spent,
 * one after the other. One scale holds for all of it, but a move gets no less
 * than `least` pixels, and what lies in a break is pressed together; x() goes
 * through the same mapping, so an axis drawn with it stretches where moves were
 * helped and does not lie.
 */
export class Chart {
  /**
   * @param {number[]} spentMs of every ply in order
   * @param {number} windowMs game time the whole lane would show
   * @param {number} width of the lane in pixels
   * @param {number} least pixels a move gets at least
   * @param {Gap | null} [gap]
   */
  constructor(spentMs, windowMs, width, least, gap = null) {
    this.windowMs = windowMs;
    this.width = width;
    this.least = least;
    this.gap = gap && gap.from < gap.to && gap.to <= spentMs.length ? gap : null;
    /** Pixels per millisecond. */
    this.scale = width / windowMs;
    /** Game time at each joint, from 0. @type {number[]} */
    this.times = [0];
    for (const spent of spentMs) this.times.push(this.playedMs + Math.max(0, spent));
    /** Pixels at each joint. @type {number[]} */
    this.joints = [0];
    for (let i = 0; i < spentMs.length; i++) this.joints.push(this.played + this.#wide(i));
  }

  /** Game time of all plies. */
  get playedMs() {
    return this.times[this.times.length - 1];
  }

  /** Pixels of all plies. */
  get played() {
    return this.joints[this.joints.length - 1];
  }

  /** Game time in the break. */
  get goneMs() {
    return this.gap ? this.times[this.gap.to] - this.times[this.gap.from] : 0;
  }

  /** @param {number} i */
  #wide(i) {
    const spent = this.times[i + 1] - this.times[i];
    const { gap } = this;
    if (!gap || i < gap.from || i >= gap.to) return Math.max(this.least, spent * this.scale);
    return gap.width * (this.goneMs > 0 ? spent / this.goneMs : 1 / (gap.to - gap.from));
  }

  /** Whether a ply is left out. @param {number} i */
  isGone(i) {
    return this.gap !== null && i >= this.gap.from && i < this.gap.to;
  }

  /** Where the break is torn, null without one. @returns {[number, number] | null} */
  get tear() {
    return this.gap && [this.joints[this.gap.from], this.joints[this.gap.to]];
  }

  /** The same scale and break for other times. @param {number[]} spentMs */
  again(spentMs) {
    return new Chart(spentMs, this.windowMs, this.width, this.least, this.gap);
  }

  /** Pixels at a time after the last ply. @param {number} ms */
  after(ms) {
    return this.played + ms * this.scale;
  }

  /** Pixels at a game time. @param {number} ms */
  x(ms) {
    if (ms <= 0) return 0;
    if (ms >= this.playedMs) return this.after(ms - this.playedMs);
    let i = this.times.length - 2;
    while (this.times[i] > ms) i--;
    const [t0, t1] = [this.times[i], this.times[i + 1]];
    const [x0, x1] = [this.joints[i], this.joints[i + 1]];
    return x0 + ((ms - t0) / (t1 - t0)) * (x1 - x0);
  }
}

/**
 * The chart with the smallest window that keeps the head in its share, however
 * large that window gets.
 *
 * @param {number[]} spentMs
 * @param {number} runMs game time after the last ply
 * @param {number} width
 * @param {number} least
 */
export function fit(spentMs, runMs, width, least) {
  const holds = (/** @type {Chart} */ c) => c.after(runMs) <= width * HEAD_SHARE;
  let chart = new Chart(spentMs, WINDOWS_MS[0], width, least);
  for (const windowMs of WINDOWS_MS) {
    if (holds(chart)) break;
    chart = new Chart(spentMs, windowMs, width, least);
  }
  while (!holds(chart) && chart.windowMs < LONGEST_MS) chart = new Chart(spentMs, chart.windowMs * 2, width, least);
  return chart;
}

/**
 * The least width of a move: where there are many of them it shrinks to the
 * floor, or time would get no room.
 *
 * @param {number} plies
 * @param {number} width
 * @param {{least: number, floor: number}} size
 */
export function leastFor(plies, width, { least, floor }) {
  const room = (width * HEAD_SHARE * HELP_SHARE) / Math.max(1, plies);
  return Math.min(least, Math.max(floor, room));
}

/**
 * Where the axis has a mark; in a break it has none.
 *
 * @param {Chart} chart
 * @param {number} width of the lane
 * @param {number} apart pixels two marks are apart at least
 * @returns {{minute: number, x: number}[]}
 */
export function axis(chart, width, apart) {
  const step = STEPS.find((s) => s * MINUTE * chart.scale >= apart) ?? STEPS[STEPS.length - 1];
  /** @type {{minute: number, x: number}[]} */
  const marks = [];
  // Without a single time there is nothing to measure by.
  if (chart.playedMs === 0 && chart.times.length > 1) return marks;
  const [from, to] = chart.tear ?? [Infinity, Infinity];
  for (let minute = 0; chart.x(minute * MINUTE) < width; minute += step) {
    const x = chart.x(minute * MINUTE);
    if (x <= from || x > to) marks.push({ minute, x });
  }
  return marks;
}

/**
 * What stands behind the last ply: the move now being thought about.
 *
 * side: whose clock runs, or ''. runMs: its time on this move. dotsMs: time
 * after that of which nobody knows whose it was. over: the game has ended. vague:
 * when this move began is known to half a minute at best, so its time is no figure.
 * exact: its time is as read, not estimated.
 *
 * @typedef {{side: 'white' | 'black' | '', look: string, runMs: number, dotsMs: number, held: boolean, over: boolean, vague: boolean, exact: boolean}} Head
 * @param {Board} board
 * @param {number} now show time
 * @param {number | null} lostAt since when the page has not heard from the relay, if that long
 * @returns {Head}
 */
export function head(board, now, lostAt) {
  const clocks = [board.white.clock, board.black.clock];
  const side = board.running === 'white' || board.running === 'black' ? board.running : '';
  const over = board.result !== '*' && board.result !== '';
  /** @type {Head} */
  const still = { side: '', look: 'none', runMs: 0, dotsMs: 0, held: false, over, vague: false, exact: true };
  if (over) return still;
  const isHeld = (/** @type {import('./wire.js').Clock} */ c) => board.frozen || c.state === 'held';
  if (clocks.some(isHeld)) {
    const silent = Math.max(...clocks.map((c) => c.spentMs + Math.max(0, now - c.at) * Number(isHeld(c))));
    return { ...still, dotsMs: silent, held: true };
  }
  if (!side) return still;
  if (board[side].clock.quality === QUALITY.NONE) return { ...still, held: true };
  const runMs = spentAt(board[side].clock, lostAt ?? now);
  const dotsMs = lostAt === null ? 0 : Math.max(0, now - lostAt);
  const vague = board[side].clock.unsureMs >= STEP.MINUTE / 2;
  const exact = board[side].clock.quality !== QUALITY.ESTIMATED;
  return { ...still, vague, exact, side, look: runningLook(board[side].tell), runMs, dotsMs, held: lostAt !== null };
}

/** How the running move is drawn. @param {import('./wire.js').Tell} tell */
export function runningLook(tell) {
  if (inTrouble(tell)) return 'trouble';
  if (tell.verdict === 'preparation') return tell.thinking < LIKELY_THINKING ? 'preparation' : 'unsure';
  if (tell.verdict === 'thinking') return tell.thinking >= SURE_THINKING ? 'thinking' : 'unsure';
  return tell.verdict === 'noclock' ? 'none' : 'unsure';
}

/** How long a think was, in seconds only where they are known. @param {Ply} ply @param {number} stepMs of the feed's readings */
export function lasted(ply, stepMs) {
  const known = ply.quality !== QUALITY.ESTIMATED && stepMs < STEP.MINUTE;
  return inStep(ply.spentMs, known ? STEP.SECOND : STEP.MINUTE);
}

/** @param {Ply} ply */
export function sideOf(ply) {
  return isWhite(ply.number) ? 'white' : 'black';
}
