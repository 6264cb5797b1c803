// @ts-check
/** @typedef {import('./wire.js').Board} Board */

/**
 * Put a board frame onto the board held so far. Returns the new board, or null
 * when the frame follows on a revision this page does not hold.
 *
 * @param {Board | undefined} held
 * @param {Board} frame
 * @returns {Board | null}
 */
export function merge(held, frame) {
  if (frame.base === 0) return frame;
  if (!held || held.rev !== frame.base) return null;
  // The same moves stay the same list, so that what draws them can tell.
  if (frame.keep === held.plies.length && frame.plies.length === 0) return { ...frame, plies: held.plies };
  return { ...frame, plies: [...held.plies.slice(0, frame.keep), ...frame.plies] };
}
