// Which board of a wall is lifted, and for how long, is our own rule.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Chooser, FRESH_MS, SHORTEST_MS, TURN_MS, fireOf } from '../scene/wall/choose.js';

const T0 = 1_000_000_000; // show time of wall 0
const player = (short) => ({ short, name: short, clock: { state: 'stopped' } });
const board = (number, more = {}) => ({
  board: number, white: player(`W${number}`), black: player(`B${number}`), plies: [], result: '*', at: T0, frozen: false,
  feed: { state: 'ok', since: 0 }, alerts: [], novelty: { ply: 19, all: 0, before: { games: 12 } }, ...more,
});
const alert = (kind, at = 0, level = 0) => ({ id: `${kind}-white-${level}`, kind, side: 'white', level, ply: 9, at: T0 + at, reason: 'r', evidence: 'e' });
const burns = (number, kind, at = 0, level = 0) => board(number, { alerts: [alert(kind, at, level)] });
const moment = (wall, rate = 1) => ({ now: T0 + wall * rate, wall, rate });
const calm = [board(1), board(2), board(3)];

test('a calm wall lifts none', () => {
  assert.deepEqual(new Chooser().at(calm, moment(0)), { board: null, why: null, until: Infinity });
});

test('the hottest is lifted, with its reason', () => {
  const order = [['timeTrouble', 3], ['timeTrouble', 2], ['leftPreparation', 0], ['novelty', 0], ['longThink', 0]];
  for (let i = 1; i < order.length; i++) {
    const [hot, less] = [burns(2, order[i - 1][0], 0, order[i - 1][1]), burns(1, order[i][0], 0, order[i][1])];
    const got = new Chooser().at([less, hot], moment(0));
    assert.equal(got.board, 2, `${order[i - 1]} before ${order[i]}`);
    assert.equal(got.why.kind, order[i - 1][0]);
  }
});

test('a game that has just ended is hotter than a turn, and less hot than time trouble', () => {
  const over = board(1, { result: '1-0', at: T0 });
  assert.equal(new Chooser().at([burns(2, 'firstThink'), over], moment(0)).board, 1);
  assert.equal(new Chooser().at([burns(2, 'timeTrouble', 0, 2), over], moment(0)).board, 2);
  assert.equal(fireOf(board(1, { result: '1-0', at: 0 }), moment(0)), null, 'nobody knows when it ended');
});

test('a game ends once: what comes of it later does not lift it again', () => {
  const c = new Chooser();
  const over = (at) => [board(1, { result: '1-0', at: T0 + at }), board(2)];
  assert.equal(c.at(over(0), moment(0)).board, 1);
  assert.equal(c.at(over(FRESH_MS - 1), moment(FRESH_MS)).board, null);
  c.at(calm, moment(FRESH_MS + 1)); // the next game
  assert.equal(c.at(over(FRESH_MS + 2), moment(FRESH_MS + 2)).board, 1);
});

test('time trouble that is only forecast does not burn, nor a board that nobody hears of', () => {
  assert.equal(fireOf(burns(1, 'timeTrouble', 0, 1), moment(0)), null);
  const held = burns(1, 'timeTrouble', 0, 3);
  held.white.clock.state = 'held';
  assert.equal(fireOf(held, moment(0)), null);
  assert.equal(fireOf({ ...burns(1, 'timeTrouble', 0, 3), frozen: true }, moment(0)), null);
});

test('what happened burns for a while, in wall time; what lasts as long as it lasts', () => {
  const [news, lasting] = [burns(1, 'novelty'), burns(1, 'longThink')];
  assert.ok(fireOf(news, moment(FRESH_MS - 1)));
  assert.equal(fireOf(news, moment(FRESH_MS)), null);
  assert.ok(fireOf(news, moment(FRESH_MS - 1, 20)), 'twenty times as fast');
  assert.ok(fireOf(lasting, moment(3_600_000)));
});

test('the one lifted stays for fifteen seconds at least, whatever burns elsewhere or calms', () => {
  assert.equal(SHORTEST_MS, 15_000);
  const c = new Chooser();
  assert.equal(c.at([burns(1, 'longThink'), board(2)], moment(0)).board, 1);
  const hotter = c.at([burns(1, 'longThink'), burns(2, 'timeTrouble', 0, 3)], moment(1000));
  assert.deepEqual([hotter.board, hotter.until], [1, SHORTEST_MS]);
  const calmed = c.at([board(1), board(2)], moment(2000));
  assert.deepEqual([calmed.board, calmed.why], [1, null], 'what no longer holds is no longer said');
  assert.equal(c.at([board(1), burns(2, 'timeTrouble', 0, 3)], moment(SHORTEST_MS - 1)).board, 1);
  assert.equal(c.at([board(1), burns(2, 'timeTrouble', 0, 3)], moment(SHORTEST_MS)).board, 2);
});

test('then it goes back when it is calm, and stays while it burns', () => {
  const c = new Chooser();
  c.at([burns(1, 'longThink'), board(2)], moment(0));
  assert.equal(c.at([burns(1, 'longThink'), board(2)], moment(600_000)).board, 1);
  assert.equal(c.at([board(1), board(2)], moment(600_001)).board, null);
});

test('it does not give way to one less hot; to one as hot in turns', () => {
  const c = new Chooser();
  c.at([burns(1, 'timeTrouble', 0, 2), board(2)], moment(0));
  const both = [burns(1, 'timeTrouble', 0, 2), burns(2, 'timeTrouble', 500, 2), burns(3, 'leftPreparation', 600)];
  assert.equal(c.at(both, moment(TURN_MS - 1)).board, 1);
  assert.equal(c.at(both, moment(TURN_MS)).board, 2);
  assert.equal(c.at(both, moment(2 * TURN_MS - 1)).board, 2);
  assert.equal(c.at(both, moment(2 * TURN_MS)).board, 1);
});

test('of two as hot the newer reason is lifted first, then the one that stands first', () => {
  assert.equal(new Chooser().at([burns(1, 'novelty', 100), burns(2, 'novelty', 200)], moment(300)).board, 2);
  assert.equal(new Chooser().at([burns(2, 'novelty', 100), burns(1, 'novelty', 100)], moment(300)).board, 2);
});

test('it says when to ask again', () => {
  const c = new Chooser();
  const boards = [burns(1, 'novelty')];
  assert.equal(c.at(boards, moment(0)).until, SHORTEST_MS);
  assert.equal(c.at(boards, moment(SHORTEST_MS)).until, FRESH_MS);
  assert.equal(c.at(boards, moment(FRESH_MS)).board, null);
});

test('a board that is gone is not lifted any longer', () => {
  const c = new Chooser();
  c.at([burns(1, 'longThink'), board(2)], moment(0));
  assert.equal(c.at([board(2)], moment(1)).board, null);
});

test('over a long show no board ever stands for less than its time', () => {
  const c = new Chooser();
  const kinds = ['timeTrouble', 'novelty', 'longThink', 'firstThink', ''];
  let [seed, last, since, changes] = [7, null, -Infinity, 0];
  const random = (n) => (seed = (seed * 48271) % 2147483647) % n; // Lehmer's generator with Park and Miller's multiplier, from memory
  for (let wall = 0; wall < 3_600_000; wall += 250 + random(2000)) {
    const boards = [1, 2, 3, 4].map((n) => (random(3) ? board(n) : burns(n, kinds[random(kinds.length)], wall - random(20_000), 2)));
    const got = c.at(boards, moment(wall)).board;
    if (got === last) continue;
    if (last !== null) assert.ok(wall - since >= SHORTEST_MS, `board ${last} stood for ${wall - since} ms`);
    [last, since, changes] = [got, wall, changes + 1];
  }
  assert.ok(changes > 50, `${changes} changes`);
});

test('in quiet mode none is lifted, the one that was goes back at once, and what ended meanwhile is over', () => {
  const c = new Chooser();
  const hot = [board(1), burns(2, 'timeTrouble', 0, 3)];
  assert.equal(c.at(hot, moment(0)).board, 2);
  assert.deepEqual(c.at(hot, moment(1000), true), { board: null, why: null, until: Infinity });
  assert.equal(c.at(hot, moment(2000)).board, 2, 'what lasts is seen again');
  const over = (at) => [board(1, { result: '1-0', at: T0 + at }), board(2)];
  const other = new Chooser();
  other.at(over(0), moment(0), true);
  assert.equal(other.at(over(FRESH_MS), moment(FRESH_MS)).board, null);
});
