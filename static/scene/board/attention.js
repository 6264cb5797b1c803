// @ts-check
/**
 * One line for the viewers. key: the condition it tells of. level: a higher one
 * of the same condition is news again. rank: the higher goes first. at: show
 * time it became true.
 *
 * @typedef {{kind: string, key: string, level: number, headline: string, evidence: string, rank: number, at: number}} Notice
 *
 * What stands now. state: it is no news but says that the picture is behind.
 * until: wall time at which it ends by itself; Infinity: not before something changes.
 *
 * @typedef {{notice: Notice, state: boolean, from: number, until: number}} Standing
 *
 * now: show time. wall: the page's own monotonic milliseconds. rate: show time per wall time.
 *
 * @typedef {{now: number, wall: number, rate: number}} When
 */

/** How long a notice stands, wall time: so long it takes to be read, and then it has been. */
export const SHORTEST_MS = 4000;
export const LONGEST_MS = 10_000;
/** News older than this, wall time, is no news: a page that just came does not tell it. */
export const FRESH_MS = 12_000;
/** Notices that wait: a board has hardly more conditions at once, and no more could be told while they are fresh. */
export const QUEUE_MOST = 8;
/** Conditions remembered as told, so that a page left open does not grow. */
export const KNOWN_MOST = 60;

/**
 * Attention decides what is said to the viewers, and when. One notice stands at
 * a time; of those that wait the weightiest goes first, if it is still true, in
 * the words of that moment. Between them goes what says that the picture itself
 * is behind: that is a state and no news, and stands as long as it lasts. It is
 * pure: the time is given.
 */
export class Attention {
  /** @type {Standing | null} */ #stands = null;
  /** Highest level heard of and level told last, by key. @type {Map<string, {heard: number, told: number}>} */ #known = new Map();
  /** @type {Notice[]} */ #queue = [];

  /** How many notices wait, and how many conditions are known. */
  get load() {
    return { waiting: this.#queue.length, known: this.#known.size };
  }

  /**
   * @param {{news: Notice[], state: Notice | null, over: Notice, quiet: boolean}} what news: all that is
   *   true now. over: says that a state has ended. quiet: news is not told, neither now nor later
   * @param {When} when
   * @returns {Standing | null}
   */
  look({ news, state, over, quiet }, when) {
    this.#hear(news, quiet, when);
    this.#age(news, state, over, when.wall);
    if (quiet && this.#stands && !this.#stands.state) this.#stands = null;
    if (!this.#stands) this.#stands = state ? { notice: state, state: true, from: when.wall, until: Infinity } : this.#next(when);
    return this.#stands;
  }

  /** @param {Notice[]} news @param {boolean} quiet @param {When} when */
  #hear(news, quiet, { now, rate }) {
    for (const notice of news) {
      const known = this.#known.get(notice.key);
      if (known && known.heard >= notice.level) continue;
      this.#remember(notice.key, { heard: notice.level, told: known?.told ?? -1 });
      const at = known ? now : notice.at;
      if ((now - at) / rate >= FRESH_MS) continue;
      this.#queue = [...this.#queue.filter((n) => n.key !== notice.key), { ...notice, at }];
    }
    if (quiet) this.#queue = [];
    this.#queue = this.#queue.flatMap((n) => asNow(n, news) ?? []).filter((n) => (now - n.at) / rate < FRESH_MS && this.#isNew(n));
    this.#queue.sort((a, b) => b.rank - a.rank || a.at - b.at);
    this.#queue.splice(QUEUE_MOST);
  }

  /** A condition that got worse and then as good as when it was told is no news. @param {Notice} notice */
  #isNew({ key, level }) {
    return level > (this.#known.get(key)?.told ?? -1);
  }

  /** @param {string} key @param {{heard: number, told: number}} levels */
  #remember(key, levels) {
    this.#known.delete(key); // to the end: the first are forgotten first
    this.#known.set(key, levels);
    for (const old of this.#known.keys()) {
      if (this.#known.size <= KNOWN_MOST) return;
      this.#known.delete(old);
    }
  }

  /** What stands ends, or is to end sooner. @param {Notice[]} news @param {Notice | null} state @param {Notice} over @param {number} wall */
  #age(news, state, over, wall) {
    const s = this.#stands;
    if (!s) return;
    const read = s.from + SHORTEST_MS;
    if (s.state) {
      // Its words would be wrong now, and shorter than this nothing is read.
      this.#stands = state ? { ...s, notice: state, until: Infinity } : { ...s, notice: over, until: read };
    } else if (state || !asNow(s.notice, news) || (this.#queue[0]?.rank ?? -1) > s.notice.rank) {
      this.#stands = { ...s, until: Math.min(s.until, read) };
    }
    if (this.#stands && wall >= this.#stands.until) this.#stands = null;
  }

  /** @param {When} when @returns {Standing | null} */
  #next({ wall }) {
    const notice = this.#queue.shift();
    if (!notice) return null;
    this.#remember(notice.key, { heard: this.#known.get(notice.key)?.heard ?? notice.level, told: notice.level });
    const signs = notice.headline.length + notice.evidence.length;
    return { notice, state: false, from: wall, until: wall + Math.min(LONGEST_MS, Math.max(SHORTEST_MS, 2500 + 90 * signs)) };
  }
}

/** A notice in the words of now, of a condition that got better, too; null: it is no longer true. @param {Notice} notice @param {Notice[]} news @returns {Notice | null} */
function asNow(notice, news) {
  const now = news.find((n) => n.key === notice.key);
  return now ? { ...now, at: notice.at } : null;
}
