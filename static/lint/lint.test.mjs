/** The lint held against the data: what is planted is found, what is beside it passes. */
import assert from 'node:assert/strict';
import path from 'node:path';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { check } from './check.mjs';
import { FLOOR, feature } from './data.mjs';
import { CSS, HTML, MISSED } from './planted.mjs';
import { JS, NEW_SYNTAX, OLD_SYNTAX } from './planted-js.mjs';

const here = path.dirname(fileURLToPath(import.meta.url));
/** @typedef {import('./check.mjs').Finding} Finding */

/** Each row in a file of its own, all checked together. @param {string[]} codes @param {string} kind @returns {Finding[][]} */
function findings(codes, kind) {
  const names = codes.map((_, i) => `${here}/planted/${i}${kind}`);
  const text = (/** @type {string} */ code) => (kind === '.js' ? `${code};\nexport {};` : code);
  const found = check(new Map(codes.map((code, i) => [names[i], text(code)]))).findings;
  return names.map((name) => found.filter((f) => f.file === name));
}

for (const [kind, rows] of /** @type {[string, import('./planted.mjs').Row[]][]} */ ([['.css', CSS], ['.html', HTML], ['.js', JS]])) {
  test(`planted in ${kind}`, async (t) => {
    const all = findings(rows.map(([code]) => code), kind);
    for (const [i, [code, key, since]] of rows.entries()) {
      await t.test(code, () => {
        if (key === undefined) return assert.deepEqual(all[i], []);
        const wanted = new RegExp(key.replace(/[.*()]/g, '\\$&'));
        const hit = all[i].find((f) => wanted.test(f.key) && Object.is(f.since, since));
        assert.ok(hit, `want ${key} ${since}, got ${JSON.stringify(all[i].map((f) => [f.key, String(f.since)]))}`);
      });
    }
  });
}

test('what is known to be missed', () => {
  for (const [kind, code] of MISSED) assert.deepEqual(findings([code], kind)[0], [], `${code}: is found now`);
});

const isSyntax = (/** @type {Finding} */ f) => f.key.startsWith('syntax');

test('syntax newer than the floor is refused', () => {
  const all = findings(NEW_SYNTAX.map(([code]) => code), '.js');
  for (const [i, [code, ...path]] of NEW_SYNTAX.entries()) {
    assert.ok(all[i].some(isSyntax), code);
    assert.ok((feature('javascript', ...path)?.since ?? NaN) > FLOOR, `${path}: not newer, says the data`);
  }
});

test('syntax as old as the floor passes', () => {
  const all = findings(OLD_SYNTAX.map(([code]) => code), '.js');
  for (const [i, [code, ...path]] of OLD_SYNTAX.entries()) {
    assert.deepEqual(all[i], [], code);
    assert.ok((feature('javascript', ...path)?.since ?? NaN) <= FLOOR, `${path}: newer, says the data`);
  }
});

test('a kind of file without a check is refused', () => {
  assert.throws(() => check(new Map([[`${here}/a.wasm`, '']])), /no check/);
});
