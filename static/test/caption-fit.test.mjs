// The measures are our own: two lines of about 38 signs, and 200 signs on three. The type of
// these tests is made up: every sign is as wide as the share of its size that is given.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { fit, STEPS, stepsFor } from '../scene/caption/fit.js';

/** Fill lines one after the other, as a browser does. */
function typesetter(text, share) {
  return (step, width) => {
    const fits = Math.floor(width / (step.size * share));
    let lines = 1;
    let filled = 0;
    let broken = false;
    for (const word of text.split(' ')) {
      let signs = [...word].length;
      if (filled && filled + 1 + signs <= fits) {
        filled += 1 + signs;
        continue;
      }
      if (filled) lines++;
      for (; signs > Math.max(1, fits); signs -= Math.max(1, fits)) [broken, lines] = [true, lines + 1];
      filled = signs;
    }
    return { lines, broken };
  };
}
const NARROW = 0.4; // our type has about this on average
const set = (text, share = NARROW) => fit(stepsFor(text), typesetter(text, share));
const sentence = (signs) => 'a knight goes to where it is not '.repeat(9).slice(0, signs - 1) + '.';

test('38 signs are one line and twice 36 are two, of the largest size', () => {
  for (const [signs, lines] of [[10, 1], [38, 1], [72, 2]]) {
    const got = set(sentence(signs));
    assert.deepEqual([got.step.size, got.lines], [56, lines], `${signs} signs`);
  }
});

test('a longer sentence steps down, and 200 signs stand on three lines', () => {
  let before = Infinity;
  for (let signs = 10; signs <= 200; signs++) {
    const { step, lines } = set(sentence(signs));
    assert.ok(lines <= step.lines && step.lines <= 3, `${signs} signs: ${lines} lines`);
    assert.ok(step.size >= 40, `${signs} signs of ordinary width at ${step.size} px`);
    before = Math.min(before, step.size);
  }
  assert.equal(before, 40, 'the smallest size any of them took');
});

test('the lines come out about as long as each other', () => {
  const text = 'one two three four five six seven eight nine ten eleven twelve';
  const { step, width } = set(text);
  const signs = width / (step.size * NARROW);
  // 62 signs on two lines: "… seven" and "eight …" have 33 and 28; no other break is as even.
  assert.ok(signs >= 33 && signs < 34, `${signs} signs wide`);
  assert.equal(typesetter(text, NARROW)(step, width - 1).lines, 3, 'one pixel less takes another line');
});

test('a plate is only as wide as its words', () => {
  assert.equal(set('Now.').width, Math.ceil(4 * 56 * NARROW));
});

test('no word is broken while a smaller size keeps it whole', () => {
  const word = 'x'.repeat(50);
  const { step, width } = set(`${word} it is`);
  assert.ok(width >= 50 * step.size * NARROW);
  assert.ok(step.size < 56);
  assert.deepEqual(typesetter(`${word} it is`, NARROW)(step, width).broken, false);
});

test('200 of the widest signs without a space still stand on three lines', () => {
  for (const [sign, share] of [['M', 0.8], ['汉', 1]]) {
    const { step, lines } = set(sign.repeat(200), share);
    assert.ok(lines <= 3, `${lines} lines of ${sign}`);
    assert.ok(step.size >= 22, `${step.size} px`);
  }
});

test('what no size holds takes as many lines as it needs', () => {
  const { step, lines } = set('W'.repeat(200), 3);
  assert.equal(step, STEPS[STEPS.length - 1]);
  assert.ok(lines > 3);
});

test('other scripts get more room between lines', () => {
  assert.equal(stepsFor('Größe, ход, ρ: ½ – ♞')[0].leading, 64);
  for (const text of ['الساعة', '白方', 'समय', 'เวลา', 'שעון']) assert.equal(stepsFor(text)[0].leading, 73, text);
});
