// The floors of contrast are those of WCAG 2.2: 1.4.3 for text (4.5, and 3 where it is large), 1.4.11
// for shapes that mean something (3).
import assert from 'node:assert/strict';
import { test } from 'node:test';
import './fakedom.mjs';
import { swatch } from '../lib/tellpaint.js';
import { THEMES, themeOption } from '../scene/themes.js';
import { VISIONS, apart, contrast, linear, seen, themes } from './colours.mjs';

const TEXT = 4.5;
const SHAPE = 3;
const MEANINGS = ['preparation', 'thinking', 'trouble', 'novelty'];

/** What stands on what: [colours, grounds, floor]. */
const STANDS = [
  [['text', 'evidence', 'quiet', 'preparation', 'thinking'], ['ink'], TEXT],
  [['text'], ['lit', 'lane', 'ahead'], TEXT],
  [['ink', 'hairline'], ['text'], TEXT], // what is held or explained: the plate the other way round
  [['quiet'], ['lane'], TEXT],
  [['ink'], ['trouble', 'thinking', 'novelty'], TEXT], // a clock in trouble, a time in its block, the flag's word
  [['preparation', 'thinking'], ['ahead'], SHAPE], // the time of the running move, 32 px and 600: large
  [[...MEANINGS, 'quiet'], ['ink', 'lane', 'ahead', 'lit'], SHAPE],
  [['last-move-line'], ['ink'], SHAPE],
  [['casing'], ['last-move', 'square-light', 'square-dark', 'mark-look', 'mark-danger', 'mark-guard', 'mark-plan', 'mark-weak'], SHAPE],
  [['piece-white-edge'], ['piece-white', 'square-light', 'square-dark'], SHAPE],
  [['piece-black'], ['piece-black-edge', 'square-light', 'square-dark'], SHAPE],
];

test('every theme keeps its contrast', (t) => {
  for (const [name, theme] of Object.entries(themes())) {
    let least = Infinity;
    for (const [colours, grounds, floor] of STANDS) {
      for (const colour of colours) {
        for (const ground of grounds) {
          const got = contrast(linear(theme.of(colour)), linear(theme.of(ground)));
          assert.ok(got >= floor, `${name}: ${colour} on ${ground} has ${got.toFixed(2)}, wanted ${floor}`);
          least = Math.min(least, got / floor);
        }
      }
    }
    t.diagnostic(`${name}: at least ${least.toFixed(2)} times the floor`);
  }
});

test('the side marks tell White from Black, and both from the plate', () => {
  for (const [name, { of }] of Object.entries(themes())) {
    const on = (value) => linear(value === 'transparent' ? of('ink') : value);
    for (const side of ['white', 'black']) {
      const drawn = [of(`side-${side}`), of(`side-${side}-edge`)].map((c) => contrast(on(c), on(of('ink'))));
      assert.ok(Math.max(...drawn) >= SHAPE, `${name}: the mark of ${side} has ${drawn.map((d) => d.toFixed(2))}`);
    }
    assert.ok(contrast(on(of('side-white')), on(of('side-black'))) >= SHAPE, `${name}: the marks are alike`);
  }
});

/** So far apart are the states at least in each theme and each vision: five times what is just noticed. */
const APART = 12;
/** The stripes of time trouble, which part it from a plain block without any hue: our own floor. */
const STRIPES = 1.8;

test('the states are apart whichever cones see them', (t) => {
  for (const [name, { of }] of Object.entries(themes())) {
    for (const [vision, matrix] of Object.entries(VISIONS)) {
      const sees = (colour) => seen(linear(of(colour)), matrix);
      const colours = [...MEANINGS, 'last-move']; // which marks the last move and nothing else
      const pairs = colours.flatMap((a, i) => colours.slice(i + 1).map((b) => ({ a, b, by: apart(sees(a), sees(b)) })));
      for (const { a, b, by } of pairs) assert.ok(by >= APART, `${name}, ${vision}: ${a} and ${b} are ${by.toFixed(1)} apart`);
      const stripes = contrast(sees('trouble'), sees('trouble-hatch'));
      assert.ok(stripes >= STRIPES, `${name}, ${vision}: the stripes have ${stripes.toFixed(2)}`);
      t.diagnostic(`${name}, ${vision}: ${Math.min(...pairs.map((p) => p.by)).toFixed(0)} apart, stripes ${stripes.toFixed(1)}`);
    }
  }
});

/** What a sample draws, without any colour, and without the number of its drawing. @param {any} node */
function drawing(node) {
  const kept = [...node.attributes].filter(([key]) => key !== 'stroke').map(([key, value]) => `${key}=${key === 'fill' ? /lines|hatch|dots|none/.exec(value) ?? 'plain' : value}`);
  const inside = node.children.filter((c) => c.name !== 'defs').map(drawing);
  return `${node.name}[${kept}](${inside})`;
}

test('the states are told apart by their drawing alone', () => {
  const drawings = ['preparation', 'thinking', 'unsure', 'trouble', 'none'].map((look) => drawing(swatch(look)));
  assert.equal(new Set(drawings).size, drawings.length, drawings.join('\n'));
});

test('the themes that can be named are those that there are, each with every colour it must give', () => {
  const all = themes();
  assert.deepEqual([...THEMES].sort(), Object.keys(all).sort());
  for (const name of THEMES.slice(1)) {
    for (const property of ['ink', 'text', 'evidence', 'quiet', 'hairline', 'lane', 'ahead', 'lit', ...MEANINGS, 'trouble-hatch']) {
      assert.ok(property in all[name].own, `${name} leaves out --${property}`);
    }
  }
  assert.deepEqual(['light', 'Bold', 'dark', 'no such', '', null].map(themeOption), ['light', 'bold', 'dark', 'dark', 'dark', 'dark']);
});
