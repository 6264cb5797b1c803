// What /by-hand answers and when is our own protocol: overlay/byhand.go. Which statuses may be tried again is RFC 9110, 15.5 and 15.6.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { OUTCOME, Sender } from '../health/sender.js';
import { poster } from '../surface/post.js';
import { PAUSE_MOST_MS, PAUSE_MS, isFinal, newID, pauseAfter } from '../surface/retry.js';
import { waitingWords } from '../health/said.js';

const DONE = { status: 200, done: true, error: '' };
const NONE = { status: 0, done: false, error: '' };
const tick = () => new Promise(setImmediate);

/** A sender whose relay gives these answers, and whose pauses end when told to. */
function desk(...answers) {
  const sent = [];
  const pauses = [];
  const told = [];
  let ids = 0;
  const post = async (body) => (sent.push(JSON.parse(body)), answers.shift() ?? DONE);
  const sender = new Sender(post, () => `id-${++ids}`, (ms, run) => pauses.push({ ms, run }));
  const send = (entry = { board: 1, act: 'move', ply: 3, san: 'Nf3' }) => sender.send(entry, '2.Nf3', (p) => told.push(p));
  return { sender, send, sent, pauses, told };
}

test('an entry that is done is sent once, with an id', async () => {
  const d = desk(DONE);
  assert.deepEqual(await d.send(), { state: OUTCOME.DONE, error: '' });
  assert.deepEqual(d.sent, [{ board: 1, act: 'move', ply: 3, san: 'Nf3', id: 'id-1' }]);
  assert.equal(d.sender.busy, '');
});

test('without an answer the same entry is sent again, with the same id, until there is one', async () => {
  const d = desk(NONE, NONE, { status: 503, done: false, error: 'no answer from the show' }, DONE);
  const outcome = d.send();
  for (let i = 1; i <= 3; i++) {
    await tick();
    assert.equal(d.pauses.length, i);
    assert.equal(d.sender.busy, '2.Nf3');
    d.pauses[i - 1].run();
  }
  assert.equal((await outcome).state, OUTCOME.DONE);
  assert.equal(d.sent.length, 4);
  assert.equal(new Set(d.sent.map((e) => JSON.stringify(e))).size, 1, 'something changed between the tries');
  assert.deepEqual(d.told, [{ tries: 1, error: '' }, { tries: 2, error: '' }, { tries: 3, error: 'no answer from the show' }]);
});

test('another entry has another id', async () => {
  const d = desk();
  await d.send();
  await d.send();
  assert.deepEqual(d.sent.map((e) => e.id), ['id-1', 'id-2']);
});

test('a refusal ends it, with the reason', async () => {
  const d = desk({ status: 409, done: false, error: 'there is no board 9' }, { status: 404, done: false, error: '' });
  assert.deepEqual(await d.send(), { state: OUTCOME.REFUSED, error: 'There is no board 9.' });
  assert.deepEqual(await d.send(), { state: OUTCOME.REFUSED, error: 'The relay answered with status 404.' });
  assert.equal(d.pauses.length, 0);
});

test('one entry at a time', async () => {
  const d = desk(NONE, DONE);
  const first = d.send();
  await tick();
  const second = await d.send({ board: 1, act: 'freeze' });
  assert.deepEqual(second, { state: OUTCOME.BUSY, error: 'Wait: 2.Nf3 is still on its way.' });
  assert.equal(d.sent.length, 1);
  d.pauses[0].run();
  assert.equal((await first).state, OUTCOME.DONE);
});

test('trying can be stopped, in a pause and while an answer is awaited', async () => {
  const d = desk(NONE, NONE);
  let outcome = d.send();
  await tick();
  d.sender.stop();
  assert.equal((await outcome).state, OUTCOME.STOPPED);
  outcome = d.send();
  d.sender.stop();
  assert.equal((await outcome).state, OUTCOME.STOPPED);
  assert.equal(d.sent.length, 2);
  assert.equal((await d.send()).state, OUTCOME.DONE, 'nothing more can be sent after a stop');
});

test('an answer that comes in spite of the stop counts', async () => {
  const d = desk(DONE);
  const outcome = d.send();
  d.sender.stop();
  assert.equal((await outcome).state, OUTCOME.DONE);
});

test('which answers are final', () => {
  for (const status of [400, 401, 403, 404, 409, 413, 415]) assert.ok(isFinal(status), String(status));
  for (const status of [0, 200, 408, 429, 500, 502, 503, 504]) assert.ok(!isFinal(status), String(status));
});

test('pauses grow, up to a limit', () => {
  assert.deepEqual([1, 2, 3, 4, 5, 9].map(pauseAfter), [PAUSE_MS, 1000, 2000, PAUSE_MOST_MS, PAUSE_MOST_MS, PAUSE_MOST_MS]);
});

test('ids fit the relay and differ', () => {
  const ids = Array.from({ length: 100 }, newID);
  assert.ok(ids.every((id) => /^[0-9a-f]{32}$/.test(id)), ids[0]);
  assert.equal(new Set(ids).size, 100);
});

test('the wait is told in words', () => {
  assert.equal(waitingWords('2.Nf3', { tries: 1, error: '' }), 'No answer yet. 2.Nf3: sent 1 time, trying again.');
  assert.equal(waitingWords('2.Nf3', { tries: 3, error: 'the show stops' }), 'The show stops. 2.Nf3: sent 3 times, trying again.');
});

test('what goes over the wire, and what comes back', async () => {
  const calls = [];
  const answers = [[200, '{"done":true,"error":""}'], [409, '{"done":false,"error":"no"}'], [200, '{"done":false}'], [200, '<html>a proxy'], [502, '']];
  const fetcher = async (url, init) => {
    calls.push({ url, ...init });
    const [status, text] = answers.shift() ?? assert.fail('too many calls');
    return { status, text: async () => text };
  };
  const post = poster('/by-hand', fetcher);
  assert.deepEqual(await post('{}'), DONE);
  assert.deepEqual(await post('{}'), { status: 409, done: false, error: 'no' });
  assert.deepEqual(await post('{}'), { status: 200, done: false, error: '' });
  assert.deepEqual(await post('{}'), { status: 200, done: false, error: '' }, 'what is no reply was taken for one');
  assert.deepEqual(await post('{}'), { status: 502, done: false, error: '' });
  assert.equal(calls[0].url, '/by-hand');
  assert.equal(calls[0].method, 'POST');
  assert.deepEqual(calls[0].headers, { 'Content-Type': 'application/json' });
  const failing = poster('/by-hand', async () => Promise.reject(new TypeError('network')));
  assert.deepEqual(await failing('{}'), NONE);
});
