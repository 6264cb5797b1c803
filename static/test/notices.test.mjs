// Which notice stands and for how long is our own rule.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Notices as SceneNotices } from '../scene/board/notices.js';

const player = (short) => ({ short, name: short });
const alert = (kind, at, more = {}) => ({ id: kind, kind, side: 'black', level: 2, ply: 9, at, reason: 'r', evidence: 'e', ...more });
const board = (more = {}) => ({
  white: player('Ahlm'),
  black: player('Brask'),
  plies: [],
  result: '*',
  at: 0,
  feed: { state: 'ok', since: 0 },
  alerts: [],
  ...more,
});
const kind = (got) => got.notice?.kind ?? '';

/** A scene's notices, told show time and wall time. */
class Notices extends SceneNotices {
  at(board, now, wall, rate, quiet = false, lostAt = null) {
    return super.at(board, { now, wall, rate }, quiet, lostAt);
  }
}

test('nothing to say', () => {
  assert.equal(kind(new Notices().at(board(), 0, 0, 1)), '');
});

test('one at a time, the weightier first, four to ten seconds each', () => {
  const n = new Notices();
  const b = board({ alerts: [alert('longThink', 0), alert('timeTrouble', 0)] });
  const first = n.at(b, 0, 0, 1);
  assert.equal(kind(first), 'timeTrouble');
  assert.ok(first.until >= 4000 && first.until <= 10_000, `until ${first.until}`);
  assert.equal(kind(n.at(b, 0, first.until - 1, 1)), 'timeTrouble');
  assert.equal(kind(n.at(b, first.until, first.until, 1)), 'longThink');
  assert.equal(kind(n.at(b, 20_000, 20_000, 1)), '');
});

test('it is told once', () => {
  const n = new Notices();
  const b = board({ alerts: [alert('longThink', 0)] });
  n.at(b, 0, 0, 1);
  assert.equal(kind(n.at(b, 11_000, 11_000, 1)), '');
  assert.equal(kind(n.at(b, 12_000, 12_000, 1)), '');
});

test('old news is not told by a page that just came', () => {
  assert.equal(kind(new Notices().at(board({ alerts: [alert('longThink', 0)] }), 60_000, 0, 1)), '');
});

test('a higher level of time trouble is news again', () => {
  const n = new Notices();
  const at = (now, level) => kind(n.at(board({ alerts: [alert('timeTrouble', 0, { level })] }), now, now, 1));
  assert.equal(at(0, 1), '', 'a forecast is for the panel');
  assert.equal(at(10_000, 2), 'timeTrouble');
  assert.equal(at(60_000, 2), '');
  assert.equal(at(70_000, 3), 'timeTrouble');
  assert.equal(at(90_000, 2), '', 'a lower level is relief, not news');
});

test('the same condition raised again is news again', () => {
  const n = new Notices();
  n.at(board({ alerts: [alert('longThink', 0)] }), 0, 0, 1);
  assert.equal(kind(n.at(board(), 20_000, 20_000, 1)), '');
  assert.equal(kind(n.at(board({ alerts: [alert('longThink', 30_000)] }), 30_000, 30_000, 1)), 'longThink');
});

test('what is no longer true leaves after four seconds', () => {
  for (const told of ['leftPreparation', 'longThink', 'timeTrouble']) {
    const n = new Notices();
    n.at(board({ alerts: [alert(told, 0)] }), 0, 0, 1);
    assert.equal(kind(n.at(board(), 1000, 1000, 1)), told);
    assert.equal(kind(n.at(board(), 3999, 3999, 1)), told);
    assert.equal(kind(n.at(board(), 4000, 4000, 1)), '');
  }
});

test('in quiet mode news is not told, nor later; that the picture is behind is', () => {
  const n = new Notices();
  const troubled = board({ alerts: [alert('timeTrouble', 0)] });
  assert.equal(kind(n.at(troubled, 0, 0, 1)), 'timeTrouble');
  assert.equal(kind(n.at(troubled, 500, 500, 1, true)), '', 'what stands leaves when it becomes quiet');
  const thinking = board({ alerts: [alert('longThink', 600)] });
  assert.equal(kind(n.at(thinking, 600, 600, 1, true)), '');
  assert.equal(kind(n.at({ ...thinking, feed: { state: 'stale', since: 0 } }, 700, 700, 1, true)), 'stale');
  assert.equal(kind(n.at(thinking, 6000, 6000, 1, false)), '', 'what was not told then is not told afterwards');
  assert.equal(kind(n.at(board({ alerts: [alert('longThink', 7000)] }), 7000, 7000, 1, false)), 'longThink');
});

test('a move that cannot be played is told as long as it stands', () => {
  const n = new Notices();
  const b = board({ fault: 'move 2.Ke5: …', plies: [{ number: 1 }, { number: 2 }] });
  assert.equal(n.at(b, 0, 0, 1).notice.headline, 'Waiting for move 2');
  assert.equal(kind(n.at(b, 600_000, 600_000, 1)), 'fault');
  assert.equal(kind(n.at(board(), 600_001, 600_001, 1)), '');
});

test('a silent feed stands as long as it lasts and counts', () => {
  const n = new Notices();
  const b = board({ feed: { state: 'stale', since: 1000 }, alerts: [alert('longThink', 43_000)] });
  const got = n.at(b, 43_500, 0, 1);
  assert.equal(got.notice.headline, 'No data for 0:42');
  assert.equal(got.until, 501);
  assert.equal(n.at(b, 103_000, 60_000, 1).notice.headline, 'No data for 1:42');
  assert.equal(kind(n.at(board(), 104_000, 61_000, 1)), '');
});

test('a feed that was silent for a moment says so, and is read', () => {
  const n = new Notices();
  n.at(board({ feed: { state: 'stale', since: 0 } }), 15_000, 0, 1);
  const back = n.at(board(), 16_000, 1000, 1);
  assert.equal(back.notice.headline, 'The feed goes on');
  assert.equal(back.until, 4000);
  assert.equal(kind(n.at(board(), 19_000, 4000, 1)), '');
});

test('what stands is read before silence is told', () => {
  const n = new Notices();
  n.at(board({ alerts: [alert('longThink', 0)] }), 0, 0, 1);
  const silent = board({ alerts: [alert('longThink', 0)], feed: { state: 'stale', since: 0 } });
  const got = n.at(silent, 1000, 1000, 1);
  assert.deepEqual([kind(got), got.until], ['longThink', 4000]);
  assert.equal(kind(n.at(silent, 4000, 4000, 1)), 'stale');
});

test('the end of the game waits until what stands can have been read', () => {
  const n = new Notices();
  n.at(board({ alerts: [alert('timeTrouble', 0)] }), 0, 0, 1);
  const over = board({ result: '0-1', at: 1000, plies: [{ san: 'Qf2#', number: 38 }], feed: { state: 'stale', since: 0 } });
  assert.equal(n.at(over, 1000, 1000, 1).until, 4000);
  const got = n.at(over, 4000, 4000, 1);
  assert.equal(got.notice.headline, 'Brask wins');
  assert.equal(got.notice.evidence, 'checkmate on move 19');
});

const novelty = (more = {}) => ({ ply: 24, all: 0, before: { games: 20 }, ...more });

test('a new move is told in few words, by what came before it', () => {
  for (const [more, evidence] of [
    [{}, 'not played in 20 games that came here'],
    [{ before: { games: 1 } }, 'the only game to come here went on otherwise'],
    [{ before: { games: 48213 } }, 'not played in 48\u202f213 games that came here'],
    [{ all: 3 }, 'among 20 games counted; 3 others have it'],
    [{ all: 1 }, 'among 20 games counted; 1 other has it'],
  ]) {
    const b = board({ alerts: [alert('novelty', 0)], novelty: novelty(more) });
    const { notice } = new Notices().at(b, 0, 0, 1);
    assert.equal(notice.headline, 'Move 12 is new');
    assert.equal(notice.evidence, evidence);
  }
});

test('a new move waits behind what the clocks tell, and goes after its time', () => {
  const n = new Notices();
  const b = board({ alerts: [alert('novelty', 0), alert('longThink', 0)], novelty: novelty() });
  const first = n.at(b, 0, 0, 1);
  assert.equal(kind(first), 'longThink');
  const second = n.at(b, first.until, first.until, 1);
  assert.equal(kind(second), 'novelty');
  assert.ok(second.until - first.until <= 10_000, `until ${second.until}`);
  assert.equal(kind(n.at(b, second.until, second.until, 1)), '', 'once, though the alert stands for moves');
});

test('a new move that was taken back leaves as soon as it could be read', () => {
  const n = new Notices();
  n.at(board({ alerts: [alert('novelty', 0)], novelty: novelty() }), 0, 0, 1);
  const back = board({ novelty: null });
  assert.equal(kind(n.at(back, 1000, 1000, 1)), 'novelty');
  assert.equal(kind(n.at(back, 4000, 4000, 1)), '');
});

test('a rare position is for the panel, not for the viewers', () => {
  assert.equal(kind(new Notices().at(board({ alerts: [alert('rare', 0)] }), 0, 0, 1)), '');
});

test('a page without its relay says since when, as of a silent feed, in quiet mode too', () => {
  const n = new Notices();
  const lost = n.at(board(), 40_500, 0, 1, true, 10_000);
  assert.deepEqual([lost.notice.kind, lost.notice.headline], ['stale', 'No data for 0:30']);
  assert.ok(lost.until <= 501, `counts on after ${lost.until} ms`);
  assert.equal(n.at(board(), 41_500, 1000, 1, true, 10_000).notice.headline, 'No data for 0:31');
  assert.equal(n.at(board(), 42_000, 1500, 1).notice.headline, 'The feed goes on');
  const silent = board({ feed: { state: 'stale', since: 4000 } });
  assert.equal(new Notices().at(silent, 40_500, 0, 1, false, 10_000).notice.headline, 'No data for 0:36', 'the feed was silent before');
  assert.equal(new Notices().at(board({ result: '1-0' }), 40_500, 0, 1, false, 10_000).notice?.kind ?? '', '', 'a game that has ended needs no data');
});
