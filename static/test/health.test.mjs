import assert from 'node:assert/strict';
import { test } from 'node:test';
import { faultWords, latenessWords, seconds, watchedWords } from '../health/feeds.js';
import { linksFor, onlyHere } from '../health/links.js';
import { lateWords, stripShare, stripWords } from '../health/pages.js';
import { moreGroupsWords, moreWords, pagesWords, troubleWords } from '../health/pagewords.js';
import { WINDOW_MS, rhythmWords, ticks, troubles } from '../health/rhythm.js';

const NOW = 1_000_000;
const beats = (text) => text.split(' ').filter(Boolean).map((b) => ({ at: NOW - 1000 * parseFloat(b.slice(1)), kind: { s: 'same', n: 'new', f: 'fault' }[b[0]] }));
/** Troubles as "seconds ago from..to", "!" behind silence. */
const found = (text, lastGood, stale = 15_000) => troubles(beats(text), lastGood === null ? 0 : NOW - lastGood * 1000, NOW, stale)
  .map((t) => `${(NOW - t.from) / 1000}..${(NOW - t.to) / 1000}${t.silent ? '!' : ''}`).join(' ');

test('where nothing came', () => {
  for (const [rhythm, lastGood, want] of [
    ['', null, ''],
    ['s30 s20 s10 s1', 1, ''],
    ['s60 s30 n20 s10', 10, '60..30!'],
    ['s40', 40, '40..0!'],
    ['s10 f5', 10, '5..5'],
    ['s12 f8 f6 s3', 3, '8..3'],
    ['s60 f50 f40 s30 s20 s10', 10, '60..30!'],
    ['s40 f30 f20 f10', 40, '40..0!'],
    ['f60 f40 f20', null, '60..0!'],
    ['f10 f4', null, '10..4'],
    ['f100 s80 s70 s60 s50 s40 s30 s20 s10', 10, '100..80'],
    ['s40', 2, '40..2!'],
    ['f10', 400, '300..0!'],
  ]) {
    assert.equal(found(rhythm, lastGood), want, `${rhythm}, last good ${lastGood}`);
  }
});

test('troubles never overlap and lie inside the window', () => {
  let seed = 7;
  const random = (n) => (seed = (seed * 16807) % 2147483647) % n;
  for (let round = 0; round < 500; round++) {
    const list = [];
    for (let at = NOW - WINDOW_MS - 20_000; at < NOW; at += 500 + random(30_000)) list.push({ at, kind: ['same', 'new', 'fault'][random(3)] });
    const good = list.filter((b) => b.kind !== 'fault').at(-1)?.at ?? 0;
    let end = NOW - WINDOW_MS;
    for (const t of troubles(list, good, NOW, 10_000)) {
      assert.ok(t.from >= end && t.to >= t.from && t.to <= NOW, JSON.stringify({ round, t, end }));
      end = t.to;
    }
  }
});

test('ticks', () => {
  assert.equal(ticks(beats('s20 n10 s5'), 'same', NOW - 20_000), 'M0 10V6M15000 10V6');
  assert.equal(ticks(beats('s20 n10 s5'), 'new', NOW - 20_000), 'M10000 10V1');
});

test('rhythm in words', () => {
  const list = beats('s60 n30 f20 s10');
  assert.equal(
    rhythmWords(list, troubles(list, NOW - 10_000, NOW, 15_000)),
    'Last five minutes: 3 answers, 1 with something new; 1 faults; nothing came for 30 s, 20 s.',
  );
});

test('lateness', () => {
  assert.equal(stripShare(0), 0);
  assert.equal(stripShare(250), 41.7);
  assert.equal(stripShare(4000), 100);
  assert.equal(stripWords([]), 'no frame yet');
  assert.equal(stripWords([250]), 'last 1 frame: none later than 250 ms, at most 250 ms');
  assert.equal(stripWords([251, 90]), 'last 2 frames: 1 later than 250 ms, at most 251 ms');
  assert.equal(lateWords([]), '');
  assert.equal(lateWords([250, 3]), 'none late');
  assert.equal(lateWords([900, 3, 251]), '2 of 3 late');
});

const frame = (fields) => ({ count: 0, inTrouble: 0, frames: 0, lateFrames: 0, kinds: [], items: [], ...fields });

test('all pages in words', () => {
  assert.equal(pagesWords(frame({})), 'No page is connected');
  assert.equal(pagesWords(frame({ count: 1 })), '1 page connected, none late');
  assert.equal(pagesWords(frame({ count: 3, frames: 3, lateFrames: 2, inTrouble: 1 })), '3 pages connected, 2 of the last 3 frames late, 1 in trouble');
  assert.equal(pagesWords(frame({ count: 2000, frames: 60_000, lateFrames: 1 })), '2,000 pages connected, 1 of the last 60,000 frames late');
});

test('pages without a row in words', () => {
  const items = [{ page: 'desk', trouble: 'late' }, { page: 'scene/board', trouble: '' }];
  const kinds = [{ name: 'desk', count: 1 }, { name: 'scene/board', count: 1900 }, { name: 'scene/wall', count: 2 }];
  assert.equal(moreWords(frame({ count: 2, inTrouble: 1, items, kinds: [] })), '');
  assert.match(moreWords(frame({ count: 1903, inTrouble: 1, items, kinds })), /^and 1,901 more, none of them in trouble: 1,899 scene\/board, 2 scene\/wall\. Listed first /);
  assert.match(moreWords(frame({ count: 1903, inTrouble: 3, items, kinds })), /^and 1,901 more, 2 of them in trouble: /);
  assert.equal(moreGroupsWords(0), '');
  assert.equal(moreGroupsWords(1), 'and 1 more group that is not set');
  assert.equal(moreGroupsWords(1200), 'and 1,200 more groups that are not set');
});

test('trouble in words, where no figure tells it', () => {
  assert.equal(troubleWords({ trouble: '' }), '');
  assert.equal(troubleWords({ trouble: 'late' }), '');
  assert.match(troubleWords({ trouble: 'silent' }), /silent/);
  assert.match(troubleWords({ trouble: 'behind' }), /behind/);
});

test('faults in words', () => {
  const item = (faults, at) => ({ faults, lastFault: { at: NOW - at, reason: 'timeout', text: '' } });
  assert.equal(faultWords({ faults: 0, lastFault: null }, NOW), '');
  assert.equal(faultWords(item(0, 720_000), NOW), '12 min ago; answers since');
  assert.equal(faultWords(item(1, 4000), NOW), '4 s ago');
  assert.equal(faultWords(item(4, 4000), NOW), '4 s ago; 4 in a row');
});

test('intervals', () => {
  for (const [ms, want] of [[500, '0.5 s'], [3000, '3 s'], [60_000, '1 min'], [90_000, '1.5 min']]) assert.equal(seconds(ms), want);
});

test('addresses', () => {
  assert.deepEqual(linksFor([{ board: 2, white: 'A', black: '', result: '*' }]).map((l) => `${l.path} ${l.about}`), [
    '/scene/board?board=2 A – Black', '/desk for commentators', '/panel for co-hosts', '/metrics for Prometheus',
  ]);
  assert.equal(linksFor([{ board: 2, white: 'A', black: '', result: '*' }], 'A+B')[0].path, '/scene/board?board=2&token=A%2BB');
  for (const host of ['localhost', '127.0.0.1', '127.8.8.8', '[::1]']) assert.equal(onlyHere(host), true, host);
  for (const host of ['192.168.1.4', 'relay.local', '127.example']) assert.equal(onlyHere(host), false, host);
});

test('how late moves come', () => {
  assert.equal(latenessWords(null), 'lateness of moves not learnt yet');
  assert.equal(latenessWords(499), 'moves arrive in time, as far as can be told');
  assert.equal(latenessWords(3600), 'moves arrive about 4 s late');
});

test('how a file is watched, where that is worth a sentence', () => {
  const note = 'looked at every 0.25 s, not notified: too many open files';
  assert.equal(watchedWords({ kind: 'file', note: '' }), '');
  assert.equal(watchedWords({ kind: 'file', note }), `The file is ${note}`);
  assert.equal(watchedWords({ kind: 'folder', note }), `The folder is ${note}`);
});
