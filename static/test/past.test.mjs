import assert from 'node:assert/strict';
import { test } from 'node:test';
import { errorSeries, errorWords, lateSeries, lateWords, mergeErrors } from '../health/past.js';
import { followedPath } from '../health/rhythm.js';

const past = (sceneWorst) => ({ pieceMs: 5000, sceneWorst, sceneMiddle: sceneWorst, otherWorst: sceneWorst.map(() => null) });

test('pieces of time end with the one that is not over', () => {
  const [minutes, worst, middle, other] = lateSeries(past([10, null, 300]));
  assert.deepEqual(minutes.map((m) => Math.round(m * 60)), [-10, -5, 0]);
  assert.deepEqual([worst, middle, other], [[10, null, 300], [10, null, 300], [null, null, null]]);
});

test('lateness in words', () => {
  assert.equal(lateWords(past([null, null]), 250), 'no scene has drawn anything in the last ten minutes');
  assert.equal(lateWords(past([12, null, 250]), 250), 'worst of the scenes 250 ms, none later than 250');
  assert.equal(lateWords(past([12, 251, 400]), 250), 'worst of the scenes 400 ms; later than 250 in 2 of 3 pieces of 5 s');
});

test('errors of running clocks, as points and in words', () => {
  const now = 10_000_000;
  const errors = [{ at: now - 601_000, board: 1, ms: 9000 }, { at: now - 60_000, board: 2, ms: 0 }, { at: now + 500, board: 1, ms: 1250 }];
  assert.deepEqual(errorSeries(errors, now), [[-1, 0], [0, 1.25]]);
  assert.equal(errorWords(errors, now), '2 readings; most wrong: board 1 by 1.3 s');
  assert.equal(errorWords(errors.slice(0, 2), now), '1 reading, every clock was right');
  assert.equal(errorWords(errors.slice(0, 1), now), 'no reading has told in the last ten minutes');
});

test('errors of running clocks come behind those held, or in their place', () => {
  const errors = Array.from({ length: 256 }, (_, at) => ({ at, board: 1, ms: 0 }));
  const newest = { at: 256, board: 2, ms: 400 };
  assert.deepEqual(mergeErrors(errors.slice(0, 2), { base: 7, errors: [newest] }), [errors[0], errors[1], newest]);
  assert.deepEqual(mergeErrors(errors, { base: 7, errors: [newest] }), [...errors.slice(1), newest]);
  assert.deepEqual(mergeErrors(errors, { base: 0, errors: [newest] }), [newest]);
});

test('when a feed was followed', () => {
  assert.equal(followedPath([{ from: 0, to: 500 }, { from: 900, to: 1500 }, { from: 2000, to: 0 }], 1000, 3000), 'M0 0.5H500M1000 0.5H2000');
  assert.equal(followedPath([], 1000, 3000), '');
});
