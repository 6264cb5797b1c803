// @ts-check
/** @typedef {import('./wire.js').Board} Board */
/** @typedef {import('./tellmap.js').Chart} Chart */
/** @typedef {import('./tellsizes.js').Size} Size */
import { svg } from './dom.js';
import { isWhite, moveNumber } from './san.js';
import { sideOf } from './tellmap.js';
import { wide } from './tellsizes.js';

/** Two labels of one lane stand apart by this share of their type. */
const APART = 0.5;

/**
 * A move written at its press. x is the middle of the text.
 *
 * @typedef {{i: number, lane: number, text: string, x: number}} Label
 */

/**
 * Moves written beside their lanes, for the working surfaces.
 *
 * @param {Board} board
 * @param {Chart} chart
 * @param {object} place
 * @param {(side: 'white' | 'black') => number} place.lane
 * @param {Size} place.size
 * @param {number[]} place.tops upper edge of each lane
 * @param {[number, number] | null} place.flag what the flag covers above the upper lane
 * @returns {SVGElement[]}
 */
export function joints(board, chart, { lane, size, tops, flag }) {
  const written = labels(board, chart, { lane, type: size.joints, taken: [flag ? [flag] : [], []] });
  return written.flatMap((label) => jointText(label, size, tops, chart.joints[label.i + 1]));
}

/**
 * The moves that can be written at their joints, each beside its own lane. Not
 * all have room: the new move and the last one go first, then the longest.
 *
 * @param {Board} board
 * @param {Chart} chart
 * @param {object} place
 * @param {(side: 'white' | 'black') => number} place.lane
 * @param {number} place.type size of the type
 * @param {[number, number][][]} place.taken what each lane's row has no room for, from left to right
 * @returns {Label[]} in the order of the moves
 */
export function labels(board, chart, { lane, type, taken }) {
  const rows = taken.map((row) => [...row]);
  /** @type {Label[]} */ const placed = [];
  for (const i of byWorth(board)) {
    if (chart.isGone(i)) continue;
    const ply = board.plies[i];
    const text = `${moveNumber(ply.number)}${isWhite(ply.number) ? '' : '…'} ${ply.san}`;
    const half = wide(text, type) / 2;
    const x = Math.min(Math.max(chart.joints[i + 1], half), chart.width - half);
    const row = rows[lane(sideOf(ply))];
    if (row.some(([from, to]) => x - half - type * APART < to && x + half + type * APART > from)) continue;
    row.push([x - half, x + half]);
    placed.push({ i, lane: lane(sideOf(ply)), text, x });
  }
  return placed.sort((a, b) => a.i - b.i);
}

/** Indices of the plies, those first that most want to be written. @param {Board} board */
function byWorth({ plies, novelty }) {
  const first = (/** @type {number} */ i) => Number(plies[i].number === novelty?.ply) * 2 + Number(i === plies.length - 1);
  return plies.map((_, i) => i).sort((a, b) => first(b) - first(a) || plies[b].spentMs - plies[a].spentMs || b - a);
}

/** A move at its joint, with a thin line to it. @param {Label} label @param {Size} size @param {number[]} tops @param {number} joint */
function jointText({ lane, text, x }, size, tops, joint) {
  const type = size.joints;
  const edge = lane === 0 ? tops[0] : tops[1] + size.lane;
  const y = lane === 0 ? edge - 6 : edge + 5 + type * 0.75;
  const leader = { x: joint - 1.5, y: lane === 0 ? edge - 4 : edge, width: 1.5, height: 4, fill: 'var(--quiet)' };
  return [svg('rect', leader), svg('text', { class: 'tell-joint', x, y, 'font-size': type }, text)];
}
