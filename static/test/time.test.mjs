// The estimate is the usual one of clock offsets: the sample with the shortest round trip lies nearest.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { ShowTime } from '../lib/time.js';

test('a short round trip corrects the first guess, a long one does not spoil it', () => {
  let page = 0;
  const time = new ShowTime(() => page);
  assert.equal(time.known, false);
  time.welcome(10_000, 1); // came 40 ms late: the truth is 10 040
  page = 100;
  time.sample(90, 10_135); // 10 ms there and back, 10 135 in the middle
  assert.equal(time.now(), 10_140);
  page = 1000;
  time.sample(400, 9000); // 600 ms: worse than what is known
  assert.equal(time.now(), 11_040);
  assert.equal(time.known, true);
});

test('show time runs at its rate', () => {
  let page = 0;
  const time = new ShowTime(() => page);
  time.welcome(0, 20);
  page = 500;
  assert.equal(time.now(), 10_000);
});

test('old certainty fades, so that drift is followed', () => {
  let page = 0;
  const time = new ShowTime(() => page);
  time.welcome(0, 1);
  for (let i = 1; i <= 100; i++) {
    page = i * 2000;
    time.sample(page - 8, page - 4 + i); // the relay's clock gains 1 ms every two seconds
  }
  assert.ok(Math.abs(time.now() - (page + 100)) <= 5, `${time.now() - page} ms, want about 100`);
});

test('show time that is held back stands, hurries and goes on', () => {
  let page = 0;
  const time = new ShowTime(() => page);
  time.welcome(1000, 1);
  page = 500;
  assert.equal(time.now(), 1500);
  time.pace(1500, 0);
  page = 4000;
  assert.equal(time.now(), 1500);
  assert.equal(time.rate, 1, 'timers are made with it');
  time.sample(3990, 1500);
  page = 5000;
  assert.equal(time.now(), 1500, 'a sample of time that stands');
  time.pace(1500, 3);
  page = 6000;
  assert.equal(time.now(), 4500);
  time.welcome(10_000, 0);
  page = 7000;
  assert.equal(time.now(), 10_000, 'a welcome while it stands');
});
