import assert from 'node:assert/strict';
import { test } from 'node:test';
import './fakedom.mjs';
import { StartMark, timecodeWrong } from '../health/startmark.js';

const nodes = new Map();
document.getElementById = (id) => nodes.get(id) ?? nodes.set(id, document.createElement('div')).get(id);
const tick = () => new Promise(setImmediate);

/** The form, and a relay that answers when told to. */
function bench(now) {
  nodes.clear();
  const sent = [];
  const waiting = [];
  const clock = { now };
  new StartMark((body) => (sent.push(JSON.parse(body)), new Promise((answer) => waiting.push(answer))), () => clock.now);
  const [form, field] = ['mark-form', 'mark-timecode'].map((id) => document.getElementById(id));
  const press = (typed) => {
    field.value = typed;
    form.fire('submit');
  };
  const answer = async (status) => {
    waiting.shift()({ status, done: status === 200, error: 'no' });
    await tick();
  };
  return { sent, press, answer, form, field, clock };
}

test('a timecode, or none', () => {
  for (const good of ['', '00:00:00:00', '23:59:59;29', '10:00:00:59']) assert.equal(timecodeWrong(good), '', good);
  for (const bad of ['10', '1:00:00:00', '24:00:00:00', '10:60:00:00', '10:00:00.00', '10:00:00:60']) assert.match(timecodeWrong(bad), /10:00:00:00/, bad);
});

test('what counts is when the button was pressed', async () => {
  const { sent, press, answer, form, clock } = bench(Date.UTC(2026, 10, 26, 18, 0, 0, 250));
  press(' 10:00:00:00 ');
  clock.now += 5000;
  press('');
  assert.equal(sent.length, 1, 'one at a time');
  const [{ id, ...entry }] = sent;
  assert.ok(id);
  assert.deepEqual(entry, { act: 'recording', mark: '2026-11-26T18:00:00.250Z', timecode: '10:00:00:00' });
  await answer(200);
  assert.match(form.textContent, /A recording began at \d\d:00:00\./);
  press('');
  assert.equal(sent[1].mark, '2026-11-26T18:00:05.250Z');
  assert.equal(sent[1].timecode, '');
});

test('what cannot be sent is told', () => {
  const { sent, press, form, field, clock } = bench(undefined);
  press('');
  assert.match(form.textContent, /time of the show is not known yet/);
  assert.equal(field.getAttribute('aria-invalid'), null);
  clock.now = 1;
  press('10');
  assert.equal(field.getAttribute('aria-invalid'), 'true');
  assert.equal(sent.length, 0);
});
