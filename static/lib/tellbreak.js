// @ts-check
import { Chart, HEAD_SHARE, HELP_SHARE, WINDOWS_MS, fit, leastFor } from './tellmap.js';

const MINUTE = 60_000;

/**
 * What a layout needs of a size.
 *
 * @typedef {{least: number, floor: number, tear: [number, number]}} Measures
 */

/** A game whose head leaves its share of the lane in this window breaks: a finer scale is worth more than its middle. */
export const LONGEST_WHOLE_MS = 120 * MINUTE;

/** A lane at least so wide keeps the longer time behind the break. */
const WIDE = 600;
const KEEPS_MS = { wide: 60 * MINUTE, narrow: 30 * MINUTE };
/** Or so many plies, if they come first and there is room for them. */
const KEEPS_PLIES = 60;
/** The beginning of a game, where it is prepared, keeps up to this share of the lane before the break. */
const START_SHARE = 0.1;
/** Behind a break that has just been made or moved this share of the room is taken; the rest is for what comes. */
const FILL = 0.75;
/** But not fewer plies than these, however long they took. */
const FEW_PLIES = 8;
/** Less is not worth a break. */
const GONE_PLIES = 4;
/** A running think is looked at this often, so that a page that comes later breaks at the same place. */
const STEP_MS = MINUTE;

/**
 * The game along a lane: whole as long as that is legible, then with a break.
 * The break stays where it is until the room behind it is used up, and moves on
 * by a good piece then. Where it is follows from the times alone: every page,
 * whenever it came, draws the same.
 *
 * @param {number[]} spentMs of every ply in order
 * @param {number} runMs game time after the last ply
 * @param {number} width of the lane
 * @param {Measures} size
 * @returns {Chart}
 */
export function layout(spentMs, runMs, width, size) {
  const all = runMs > 0 ? [...spentMs, runMs] : spentMs;
  const whole = wholeFits(all, width, size);
  if (whole) return chartOf(spentMs, width, { windowMs: whole, least: leastFor(all.length, width, size), gap: null });
  const state = new Breaking(all, width, size).last();
  if (state) return chartOf(spentMs, width, state);
  return fit(spentMs, runMs, width, leastFor(all.length, width, size));
}

/**
 * The window in which a whole game fits; null: in none that is legible.
 *
 * @param {number[]} all @param {number} width @param {Measures} size
 */
function wholeFits(all, width, size) {
  const most = width * HEAD_SHARE;
  const least = leastFor(all.length, width, size);
  if (all.length > mostPlies(width, size)) return null;
  const fits = (/** @type {number} */ w) => sum(all, 0, all.length, least, width / w) <= most;
  return WINDOWS_MS.find((w) => w <= LONGEST_WHOLE_MS && fits(w)) ?? null;
}

/** So many plies leave time its room. @param {number} width @param {Measures} size */
function mostPlies(width, size) {
  return Math.floor((width * HEAD_SHARE * HELP_SHARE) / size.floor);
}

/**
 * Where a break is and which scale holds.
 *
 * @typedef {{windowMs: number, least: number, gap: import('./tellmap.js').Gap | null}} State
 */

/** @param {number[]} spentMs @param {number} width @param {State} state */
function chartOf(spentMs, width, { windowMs, least, gap }) {
  return new Chart(spentMs, windowMs, width, least, gap);
}

/** Breaking plays a game again, to find where its break has come to stand. */
class Breaking {
  #all;
  #width;
  #size;
  /** @type {State | null} */ #state = null;
  /** Pixels behind the break, up to the ply looked at. */ #tail = 0;
  #room = 0;

  /** @param {number[]} all @param {number} width @param {Measures} size */
  constructor(all, width, size) {
    this.#all = all;
    this.#width = width;
    this.#size = size;
  }

  last() {
    for (let n = this.#firstTooMany(); n <= this.#all.length; n++) this.#grow(n);
    return this.#state;
  }

  /** The shortest beginning of the game that no window holds. */
  #firstTooMany() {
    let [few, many] = [0, this.#all.length];
    while (many - few > 1) {
      const n = (few + many) >> 1;
      if (wholeFits(this.#all.slice(0, n), this.#width, this.#size)) few = n;
      else many = n;
    }
    return many;
  }

  /** The last of n plies gets longer and longer. @param {number} n */
  #grow(n) {
    const spent = this.#all[n - 1];
    for (let ms = STEP_MS; ms < spent; ms += STEP_MS) this.#look(n, ms);
    this.#look(n, spent);
    if (this.#state) this.#tail += px(spent, this.#state.least, this.#width / this.#state.windowMs);
  }

  /** Move the break if n plies, the last of them so long, do not fit any more. @param {number} n @param {number} ms */
  #look(n, ms) {
    const state = this.#state;
    if (state && this.#tail + px(ms, state.least, this.#width / state.windowMs) <= this.#room) return;
    const now = [...this.#all.slice(0, n - 1), ms];
    if (!state && wholeFits(now, this.#width, this.#size)) return;
    const found = this.#search(now);
    if (!found) return;
    this.#state = found.state;
    this.#room = found.room;
    const { least, windowMs, gap } = found.state;
    this.#tail = sum(now, gap?.to ?? 0, n - 1, least, this.#width / windowMs);
  }

  /** A break behind which there is room again; the first one only for a finer scale than the whole would have. @param {number[]} now */
  #search(now) {
    const [width, size] = [this.#width, this.#size];
    const coarsest = this.#state || now.length > mostPlies(width, size) ? Infinity : fit(now, 0, width, leastFor(now.length, width, size)).windowMs;
    for (const windowMs of WINDOWS_MS) {
      if (windowMs >= coarsest) return null;
      const found = this.#at(now, windowMs);
      if (found) return found;
    }
    return null;
  }

  /** The break at one scale; null if it does not help. @param {number[]} now @param {number} windowMs */
  #at(now, windowMs) {
    const scale = this.#width / windowMs;
    const room = this.#width * (HEAD_SHARE - START_SHARE) - this.#size.tear[0];
    const keep = Math.min(KEEPS_PLIES, Math.floor((HELP_SHARE * FILL * room) / this.#size.floor));
    if (keep < FEW_PLIES) return null;
    const least = Math.min(this.#size.least, Math.max(this.#size.floor, (HELP_SHARE * FILL * room) / keep));
    const from = startOf(now, this.#width * START_SHARE, least, scale);
    const to = tailOf(now, keep, this.#width >= WIDE ? KEEPS_MS.wide : KEEPS_MS.narrow);
    if (to - from < GONE_PLIES || sum(now, to, now.length, least, scale) > FILL * room) return null;
    return { state: { windowMs, least, gap: { from, to, width: this.#size.tear[0] } }, room };
  }
}

/** How many plies fit into the room at the beginning. @param {number[]} all @param {number} room @param {number} least @param {number} scale */
function startOf(all, room, least, scale) {
  let n = 0;
  for (let at = px(all[0], least, scale); n < all.length && at <= room; at += px(all[n], least, scale)) n++;
  return n;
}

/** The first ply of what is kept at the end. @param {number[]} all @param {number} plies @param {number} timeMs */
function tailOf(all, plies, timeMs) {
  let at = all.length;
  const enough = (/** @type {number} */ n, /** @type {number} */ ms) => n >= plies || (n >= FEW_PLIES && ms >= timeMs);
  for (let ms = 0; at > 0 && !enough(all.length - at, ms); at--) ms += all[at - 1];
  return at;
}

/** @param {number} spent @param {number} least @param {number} scale */
function px(spent, least, scale) {
  return Math.max(least, Math.max(0, spent) * scale);
}

/** @param {number[]} all @param {number} from @param {number} to @param {number} least @param {number} scale */
function sum(all, from, to, least, scale) {
  let x = 0;
  for (let i = from; i < to; i++) x += px(all[i], least, scale);
  return x;
}
