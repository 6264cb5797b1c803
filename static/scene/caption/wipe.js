// @ts-check
/**
 * Left and right edge of a plate on the stage.
 *
 * @typedef {{left: number, right: number}} Box
 * @typedef {{from: string, to: string}} Clip values of clip-path
 */

/** Above and below the plate nothing is cut: some letters reach out. */
const OUT = -40;
/** By so much two plates overlap where they meet: else the camera picture shows through the seam. */
const OVERLAP = 2;

/**
 * A plate comes from its edge along the line of reading. Where another one is, its front wipes
 * over it, so that at every moment one of the two covers the picture.
 *
 * @param {Box | null} old the plate that goes
 * @param {Box} next
 * @param {boolean} rtl read from right to left
 * @returns {{old: Clip, next: Clip}}
 */
export function wipe(old, next, rtl) {
  const left = Math.min(old?.left ?? next.left, next.left);
  const right = Math.max(old?.right ?? next.right, next.right);
  const [start, end] = rtl ? [right, left] : [left, right];
  const behind = (/** @type {number} */ front) => (rtl ? clip(front - next.left, OUT) : clip(OUT, next.right - front));
  const before = (/** @type {number} */ front) => {
    if (!old) return '';
    return rtl ? clip(OUT, old.right - front - OVERLAP) : clip(front - old.left - OVERLAP, OUT);
  };
  return { old: { from: before(start), to: before(end) }, next: { from: behind(start), to: behind(end) } };
}

/** A plate without a follower goes back into its edge. @param {Box} box @param {boolean} rtl @returns {Clip} */
export function leave(box, rtl) {
  const width = box.right - box.left;
  return { from: clip(OUT, OUT), to: rtl ? clip(width, OUT) : clip(OUT, width) };
}

/** @param {number} left @param {number} right how much is cut there */
function clip(left, right) {
  return `inset(${OUT}px ${right}px ${OUT}px ${left}px)`;
}
