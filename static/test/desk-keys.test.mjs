// What the relay's description looks like is held by overlay's tests; here a part of one in the shape of
// OpenAPI 3.1 (from memory), with what the table of relay/desk has.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readActions } from '../desk/actions.js';
import { Keymap, ariaKey, keyOf, keyWords } from '../desk/keymap.js';

const action = (name, group, key, properties = {}, required = [], more = {}) => ({
  post: { operationId: name, summary: `Title of ${name}`, description: `Does ${name}.`, tags: [group], 'x-key': key, requestBody: { content: { 'application/json': { schema: { type: 'object', properties, required } } } }, ...more },
});
const DOCUMENT = {
  openapi: '3.1.0',
  tags: [{ name: 'follow' }, { name: 'air' }],
  paths: {
    '/api/actions/put-on-air': action('put-on-air', 'air', 'a'),
    '/api/actions/look-at': action('look-at', 'follow', 'b', { who: { type: 'string' }, board: { type: 'integer', description: "the board's number" } }, ['board']),
    '/api/actions/follow-by-itself': action('follow-by-itself', 'follow', 'Shift+H'),
    '/api/other': action('other', 'air', 'y'),
  },
};
const store = (kept = {}) => ({ kept, getItem: (k) => kept[k] ?? null, setItem: (k, v) => (kept[k] = v), removeItem: (k) => delete kept[k] });
const pressed = (key, shiftKey = false) => keyOf({ key, shiftKey });

test('actions come group by group, each with what it has to be told, and nothing else', () => {
  const actions = readActions(DOCUMENT);
  assert.deepEqual(actions.map((a) => a.name), ['look-at', 'follow-by-itself', 'put-on-air']);
  assert.deepEqual(actions[0].fields, [{ name: 'board', type: 'integer', does: "the board's number", required: true }]);
  assert.deepEqual([actions[0].title, actions[0].does, actions[0].key], ['Title of look-at', 'Does look-at.', 'b']);
  assert.deepEqual(readActions({}), []);
  assert.deepEqual(readActions(null), []);
});

test('in a group they come as the table has them, where the document tells', () => {
  const paths = { '/api/actions/a': action('a', 'follow', 'a', {}, [], { 'x-order': 7 }), '/api/actions/b': action('b', 'follow', 'b', {}, [], { 'x-order': 3 }) };
  assert.deepEqual(readActions({ tags: [{ name: 'follow' }], paths }).map((a) => a.name), ['b', 'a']);
});

test('a schema may stand elsewhere in the document', () => {
  const paths = { '/api/actions/x': { post: { operationId: 'x', requestBody: { content: { 'application/json': { schema: { $ref: '#/components/schemas/one' } } } } } } };
  const [x] = readActions({ paths, components: { schemas: { one: { properties: { to: { type: 'string' } } } } } });
  assert.deepEqual(x.fields.map((f) => f.name), ['to']);
});

// Names of keys as UI Events KeyboardEvent key Values has them.
test('a key is named as the table names it', () => {
  assert.deepEqual([pressed('a'), pressed('A'), pressed('H', true), pressed('ArrowLeft'), pressed('ArrowLeft', true)], ['a', 'a', 'Shift+H', 'ArrowLeft', 'Shift+ArrowLeft']);
  assert.deepEqual([pressed(']'), pressed('?', true), pressed('ö'), pressed('Ö', true)], [']', '?', 'ö', 'Shift+Ö'], 'Shift makes a sign, and is not told');
  assert.deepEqual(['Shift+H', 'ArrowLeft', 'a', '+', 'Delete'].map(keyWords), ['Shift H', '←', 'A', '+', 'Del']);
  assert.deepEqual(['Shift+H', '+', 'Shift++'].map(ariaKey), ['Shift+H', 'Plus', 'Shift+Plus']);
});

test('a person may give an action another key, and it is kept', () => {
  const kept = store();
  const keys = new Keymap(readActions(DOCUMENT), kept);
  assert.equal(keys.action('a')?.name, 'put-on-air');
  assert.equal(keys.assign('put-on-air', 'F2'), '');
  assert.deepEqual([keys.action('a'), keys.action('F2')?.name, keys.changed], [undefined, 'put-on-air', true]);
  const again = new Keymap(readActions(DOCUMENT), store(kept.kept));
  assert.equal(again.key('put-on-air'), 'F2');
  again.reset();
  assert.deepEqual([again.key('put-on-air'), again.changed, Object.keys(kept.kept)], ['a', false, []]);
});

test('a key that does something else already is refused with a word', () => {
  const keys = new Keymap(readActions(DOCUMENT), store());
  assert.match(keys.assign('put-on-air', 'b'), /Title of look-at/);
  for (const key of ['?', 'Escape', 'Shift+Tab', 'Enter', ' ']) assert.match(keys.assign('put-on-air', key), /the page itself/, key);
  assert.equal(keys.key('put-on-air'), 'a');
  assert.equal(keys.assign('put-on-air', 'a'), '', 'its own key is no conflict');
  assert.equal(keys.changed, false, 'and no change');
});

test('what is kept of another table, or broken, is left alone', () => {
  const actions = readActions(DOCUMENT);
  for (const text of ['{', 'null', '7', '{"no-such": "a", "put-on-air": 3}']) {
    const keys = new Keymap(actions, store({ 'clocktell.desk.keys': text }));
    assert.deepEqual([keys.key('put-on-air'), keys.changed, keys.action('')], ['a', false, undefined], text);
  }
  assert.equal(new Keymap(actions, null).key('look-at'), 'b');
});
