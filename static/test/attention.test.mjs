// How long a notice stands, 4 to 10 seconds, and that there is one at a time, is asked for by our
// own specification. Held here over random worlds with a time of their own.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Attention, FRESH_MS, KNOWN_MOST, LONGEST_MS, QUEUE_MOST, SHORTEST_MS } from '../scene/board/attention.js';

/** Pseudo-random numbers below 1, the same for a seed: the generator "mulberry32", from memory. */
function random(seed) {
  return () => {
    seed = (seed + 0x6d2b79f5) | 0;
    let t = Math.imul(seed ^ (seed >>> 15), 1 | seed);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

const STATE = { kind: 'stale', key: 'stale', level: 0, headline: 'silent', evidence: '', rank: 10, at: 0 };
const OVER = { ...STATE, key: 'over', headline: 'goes on' };

/** What becomes true and stops being so; each condition has rank and length of its own. */
class World {
  #next = 0;
  news = [];
  state = null;
  quiet = false;
  /** Highest level so far and when it was reached, by key. */
  highest = new Map();
  raisedAt = new Map();

  constructor(seed) {
    this.random = random(seed);
  }
  step(now) {
    const r = this.random;
    if (r() < 0.3) {
      const words = 'x'.repeat(Math.floor(r() * 140));
      this.news.push({ kind: 'k', key: `c${this.#next++}`, level: 2, headline: 'h', evidence: words, rank: Math.floor(r() * 5), at: now });
    }
    if (r() < 0.15) this.news = this.news.filter(() => r() < 0.6);
    if (r() < 0.1) this.news = this.news.map((n) => (r() < 0.3 ? { ...n, level: n.level + 1, evidence: `${n.evidence}!` } : n));
    if (r() < 0.05) this.news = this.news.map((n) => (n.level > 2 ? { ...n, level: n.level - 1 } : n));
    if (r() < 0.04) this.state = this.state ? null : STATE;
    if (r() < 0.03) this.quiet = !this.quiet;
    for (const n of this.news) if (n.level > (this.highest.get(n.key) ?? 0)) this.#raise(n, now);
  }
  #raise({ key, level }, now) {
    this.highest.set(key, level);
    this.raisedAt.set(key, now);
  }
}

const id = (n) => `${n.key} ${n.level}`;

/** Run a world and hand every look to see. */
function run(seed, see) {
  const world = new World(seed);
  const attention = new Attention();
  const rate = [1, 4][seed % 2];
  let wall = 0;
  let change = 0;
  for (let i = 0; i < 600; i++) {
    const got = attention.look({ news: world.news, state: world.state, over: OVER, quiet: world.quiet }, { now: wall * rate, wall, rate });
    see({ world, wall, rate, got, attention });
    const due = got?.until ?? Infinity;
    if (due > wall && due <= change) wall = due;
    else {
      wall = Math.max(wall, change);
      change = wall + Math.floor(world.random() * 3000);
      world.step(wall * rate);
    }
  }
}

/** Every stretch for which one notice stood: an end that quiet mode made is a cut. */
function stretches(seed) {
  const all = [];
  let open = null;
  run(seed, ({ world, wall, rate, got }) => {
    if (open && open.from !== got?.from) {
      all.push({ ...open, to: wall, cut: world.quiet });
      open = null;
    }
    if (got && !open) open = { from: got.from, state: got.state, notice: got.notice, world: { ...world, news: world.news }, raised: new Map(world.raisedAt), rate };
    if (got && open && !got.state) assert.equal(got.notice, open.notice, 'no other words while it stands');
  });
  return all;
}

const SEEDS = Array.from({ length: 200 }, (_, i) => i + 1);

test('news stands for 4 to 10 seconds, a state for 4 at least; only quiet mode cuts it short', () => {
  const counted = { news: 0, state: 0, cut: 0 };
  for (const seed of SEEDS) {
    for (const s of stretches(seed)) {
      const stood = s.to - s.from;
      counted[s.state ? 'state' : s.cut ? 'cut' : 'news']++;
      if (!s.state) assert.ok(stood <= LONGEST_MS, `seed ${seed}: ${id(s.notice)} stood ${stood} ms`);
      if (s.state || !s.cut) assert.ok(stood >= SHORTEST_MS, `seed ${seed}: ${id(s.notice)} stood ${stood} ms`);
    }
  }
  for (const [kind, n] of Object.entries(counted)) assert.ok(n > 100, `${n} ${kind}: the worlds are too dull`);
});

test('what comes on is true then, in the words of then, fresh, and has not been on', () => {
  for (const seed of SEEDS) {
    const shown = new Set();
    for (const { state, notice, world, from, raised, rate } of stretches(seed)) {
      if (state) continue;
      const now = world.news.find((n) => n.key === notice.key);
      assert.ok(now && now.level === notice.level && now.evidence === notice.evidence, `seed ${seed}: ${id(notice)} was not true`);
      assert.ok(from - raised.get(notice.key) / rate < FRESH_MS, `seed ${seed}: ${id(notice)} was old`);
      assert.ok(!shown.has(id(notice)), `seed ${seed}: ${id(notice)} came twice`);
      assert.ok(!world.quiet, `seed ${seed}: ${id(notice)} came in quiet mode`);
      shown.add(id(notice));
    }
  }
});

test('the weightiest that waits goes first', () => {
  let chosen = 0;
  for (const seed of SEEDS) {
    const told = new Set(); // keys
    let wasQuiet = false;
    let from = -1;
    run(seed, ({ world, wall, rate, got }) => {
      if (wasQuiet || world.quiet) for (const n of world.news) told.add(n.key); // not told then, nor later
      if (got && !got.state && got.from !== from) {
        told.add(got.notice.key);
        const fresh = (n) => wall - world.raisedAt.get(n.key) / rate < FRESH_MS;
        const waits = world.news.filter((n) => !told.has(n.key) && n.level === 2 && fresh(n));
        chosen += waits.length;
        for (const n of waits) assert.ok(n.rank <= got.notice.rank, `seed ${seed} at ${wall}: ${id(n)} of ${n.rank} waits for ${got.notice.rank}`);
      }
      from = got?.from ?? -1;
      wasQuiet = world.quiet;
    });
  }
  assert.ok(chosen > 500, `${chosen} were passed over: the worlds are too dull`);
});

test('what is weightier shortens what stands, to what can be read', () => {
  const a = new Attention();
  const news = (...ranks) => ranks.map((rank) => ({ kind: 'k', key: `r${rank}`, level: 0, headline: 'h', evidence: 'x'.repeat(99), rank, at: 0 }));
  const look = (list, wall) => a.look({ news: list, state: null, over: OVER, quiet: false }, { now: wall, wall, rate: 1 });
  assert.equal(look(news(1), 0).until, LONGEST_MS);
  assert.equal(look(news(1, 1.5), 100).until, SHORTEST_MS);
  assert.equal(look(news(1, 1.5), SHORTEST_MS).notice.rank, 1.5);
  assert.equal(look(news(1, 1.5, 0), SHORTEST_MS + 1).until, SHORTEST_MS + LONGEST_MS, 'what weighs less does not');
});

test('however much happens, few wait and few are remembered', () => {
  const a = new Attention();
  for (let i = 0; i < 20_000; i++) {
    const news = Array.from({ length: 20 }, (_, k) => ({ kind: 'k', key: `c${i + k}`, level: 0, headline: 'h', evidence: '', rank: k % 5, at: i * 100 }));
    a.look({ news, state: null, over: OVER, quiet: false }, { now: i * 100, wall: i * 100, rate: 1 });
    assert.ok(a.load.waiting <= QUEUE_MOST && a.load.known <= KNOWN_MOST, JSON.stringify(a.load));
  }
});
