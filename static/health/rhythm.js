// @ts-check
/** @typedef {import('../lib/wire.js').Beat} Beat */

/** Show time a rhythm covers, milliseconds; the relay keeps as much. */
export const WINDOW_MS = 5 * 60_000;

/**
 * @typedef {object} Trouble time in which nothing good came
 * @property {number} from show time
 * @property {number} to show time
 * @property {boolean} silent whether it lasted longer than the feed's limit
 */

/**
 * Where nothing came: longer than the limit between two good answers, or from a
 * fault to the next good answer.
 *
 * @param {Beat[]} beats oldest first
 * @param {number} lastGood show time of the last good answer, 0 if none
 * @param {number} now show time
 * @param {number} staleMs limit
 * @returns {Trouble[]} oldest first, none overlapping
 */
export function troubles(beats, lastGood, now, staleMs) {
  const start = now - WINDOW_MS;
  /** @type {Trouble[]} */ const found = [];
  // Before the first beat nothing is known, unless the last good answer lies there.
  let good = lastGood > 0 && lastGood <= (beats[0]?.at ?? now) ? lastGood : 0;
  let fault = 0;
  const close = (/** @type {number} */ to, /** @type {boolean} */ answered) => {
    const silent = good > 0 && to - good > staleMs;
    if (silent) found.push({ from: good, to, silent });
    else if (fault > 0) found.push({ from: fault, to, silent: good === 0 && !answered && to - fault > staleMs });
  };
  let lastFault = 0;
  for (const beat of withLatest(beats, lastGood)) {
    if (beat.kind === 'fault') {
      fault ||= beat.at;
      lastFault = beat.at;
      continue;
    }
    close(beat.at, true);
    good = beat.at;
    fault = 0;
  }
  const quiet = good > 0 ? now - good > staleMs : fault > 0 && now - fault > staleMs;
  close(quiet ? now : Math.max(fault, lastFault), false);
  return found.filter((t) => t.to > start).map((t) => ({ ...t, from: Math.max(t.from, start) }));
}

/** The beats and the last good answer, which may be newer than they. @param {Beat[]} beats @param {number} lastGood @returns {Beat[]} */
function withLatest(beats, lastGood) {
  const known = beats.some((b) => b.kind !== 'fault' && b.at >= lastGood);
  if (known || lastGood <= (beats[0]?.at ?? Infinity)) return beats;
  return [...beats, { at: lastGood, kind: 'same' }].sort((a, b) => a.at - b.at);
}

/**
 * Ticks as one path. Its x is milliseconds after `base`, its y goes from 0 at
 * the top to 10 at the ground.
 *
 * @param {Beat[]} beats
 * @param {'same' | 'new'} kind short ticks for "same", tall ones for "new"
 * @param {number} base show time
 */
export function ticks(beats, kind, base) {
  const top = kind === 'new' ? 1 : 6;
  return beats.filter((b) => b.kind === kind).map((b) => `M${b.at - base} 10V${top}`).join('');
}

/** The rhythm in a sentence, for those who do not see it. @param {Beat[]} beats @param {Trouble[]} found */
export function rhythmWords(beats, found) {
  const n = (/** @type {string} */ kind) => beats.filter((b) => b.kind === kind).length;
  const silent = found.filter((t) => t.silent);
  const gaps = silent.map((t) => `${Math.floor((t.to - t.from) / 1000)} s`).join(', ');
  const words = [`${n('same') + n('new')} answers, ${n('new')} with something new`, `${n('fault')} faults`];
  return `Last five minutes: ${[...words, gaps ? `nothing came for ${gaps}` : 'no silence'].join('; ')}.`;
}

/**
 * When some board followed the feed, as one path: x in milliseconds after `start`, at the
 * top. What lies outside of the time shown is left out.
 *
 * @param {import('../lib/wire.js').Span[]} spans @param {number} start show time @param {number} now show time
 */
export function followedPath(spans, start, now) {
  const shown = spans.map(({ from, to }) => ({ from: Math.max(from, start), to: Math.min(to || now, now) })).filter((s) => s.to > s.from);
  return shown.map((s) => `M${Math.round(s.from - start)} 0.5H${Math.round(s.to - start)}`).join('');
}
