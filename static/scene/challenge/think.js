// @ts-check
/** The time for thinking, as it is measured out. */

/** Steps that people count time in, seconds. */
const UNITS = [1, 2, 5, 10, 15, 30, 60, 120, 300, 600];
/** Marks are at least so many pixels apart, and long ones. */
const APART = { short: 22, long: 150 };

/**
 * What has gone of the time for thinking, and what is left of it, in whole seconds as people count
 * down: the last one is full until it is over.
 *
 * @param {{asked: number, ends: number}} challenge @param {number} now show time
 * @returns {{share: number, left: number, over: boolean, wait: number}} left: seconds. wait: show milliseconds until it is another
 */
export function thought({ asked, ends }, now) {
  const rest = ends - Math.max(asked, now);
  if (rest <= 0) return { share: 1, left: 0, over: true, wait: Infinity };
  const left = Math.ceil(rest / 1000);
  return { share: Math.max(0, 1 - (left * 1000) / (ends - asked)), left, over: false, wait: rest - (left - 1) * 1000 };
}

/**
 * Marks along the time for thinking, counted from its end, so that the last ones are those that
 * viewers count: how far along each stands, and whether it is a long one.
 *
 * @param {number} length of the time, milliseconds @param {number} width pixels
 * @returns {{share: number, long: boolean}[]}
 */
export function marks(length, width) {
  const per = width / (length / 1000);
  const short = UNITS.find((unit) => unit * per >= APART.short) ?? 600;
  const long = UNITS.find((unit) => unit * per >= APART.long && unit % short === 0) ?? Infinity;
  const all = [];
  for (let left = short; left < length / 1000; left += short) all.push({ share: 1 - (left * 1000) / length, long: left % long === 0 });
  return all.reverse();
}
