// @ts-check
/**
 * Measures of the tell line in pixels, one row a place. All places share one
 * grammar: what a size has no room for it leaves out (0 or null), it never
 * means something else.
 *
 * @typedef {object} Size
 * @property {number} lane height of a lane
 * @property {number} gap between the lanes; the axis stands in it
 * @property {number} over room above the lanes, for flag and signs
 * @property {number} under room below the lanes
 * @property {number} least width a move gets while there is room
 * @property {number} floor width a move gets at least, whatever comes
 * @property {number} tick width of a press in preparation
 * @property {number} rest between a block and what follows
 * @property {[number, number]} lines speed lines: pitch and thickness
 * @property {[number, number]} hatch of time trouble: pitch and dark band
 * @property {[number, number]} dots without a reading: pitch and radius
 * @property {[number, number]} head bar of the present: thickness, and how far it stands over the lane
 * @property {number} pole of a novelty: its thickness
 * @property {[number, number, number] | null} flag on the pole: width, height, type
 * @property {number} sign of a mended or doubtful reading: its size
 * @property {[number, number]} tear a break in time: its width, and the type of its length (0: smaller than it could be read, and left out)
 * @property {number} time type of the minutes on a long think
 * @property {number} axis type of the minutes of the axis
 * @property {number} now type of the time on this move
 * @property {number} joints type of the moves at the joints
 */

/** What a small size leaves out. */
const SMALL = { rest: 1, now: 0, joints: 0, axis: 0 };

/** @type {Record<string, Size>} */
export const SIZES = {
  air: { lane: 40, gap: 24, over: 28, under: 28, least: 6, floor: 4, tick: 5, rest: 2, lines: [8, 3], hatch: [12, 5], dots: [10, 1.6], head: [4, 6], pole: 4, flag: [66, 26, 20], sign: 16, tear: [64, 24], time: 25, axis: 18, now: 32, joints: 0 },
  third: { lane: 48, gap: 32, over: 32, under: 32, least: 7, floor: 5, tick: 6, rest: 2, lines: [8, 3], hatch: [12, 5], dots: [10, 1.8], head: [5, 6], pole: 5, flag: [74, 29, 23], sign: 18, tear: [72, 27], time: 29, axis: 22, now: 38, joints: 0 },
  lifted: { lane: 24, gap: 6, over: 12, under: 12, least: 5, floor: 3, tick: 4, rest: 2, lines: [6, 2], hatch: [8, 3.5], dots: [8, 1.3], head: [4, 3], pole: 4, flag: null, sign: 10, tear: [52, 19], time: 17, axis: 0, now: 0, joints: 0 },
  wall: { ...SMALL, lane: 18, gap: 6, over: 2, under: 2, least: 4, floor: 3, tick: 3, lines: [5, 2], hatch: [7, 3], dots: [6, 1.1], head: [3, 2], pole: 3, flag: null, sign: 9, tear: [46, 18], time: 0 },
  desk: { lane: 40, gap: 20, over: 26, under: 24, least: 6, floor: 4, tick: 5, rest: 2, lines: [8, 3], hatch: [12, 5], dots: [10, 1.6], head: [4, 4], pole: 3, flag: [48, 20, 15], sign: 14, tear: [56, 16], time: 20, axis: 15, now: 24, joints: 15 },
  deskSmall: { ...SMALL, lane: 24, gap: 16, over: 22, under: 20, least: 4, floor: 3, tick: 3, lines: [6, 2], hatch: [8, 3.5], dots: [7, 1.2], head: [3, 3], pole: 3, flag: [38, 15, 13], sign: 10, tear: [44, 14], time: 15, axis: 13, joints: 13 },
  recap: { lane: 48, gap: 24, over: 30, under: 28, least: 6, floor: 4, tick: 5, rest: 2, lines: [8, 3], hatch: [12, 5], dots: [10, 1.6], head: [4, 4], pole: 4, flag: [60, 24, 19], sign: 16, tear: [64, 19], time: 24, axis: 18, now: 0, joints: 18 },
  panel: { ...SMALL, lane: 20, gap: 4, over: 18, under: 3, least: 4, floor: 3, tick: 3, lines: [5, 2], hatch: [7, 3], dots: [6, 1.1], head: [3, 3], pole: 3, flag: [38, 15, 13], sign: 10, tear: [44, 14], time: 14 },
  phone: { ...SMALL, lane: 22, gap: 18, over: 18, under: 3, least: 4, floor: 3, tick: 3, lines: [6, 2], hatch: [8, 3.5], dots: [7, 1.2], head: [3, 3], pole: 3, flag: [38, 15, 13], sign: 10, tear: [44, 14], time: 14, axis: 13 },
  card: { ...SMALL, lane: 13, gap: 4, over: 3, under: 3, least: 4, floor: 3, tick: 3, lines: [4, 1.5], hatch: [7, 3], dots: [4.5, 1], head: [2, 3], pole: 3, flag: null, sign: 8, tear: [24, 0], time: 0 },
  filter: { ...SMALL, lane: 9, gap: 2, over: 2, under: 2, least: 3, floor: 2, tick: 2, lines: [4, 1.5], hatch: [5, 2], dots: [4.5, 1], head: [2, 2], pole: 2, flag: null, sign: 0, tear: [10, 0], time: 0 },
};

/** Share of the lane, before it is made a number of speed lines. */
const LOW = 0.68;

/** Type is so wide, as a share of its size: a figure, and what stands between figures. */
const FIGURE = 0.56;
const BETWEEN = 0.28;

/** About how wide a time is when written, never less than it is. @param {string} text @param {number} type */
export function wide(text, type) {
  return [...text].reduce((sum, c) => sum + type * (/[:.\s\u00a0]/.test(c) ? BETWEEN : FIGURE), 0);
}

/**
 * Height of what was played from preparation: as high as so many speed lines,
 * about two thirds of the lane. A block of thought fills the lane, so that the two
 * differ without colour, however narrow they get.
 *
 * @param {Size} size
 */
export function lowOf({ lane, lines: [pitch, line] }) {
  const between = pitch - line;
  return Math.round((LOW * lane + between) / pitch) * pitch - between;
}
