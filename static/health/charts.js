// @ts-check
/** @typedef {import('../lib/wire.js').LatePast} LatePast */
/** @typedef {import('../lib/wire.js').ClockErrorAt} ClockErrorAt */
import { byId, mark, write } from '../lib/dom.js';
import { Chart } from './chart.js';
import { errorSeries, errorWords, lateSeries, lateWords, mergeErrors } from './past.js';
import { LATE_MS } from './pages.js';

/** The least that a scale covers, so that what is fine looks fine. */
const LATE_TOP_MS = 300;
const ERROR_TOP_S = 1;

/** Charts draws the last ten minutes: how late pages were, and by how much running clocks were wrong. */
export class Charts {
  #late = new Chart(byId('late-chart'), {
    unit: 'ms',
    range: (high) => [0, Math.max(LATE_TOP_MS, high * 1.1)],
    limit: LATE_MS,
    lines: [
      { name: 'worst of the scenes', stroke: '--thinking', width: 2 },
      { name: 'middle of the scenes', stroke: '--text', width: 2 },
      { name: 'worst of desks, panels and this page', stroke: '--quiet', width: 1.5, dash: [2, 3] },
    ],
  });
  #error = new Chart(byId('error-chart'), {
    unit: 's',
    range: (high) => [0, Math.max(ERROR_TOP_S, high * 1.1)],
    lines: [{ name: 'a reading', stroke: '--text', points: true }],
  });
  /** @type {ClockErrorAt[]} */ #errors = [];

  /** @param {LatePast} past */
  late(past) {
    this.#late.draw(lateSeries(past));
    const words = lateWords(past, LATE_MS);
    write(byId('late-words'), words);
    mark(byId('late-chart'), 'aria-label', `Last ten minutes: ${words}`);
  }

  /** @param {import('../lib/wire.js').Sources} frame */
  errors(frame) {
    this.#errors = mergeErrors(this.#errors, frame);
  }

  /** Once a second: what was told slides back. @param {number} now show time */
  tick(now) {
    this.#error.draw(errorSeries(this.#errors, now));
    const words = errorWords(this.#errors, now);
    write(byId('error-words'), words);
    mark(byId('error-chart'), 'aria-label', `Last ten minutes: ${words}`);
  }
}
