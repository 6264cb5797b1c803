// @ts-check
import uPlot from '../vendor/uplot/uplot.js';
import { SHOWN_MIN } from './past.js';

/**
 * @typedef {object} LineLook
 * @property {string} name
 * @property {string} stroke custom property of its colour
 * @property {number} [width] px
 * @property {number[]} [dash] px
 * @property {boolean} [points] points and no line
 *
 * @typedef {object} ChartLook
 * @property {string} unit of the figures
 * @property {(high: number) => [number, number]} range of the scale, by the greatest figure
 * @property {number} [limit] at which a broken line is drawn
 * @property {LineLook[]} lines
 */

const HEIGHT = 144; // px

/** Chart draws figures over the last minutes. Its legend and words are the page's, beside it. */
export class Chart {
  #root;
  #plot;

  /** @param {HTMLElement} root @param {ChartLook} look */
  constructor(root, look) {
    this.#root = root;
    this.#plot = new uPlot(options(root, look), [[], ...look.lines.map(() => [])], root);
    new ResizeObserver(() => this.#fit()).observe(root);
  }

  #fit() {
    const width = this.#root.clientWidth;
    if (width > 0 && width !== this.#plot.width) this.#plot.setSize({ width, height: HEIGHT });
  }

  /** @param {(number | null)[][]} figures x first */
  draw(figures) {
    this.#plot.setData(/** @type {any} */ (figures));
  }
}

/** @param {HTMLElement} root @param {ChartLook} look @returns {uPlot.Options} */
function options(root, look) {
  const style = getComputedStyle(root);
  const colour = (/** @type {string} */ name) => style.getPropertyValue(name).trim();
  const font = `14px ${style.fontFamily}`;
  const quiet = { stroke: colour('--quiet'), font, ticks: { show: false }, grid: { stroke: colour('--hairline'), width: 1 } };
  return {
    width: Math.max(200, root.clientWidth),
    height: HEIGHT,
    padding: [8, 16, 0, 0],
    cursor: { show: false },
    legend: { show: false },
    scales: { x: { time: false, range: [-SHOWN_MIN, 0] }, y: { range: (_, _low, high) => look.range(high ?? 0) } },
    axes: [
      { ...quiet, size: 34, gap: 12, splits: () => [-10, -8, -6, -4, -2, 0], values: (_, at) => at.map((v) => (v === 0 ? 'now' : v === -10 ? '10 min ago' : `${-v}`)) },
      { ...quiet, size: 64, gap: 6, space: 36, values: (_, at) => at.map((v) => `${v} ${look.unit}`) },
    ],
    series: [{}, ...look.lines.map((line) => series(line, colour(line.stroke)))],
    hooks: { drawAxes: [(plot) => drawLimit(plot, look.limit, colour('--text'))] },
  };
}

/** @param {LineLook} line @param {string} stroke @returns {uPlot.Series} */
function series(line, stroke) {
  if (line.points) return { stroke, width: 0, paths: () => null, points: { show: true, size: 6, fill: stroke, stroke, width: 0 } };
  const alone = { show: true, size: 4, fill: stroke, stroke, width: 0, filter: lonely };
  return { stroke, width: line.width, dash: line.dash, points: alone };
}

/** Figures with none on either side, which a line would leave out. @param {uPlot} plot @param {number} i */
function lonely(plot, i) {
  const figures = [...plot.data[i]];
  /** @type {number[]} */ const found = [];
  figures.forEach((v, at) => {
    if (v !== null && (figures[at - 1] ?? null) === null && (figures[at + 1] ?? null) === null) found.push(at);
  });
  return found;
}

/** @param {uPlot} plot @param {number | undefined} limit @param {string} stroke */
function drawLimit(plot, limit, stroke) {
  if (limit === undefined) return;
  const { ctx, bbox } = plot;
  const y = Math.round(plot.valToPos(limit, 'y', true));
  ctx.save();
  ctx.strokeStyle = stroke;
  ctx.lineWidth = devicePixelRatio;
  ctx.setLineDash([4 * devicePixelRatio, 4 * devicePixelRatio]);
  ctx.beginPath();
  ctx.moveTo(bbox.left, y);
  ctx.lineTo(bbox.left + bbox.width, y);
  ctx.stroke();
  ctx.restore();
}
