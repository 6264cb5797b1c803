// @ts-check
import { svg } from './dom.js';
import { word } from './language.js';
import { MARK } from './wire.js';

/**
 * Outlines on a 24 by 24 grid: a diamond is a reading put right, a triangle one
 * that does not add up or cannot be read, an arrow a clock that rises.
 *
 * @type {Record<string, string>}
 */
const OUTLINES = {
  [MARK.MENDED]: 'M12 2.5L21.5 12L12 21.5L2.5 12z',
  [MARK.DOUBTFUL]: 'M12 3L22 20.5H2zM12 9.5V15',
  [MARK.UNREAD]: 'M12 3L22 20.5H2zM12 9.5V15',
  rising: 'M12 21V4M4.5 11.5L12 4L19.5 11.5',
};

/** @type {Record<string, string>} */
const WORDS = {
  [MARK.MENDED]: 'reading mended',
  [MARK.DOUBTFUL]: 'reading doubtful',
  [MARK.UNREAD]: 'reading missing',
  rising: 'clock rises',
};

/** The outline of a mark, null without one. @param {string} mark */
export function outline(mark) {
  const d = OUTLINES[mark];
  return d ? svg('path', { d, fill: 'none', stroke: 'currentColor', 'stroke-width': 3, 'stroke-linejoin': 'round' }) : null;
}

/** A mark as a picture of its own, null without one. @param {string} mark */
export function markSign(mark) {
  const path = outline(mark);
  return path && svg('svg', { class: 'mark-sign', viewBox: '0 0 24 24', role: 'img', 'aria-label': word(WORDS[mark]) }, path);
}
