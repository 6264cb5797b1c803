// @ts-check
/**
 * Which places of a game the rail shows: as many as there is room for, up to the live
 * one, or else with the desk's place in the middle.
 *
 * @param {number} last the live place; the start is 0
 * @param {number} current where the desk stands
 * @param {number} room how many there is room for, at least 1
 * @returns {number[]}
 */
export function railWindow(last, current, room) {
  const most = Math.max(0, last + 1 - room);
  const from = current > most ? most : Math.min(most, Math.max(0, current - Math.floor(room / 2)));
  return Array.from({ length: Math.min(room, last + 1) }, (_, i) => from + i);
}

/**
 * The place whose end lies nearest to a point of the tell line.
 *
 * @param {number[]} joints pixels of each place
 * @param {number} x
 */
export function nearest(joints, x) {
  return joints.reduce((best, at, i) => (Math.abs(at - x) < Math.abs(joints[best] - x) ? i : best), 0);
}
