import assert from 'node:assert/strict';
import { test } from 'node:test';
import './fakedom.mjs';
import { Quiet, quietWords } from '../health/quiet.js';

const nodes = new Map();
document.getElementById = (id) => nodes.get(id) ?? nodes.set(id, document.createElement('div')).get(id);
const tick = () => new Promise(setImmediate);

/** The switch, and a relay that answers when told to. */
function bench() {
  nodes.clear();
  const sent = [];
  const waiting = [];
  const quiet = new Quiet((body) => (sent.push(JSON.parse(body)), new Promise((answer) => waiting.push(answer))));
  const answer = async (status, error = '') => {
    waiting.shift()({ status, done: status === 200, error });
    await tick();
  };
  const [button, words, note, part] = ['quiet-switch', 'quiet-words', 'quiet-note', 'quiet-part'].map((id) => document.getElementById(id));
  return { quiet, sent, answer, button, words, note, part };
}

test('the switch does nothing before the relay has said how it stands', () => {
  const { sent, button, words } = bench();
  button.fire('click');
  assert.equal(sent.length, 0);
  assert.equal(button.getAttribute('aria-disabled'), 'true');
  assert.equal(words.textContent, quietWords(null));
});

test('a press asks for the other state, and shows it once the relay has it', async () => {
  const { quiet, sent, answer, button, words, note, part } = bench();
  quiet.update(false);
  assert.deepEqual([button.getAttribute('aria-checked'), note.hidden], ['false', true]);
  button.fire('click');
  const { id, ...entry } = sent[0];
  assert.ok(id);
  assert.deepEqual(entry, { act: 'quiet', text: 'on' });
  assert.equal(button.getAttribute('aria-checked'), 'false', 'not yet');
  button.fire('click');
  assert.equal(sent.length, 1, 'one at a time');
  quiet.update(true);
  await answer(200);
  assert.deepEqual([button.getAttribute('aria-checked'), note.hidden, words.textContent], ['true', false, quietWords(true)]);
  assert.match(part.textContent, /Quiet mode is on\./);
  button.fire('click');
  assert.equal(sent[1].text, 'off');
});

test('what the relay refuses is told, and the switch stays', async () => {
  const { quiet, answer, button, part } = bench();
  quiet.update(true);
  button.fire('click');
  await answer(401, 'the token is wrong');
  assert.match(part.textContent, /The token is wrong\./);
  assert.equal(button.getAttribute('aria-checked'), 'true');
});
