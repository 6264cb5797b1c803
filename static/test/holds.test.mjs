import assert from 'node:assert/strict';
import { test } from 'node:test';
import './fakedom.mjs';
import { Holds, groupWords, heldGroups, holdFault, secondsText } from '../health/holds.js';
import { heldWords } from '../health/pages.js';

const page = (group, holdMs = 0) => ({ group, holdMs });
const named = (name, count) => ({ name, count });

test('the groups that were set, then those that only pages name', () => {
  assert.deepEqual(heldGroups([{ group: 'booth', holdMs: 20_500 }, { group: 'air', holdMs: 0 }], [named('air', 2), named('late', 1), named('first', 1)]), [
    { group: 'booth', holdMs: 20_500, pages: 0 },
    { group: 'air', holdMs: 0, pages: 2 },
    { group: 'first', holdMs: null, pages: 1 },
    { group: 'late', holdMs: null, pages: 1 },
  ]);
});

test('a group in words', () => {
  assert.equal(groupWords({ group: 'air', holdMs: 7500, pages: 1 }), '7.5 s, 1 scene');
  assert.equal(groupWords({ group: 'air', holdMs: 0, pages: 0 }), '0 s, no scene');
  assert.equal(groupWords({ group: 'air', holdMs: null, pages: 2 }), 'not set: 2 scenes shown nothing');
  assert.equal(secondsText(12_000), '12');
});

test('a page in words', () => {
  assert.equal(heldWords(page('', 0)), '');
  assert.equal(heldWords(page('', 7500)), 'held back 7.5 s');
  assert.equal(heldWords(page('air', 0)), 'held back 0 s with air');
  assert.equal(heldWords(page('air', null)), 'shown nothing: the hold of air is not set');
});

test('what is wrong with a hold', () => {
  for (const seconds of ['0', '12', '7.5', '1800']) assert.equal(holdFault('air', seconds, 1_800_000), null);
  assert.equal(holdFault('', '12', 1_800_000).field, 'group');
  for (const seconds of ['', 'x', '-1', '1e3', '1801', '1.', '12 s']) {
    assert.deepEqual(holdFault('air', seconds, 1_800_000), { field: 'seconds', words: 'Write a number of seconds, 0 to 1800.' });
  }
});

const nodes = new Map();
document.getElementById = (id) => nodes.get(id) ?? nodes.set(id, document.createElement('div')).get(id);
const tick = () => new Promise(setImmediate);

/** The form, and a relay that answers when told to. */
function bench() {
  nodes.clear();
  const sent = [];
  const waiting = [];
  const holds = new Holds((body) => (sent.push(JSON.parse(body)), new Promise((answer) => waiting.push(answer))));
  holds.update({ type: 'holds', rev: 2, mostMs: 1_800_000, groups: [{ group: 'air', holdMs: 7500, since: 0 }] });
  const [form, group, seconds] = ['hold-form', 'hold-group', 'hold-seconds'].map((id) => document.getElementById(id));
  const submit = (name, text) => {
    [group.value, seconds.value] = [name, text];
    form.fire('submit');
  };
  const answer = async (status, error = '') => {
    waiting.shift()({ status, done: status === 200, error });
    await tick();
  };
  return { sent, answer, submit, form, group, seconds, list: document.getElementById('holds') };
}

test('a hold is sent as it was typed, and what came of it is told', async () => {
  const { sent, answer, submit, form } = bench();
  submit(' air ', '12,5');
  const [{ id, ...entry }] = sent;
  assert.ok(id);
  assert.deepEqual(entry, { act: 'hold', text: 'air', hold: '12.5' });
  submit('air', '13');
  assert.equal(sent.length, 1, 'one at a time');
  await answer(200);
  assert.match(form.textContent, /air is held back by 12.5 s\./);
});

test('what the relay refuses is told, and stays in the form', async () => {
  const { answer, submit, form, group } = bench();
  submit('Air', '12');
  await answer(409, 'the name of a group begins with a letter');
  assert.match(form.textContent, /The name of a group begins with a letter\./);
  assert.equal(group.value, 'Air');
  assert.equal(group.getAttribute('aria-invalid'), 'true');
  group.fire('input');
  assert.equal(group.getAttribute('aria-invalid'), null);
});

test('what cannot be sent is told at its field', () => {
  const { sent, submit, form, group, seconds } = bench();
  submit('', '12');
  assert.equal(document.activeElement, group);
  submit('air', '');
  assert.equal(document.activeElement, seconds);
  assert.match(form.textContent, /Write a number of seconds, 0 to 1800\./);
  assert.equal(sent.length, 0);
});

test('a group of the list is put into the form', () => {
  const { list, group, seconds } = bench();
  list.find((n) => n.getAttribute('data-hold-group') === 'air').fire('click');
  assert.deepEqual([group.value, seconds.value], ['air', '7.5']);
  assert.equal(document.activeElement, seconds);
});
