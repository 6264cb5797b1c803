// @ts-check
/**
 * One way to set a sentence: pixels of the stage, lines at most, and how wide these may be.
 *
 * @typedef {{size: number, leading: number, lines: number, width: number}} Step
 * @typedef {{lines: number, broken: boolean}} Lines broken: inside a word
 */

/**
 * From what is read at a glance down to what still holds 200 of the widest signs. The first is
 * two lines of about 38 signs.
 *
 * @type {readonly Step[]}
 */
export const STEPS = [
  { size: 56, leading: 64, lines: 2, width: 900 },
  { size: 48, leading: 56, lines: 3, width: 940 },
  { size: 40, leading: 48, lines: 3, width: 1140 },
  { size: 32, leading: 40, lines: 3, width: 1400 },
  { size: 28, leading: 34, lines: 3, width: 1600 },
  { size: 24, leading: 30, lines: 3, width: 1600 },
  { size: 22, leading: 28, lines: 3, width: 1600 },
];

/** Scripts whose letters reach higher and lower than ours need more room between lines. */
const OTHER_SCRIPT = /[^\p{Script=Latin}\p{Script=Greek}\p{Script=Cyrillic}\p{Script=Common}\p{Script=Inherited}]/u;
const OTHER_LEADING = 1.3;

/** The steps for a text. @param {string} text */
export function stepsFor(text) {
  if (!OTHER_SCRIPT.test(text)) return STEPS;
  return STEPS.map((step) => ({ ...step, leading: Math.round(step.size * OTHER_LEADING) }));
}

/**
 * Choose the largest step that holds a sentence without breaking a word, or if none does, the
 * largest that holds it, or if none does, the last with as many lines as it takes. The width is
 * the least that needs no more lines: so they come out about as long as each other.
 *
 * @param {readonly Step[]} steps the largest first
 * @param {(step: Step, width: number) => Lines} set how the sentence runs at that size and width
 * @returns {{step: Step, width: number, lines: number}}
 */
export function fit(steps, set) {
  const runs = steps.map((step) => ({ step, run: set(step, step.width) }));
  const holding = runs.filter(({ step, run }) => run.lines <= step.lines);
  const { step, run } = holding.find((h) => !h.run.broken) ?? holding[0] ?? runs[runs.length - 1];
  const asGood = (/** @type {number} */ width) => {
    const next = set(step, width);
    return next.lines <= run.lines && (run.broken || !next.broken);
  };
  return { step, width: least(1, step.width, asGood), lines: run.lines };
}

/**
 * The least whole number from low to high for which it holds; it holds for high, and for
 * everything above one for which it holds.
 *
 * @param {number} low
 * @param {number} high
 * @param {(n: number) => boolean} holds
 */
function least(low, high, holds) {
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (holds(middle)) high = middle;
    else low = middle + 1;
  }
  return high;
}
