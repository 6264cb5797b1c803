// How a name gives way is our own rule.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { shorter } from '../scene/board/strip.js';

test('an opening name loses its last parts first', () => {
  assert.deepEqual(shorter('Italian Game: Classical Variation, Centre'), [
    'Italian Game: Classical Variation, Centre',
    'Italian Game: Classical Variation',
    'Italian Game',
  ]);
  assert.deepEqual(shorter('Slav'), ['Slav']);
  assert.deepEqual(shorter(''), ['']);
});
