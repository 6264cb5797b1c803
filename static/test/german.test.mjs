// Every text that a scene writes stands in its table, in both languages. What is meant by a
// text is an own rule: two English words beside each other in a literal, of which # is a figure.
// That no other word shows is held in a browser (TestScenesSpeakGerman).
import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { test } from 'node:test';
import { about, speak, word } from '../lib/language.js';
import { GERMAN } from '../scene/german.js';

const root = new URL('..', import.meta.url);
const scripts = ['scene/', 'scene/board/', 'scene/clocks/', 'scene/wall/', 'scene/challenge/'].flatMap((folder) => readdirSync(new URL(folder, root)).filter((n) => n.endsWith('.js')).map((n) => folder + n));
const files = [...scripts, 'lib/marks.js', 'lib/tellmarks.js', 'lib/telltext.js', 'lib/tellground.js', 'lib/placement.js', 'lib/clock.js'].filter((n) => !['scene/german.js', 'scene/airwords.js'].includes(n)) /* the tables themselves */;
/** Literals that are no texts: selectors, classes, values of style, units. */
const NO_TEXT = /^(tell-now|tell-sign inside|tell-time hollow|tell-axis first|side |row |card |move )|[[=]|var\(|\d(px|ms)|^# min$|^novelty #|^result #/;

/** Literals of a script; of templates what stands around their values. @param {string} name */
function literals(name) {
  const text = readFileSync(new URL(name, root), 'utf8').replace(/\/\*[\s\S]*?\*\/|(^|\s)\/\/.*$/gm, '');
  return [...text.matchAll(/'([^'\n]*)'|`((?:[^`$]|\$\{[^}]*\})*)`/g)].map((m) => m[1] ?? m[2].replace(/\$\{[^}]*\}/g, '#'));
}

test('every text of the scenes is in the table', () => {
  const texts = files.flatMap((name) => literals(name).map((text) => ({ name, text })));
  const words = texts.filter(({ text }) => /[a-z]{2,} [a-z#{]{1,}|[a-z#}] [a-z]{2,}/i.test(text) && !NO_TEXT.test(text));
  assert.ok(words.length > 40, `${words.length} texts found`);
  const missing = words.filter(({ text }) => !(text in GERMAN)).map(({ name, text }) => `${name}: "${text}"`);
  assert.deepEqual(missing, []);
});

test('a text and its German have the same places', () => {
  for (const [english, german] of Object.entries(GERMAN)) {
    assert.notEqual(german, '', english);
    for (const place of ['#', '{}']) assert.equal(german.split(place).length, english.split(place).length, english);
  }
});

test('figures and names stand where the language has them', () => {
  assert.equal(word('12 moves, 0:41 gained'), '12 moves, 0:41 gained');
  speak(GERMAN);
  assert.equal(word('12 moves, 0:41 gained'), '12 Züge, 0:41 mehr');
  assert.equal(word('not played in 48\u202f213 games that came here'), 'in 48\u202f213 Partien mit dieser Stellung nicht gespielt');
  assert.equal(about('Long think by {}', '$& 2'), '$& 2 denkt lange nach');
  assert.equal(word('nothing that is known'), 'nothing that is known');
  speak({});
  assert.equal(about('Long think by {}', 'Ahlm'), 'Long think by Ahlm');
});
