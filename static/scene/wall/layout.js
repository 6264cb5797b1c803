// @ts-check
import { SIZES } from '../../lib/tellsizes.js';

/**
 * Where the boards of a wall stand. Pixels of the stage.
 *
 * @typedef {{x: number, y: number, w: number, h: number}} Box
 */

/** The graphics-safe area of the stage: EBU R 95, 5 % from every edge. */
export const AREA = Object.freeze({ x: 96, y: 54, w: 1728, h: 972 });
export const MOST = 12;
const GAP = 24;
/** What lies between the parts of a card, and around them. */
const INSET = 4;
/** Names, clocks and number of a board beside it: narrower they would be cut, or small
    beside their board (share of it); wider they would stand apart. */
const SIDE = Object.freeze({ least: 172, share: 0.62, most: 330 });

/**
 * A card is a board with its players: beside each other, or the players below. square: pixels a
 * square; head: height of the words above; row: height of a player's row of a tall card; clock, name: sizes
 * of type; words: whether the tell stands there as a word too; line: size of the tell line.
 *
 * @typedef {{form: 'beside' | 'tall', w: number, h: number, square: number, head: number, row: number, clock: number, name: number, words: boolean,
 *   line: string}} Card
 * @typedef {{cells: Box[], card: Card, lifted: Box | null, large: Card | null}} Layout
 */

/** From so high and so wide the players' side has room for the tell in words. */
const WORDS = Object.freeze({ w: 200, h: 320 });

/** Columns and rows, by the number of boards, beside a lifted board of that width. @type {Record<number, [number, number, number]>} */
const BESIDE_LIFTED = {
  1: [1, 2, 732], 2: [1, 2, 732], 3: [2, 2, 732], 4: [2, 2, 732], 5: [2, 3, 732], 6: [2, 3, 732],
  7: [2, 4, 732], 8: [2, 4, 732], 9: [3, 3, 552], 10: [3, 4, 552], 11: [3, 4, 552], 12: [3, 4, 552],
};
/** The same where none is lifted. @type {Record<number, [number, number]>} */
const ALONE = {
  1: [1, 1], 2: [2, 1], 3: [3, 1], 4: [2, 2], 5: [3, 2], 6: [3, 2], 7: [3, 3], 8: [3, 3], 9: [3, 3], 10: [4, 3], 11: [4, 3], 12: [4, 3],
};

/** Tell lines by their card, keys of SIZES: of a wide one, of a small one, of one in a wall of many. */
const LINES = Object.freeze({ large: 'lifted', small: 'wall', least: 'card' });

/**
 * The places of a wall. They depend on nothing but the number of boards, so that none moves.
 *
 * @param {number} count of boards, 1 to MOST
 * @param {boolean} lift whether one may be lifted
 * @returns {Layout}
 */
export function layout(count, lift) {
  const n = Math.min(MOST, Math.max(1, count));
  const [columns, rows, width] = lift ? BESIDE_LIFTED[n] : [...ALONE[n], 0];
  const room = width ? AREA.w - width - GAP : AREA.w;
  const most = { w: Math.floor((room - GAP * (columns - 1)) / columns), h: Math.floor((AREA.h - GAP * (rows - 1)) / rows) };
  const card = better(beside(most), tall(most, 34));
  const large = width ? tall({ w: width, h: AREA.h }, 60) : null;
  const lifted = large && { x: AREA.x, y: AREA.y + AREA.h - large.h, w: large.w, h: large.h };
  return { cells: cells(n, columns, card, lift), card, lifted, large };
}

/** @param {number} n @param {number} columns @param {Card} card @param {boolean} lift */
function cells(n, columns, card, lift) {
  const rows = Math.ceil(n / columns);
  // Beside a lifted board the cells keep to the right edge, else they spread over the whole width.
  const pitch = lift || columns === 1 ? card.w + GAP : (AREA.w - card.w) / (columns - 1);
  const left = lift ? AREA.x + AREA.w - columns * card.w - (columns - 1) * GAP : AREA.x;
  const top = AREA.y + AREA.h - rows * card.h - (rows - 1) * GAP;
  return Array.from({ length: n }, (_, i) => ({
    x: Math.round(left + (i % columns) * pitch),
    y: top + Math.floor(i / columns) * (card.h + GAP),
    w: card.w,
    h: card.h,
  }));
}

/** Where little is won by it, a wall keeps to the card that says more. @param {Card} wide @param {Card} high */
function better(wide, high) {
  return high.square >= 1.05 * wide.square ? high : wide;
}

/** Board at the left, players at its right, the tell line below. @param {{w: number, h: number}} most @returns {Card} */
function beside(most) {
  const line = most.h < 280 ? LINES.least : LINES.small;
  const wide = most.w - 5 * INSET;
  const square = Math.floor(Math.min(most.h - height(line) - 3 * INSET, wide - SIDE.least, wide / (1 + SIDE.share)) / 8);
  const side = Math.min(SIDE.most, most.w - 8 * square - 5 * INSET);
  const clock = within(44, Math.floor(side * 0.24), Math.min(72, square * 1.6));
  const h = full(8 * square + height(line) + 3 * INSET, most.h);
  const words = 8 * square >= WORDS.h && side >= WORDS.w;
  return { form: 'beside', w: 8 * square + 5 * INSET + side, h, square, words, head: 0, row: 0, clock, name: within(25, Math.round(clock * 0.55), 36), line };
}

/** Words above the board, the players below it, the tell line below them. @param {{w: number, h: number}} most @param {number} head @returns {Card} */
function tall(most, head) {
  const clock = within(44, Math.round(most.w * 0.093), 68);
  const row = clock + 2;
  const line = most.w >= 500 ? LINES.large : LINES.small;
  const others = head + 2 * row + height(line) + 2 * INSET;
  const square = Math.floor(Math.min(most.h - others, most.w - 2 * INSET) / 8);
  const w = Math.min(most.w, 8 * square + 40);
  const h = full(8 * square + others, most.h);
  return { form: 'tall', w, h, square, words: w >= 700, head: head + h - 8 * square - others, row, clock, name: within(26, Math.round(clock * 0.54), 36), line };
}

/** Less than a pixel a square is no reason to end short of the others. @param {number} h @param {number} most */
function full(h, most) {
  return most - h < 8 ? most : h;
}

/** @param {string} line a key of SIZES */
function height(line) {
  const { lane, gap, over, under } = SIZES[line];
  return 2 * lane + gap + over + under;
}

/** @param {number} least @param {number} n @param {number} most */
function within(least, n, most) {
  return Math.round(Math.max(least, Math.min(n, most)));
}
