// @ts-check
/** @typedef {import('./tellsizes.js').Size} Size */
import { svg } from './dom.js';
import { lasted } from './tellmap.js';
import { wide } from './tellsizes.js';
import { BASELINE } from './tellmarks.js';
import { LOOK, QUALITY } from './wire.js';

/** Thinks of this length carry their time, if the block is wide enough for it. */
const TIME_FROM_MS = 90_000;
/** What a block has beside its time, as a share of the type. */
const BESIDE = 0.4;

/**
 * The time on a long think, in the middle of its block; nothing where it does not fit.
 *
 * @param {import('./wire.js').Ply} ply @param {Size} size @param {number} top of the lane
 * @param {number} x0 @param {number} x1 @param {number} stepMs of the feed's readings
 */
export function timeOf(ply, size, top, x0, x1, stepMs) {
  const { time, lane, rest } = size;
  const thought = ply.look === LOOK.THINKING || ply.look === LOOK.UNSURE;
  if (!time || !thought || ply.quality === QUALITY.NONE || ply.spentMs < TIME_FROM_MS) return [];
  const text = lasted(ply, stepMs);
  if (wide(text, time) + time * BESIDE > x1 - x0 - rest) return [];
  const look = ply.look === LOOK.UNSURE ? 'tell-time hollow' : 'tell-time';
  const [x, y] = [(x0 + x1 - rest) / 2, top + lane / 2 + time * BASELINE];
  return [svg('text', { class: look, x, y, 'font-size': time }, text)];
}

/** A minute in the lanes. @param {number} x @param {Size} size @param {number[]} tops */
export function markOf(x, { lane }, tops) {
  return svg('path', { d: tops.map((y) => `M${x - 1} ${y}h2v${lane}h-2z`).join(''), fill: 'var(--ink)' });
}

/** A minute of the axis, between the lanes. @param {number} minute @param {number} x @param {Size} size @param {number[]} tops */
export function figureOf(minute, x, size, tops) {
  const y = tops[0] + size.lane + size.gap / 2 + size.axis * BASELINE;
  const look = minute ? 'tell-axis' : 'tell-axis first';
  return svg('text', { class: look, x, y, 'font-size': size.axis }, minute ? String(minute) : '0 min');
}
