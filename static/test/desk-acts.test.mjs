import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Acts, WAIT_MS } from '../desk/acts.js';
import { sketched } from '../desk/boardhands.js';

const DONE = { status: 200, done: true, error: '' };
const NONE = { status: 0, done: false, error: '' };

/** Acts whose clock goes on with every pause; answers in order, then done. */
function bench(...answers) {
  const sent = [];
  let now = 0;
  const acts = new Acts(async (name, body) => (sent.push([name, JSON.parse(body)]), answers.shift() ?? DONE), () => now, async (ms) => void (now += ms));
  return { acts, sent };
}

test('an act is sent once, with an id of its own', async () => {
  const { acts, sent } = bench();
  assert.equal(await acts.do('play', { san: 'e2e4', who: 'Ada' }), '');
  assert.equal(await acts.do('back', {}), '');
  assert.deepEqual(sent.map(([name, { id, ...rest }]) => [name, rest]), [['play', { san: 'e2e4', who: 'Ada' }], ['back', {}]]);
  assert.match(sent[0][1].id, /^[0-9a-f]{32}$/);
  assert.notEqual(sent[0][1].id, sent[1][1].id);
});

test('acts go in the order of the hands, the next when the last is answered', async () => {
  const { acts, sent } = bench(NONE, DONE);
  const all = Promise.all([acts.do('one', {}), acts.do('two', {})]);
  assert.equal(acts.waiting, 2);
  assert.deepEqual(await all, ['', '']);
  assert.deepEqual(sent.map(([name]) => name), ['one', 'one', 'two']);
  assert.equal(sent[0][1].id, sent[1][1].id, 'the same act');
  assert.equal(acts.waiting, 0);
});

test('what is refused comes back as a sentence, and is not tried again', async () => {
  const { acts, sent } = bench({ status: 409, done: false, error: 'the bishop on g2 does not go to f4' });
  assert.equal(await acts.do('play', { san: 'g2f4' }), 'The bishop on g2 does not go to f4.');
  assert.equal(sent.length, 1);
});

test('an act that reaches nobody is given up: it is done now or not at all', async () => {
  const { acts, sent } = bench(...Array(50).fill(NONE));
  assert.equal(await acts.do('put-on-air', {}), 'The relay was not reached in time.');
  assert.ok(sent.length > 2 && sent.length < 50);
  assert.ok(WAIT_MS <= 10_000, 'no longer than the panel waits with what viewers see');
});

test('without a meaning a square is to look at, and a way is a plan', () => {
  assert.deepEqual(sketched('', 'e4', 'e4'), { kind: 'look', from: '', to: 'e4' });
  assert.deepEqual(sketched('', 'e2', 'e4'), { kind: 'plan', from: 'e2', to: 'e4' });
  assert.deepEqual(sketched('danger', 'a3', 'f8'), { kind: 'danger', from: 'a3', to: 'f8' });
});
