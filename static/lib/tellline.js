// @ts-check
/** @typedef {import('./wire.js').Board} Board */
import { show, svg, write } from './dom.js';
import { timeText } from './clock.js';
import { QUALITY } from './wire.js';
import { Chart, axis, fit, head, lasted, sideOf } from './tellmap.js';
import { Paint } from './tellpaint.js';
import { HeadMark, Shapes } from './tellshapes.js';

/** A running block may grow to this share of the lane before the window must widen between presses. */
const WIDEN_SHARE = 0.9;
/** Thinks of this length carry their time, if the block is wide enough for it. */
const FIGURES_FROM_MS = 90_000;
const FIGURES_WIDTH = 58;
/** No figure of the axis stands nearer to the head than this. */
const CLEAR_OF_HEAD = 20;
/** No mark of the axis stands nearer to the head than this. */
const MARK_CLEAR = 14;

/**
 * Sizes in pixels. The defaults are those of the board scene.
 *
 * @typedef {object} Options
 * @property {number} [width] of the lanes; without it the element's own width
 * @property {number} [lane] height of a lane
 * @property {number} [gap] between the lanes; the axis stands in it
 * @property {number} [margin] above and below
 * @property {number} [least] width of a move at least
 * @property {'white' | 'black'} [top] whose lane is the upper one
 * @property {boolean} [figures] with axis, minutes on long thinks and time on this move
 * @property {boolean} [motion] whether a new window moves into place
 */

/**
 * TellLine draws a game as time: White and Black each have a lane, and the axis is
 * what they have spent between them. draw() takes a new state of the board; tick() moves nothing
 * but the head and the running block, and is cheap.
 */
export class TellLine {
  #o;
  #paint;
  #shapes;
  #head;
  #root;
  /** @type {Record<string, SVGElement>} */ #g = {};
  /** @type {Chart | null} */ #chart = null;
  /** @type {Board | null} */ #board = null;
  /** @type {number | null} */ #lostAt = null;
  /** @type {{x: number, line: SVGElement | null, figure: SVGElement | null}[]} */ #marks = [];
  #plies = -1;
  #lastNow = 0;

  /** @param {Element} element is filled with the drawing @param {Options} [options] */
  constructor(element, options = {}) {
    const lane = options.lane ?? 40;
    const size = { lane, gap: 24, margin: lane >= 40 ? 28 : 3, least: lane >= 40 ? 6 : 4 };
    const width = Math.round(element.clientWidth) || 976;
    this.#o = { ...size, width, top: 'black', figures: lane >= 40, motion: true, ...options };
    const tops = [this.#o.margin, this.#o.margin + lane + this.#o.gap];
    this.height = tops[1] + lane + this.#o.margin;
    this.#paint = new Paint({ lane, tops });
    this.#shapes = new Shapes({ lane, tops, margin: this.#o.margin }, this.#paint);
    this.#head = new HeadMark({ lane, tops, margin: this.#o.margin });
    this.#root = svg('svg', { class: 'tellline', 'aria-hidden': 'true', overflow: 'visible' });
    this.#build();
    element.replaceChildren(this.#root);
  }

  /** Put the same drawing on another width. @param {number} width */
  resize(width) {
    if (width === this.#o.width || width <= 0) return;
    this.#o.width = width;
    this.#plies = -1;
    this.#build();
    this.#redraw(this.#lastNow);
  }

  /**
   * @param {Board} board any object with plies, running, result and both players' clock and tell
   * @param {number} now show time
   * @param {number | null} [lostAt] show time from which on the page knows nothing any more
   */
  draw(board, now, lostAt = null) {
    this.#board = board;
    this.#lostAt = lostAt;
    this.#redraw(now);
  }

  /** The head and the running block at another time. @param {number} now */
  tick(now) {
    const [board, chart] = [this.#board, this.#chart];
    if (!board || !chart) return;
    this.#lastNow = now;
    const h = head(board, now, this.#lostAt);
    const x = chart.after(h.runMs + h.dotsMs);
    if (x > this.#o.width * WIDEN_SHARE && this.#fit(board, h).windowMs > chart.windowMs) {
      this.#plies = -1;
      return this.#redraw(now);
    }
    this.#move(h, Math.min(x, this.#o.width), chart.after(h.runMs));
  }

  /** @param {Board} board @param {import('./tellmap.js').Head} h */
  #fit(board, h) {
    const { width, least } = this.#o;
    return fit(board.plies.map((p) => p.spentMs), h.runMs + h.dotsMs, width, least);
  }

  /** @param {number} now */
  #redraw(now) {
    const board = this.#board;
    if (!board) return;
    const { width, least } = this.#o;
    const spent = board.plies.map((p) => p.spentMs);
    const h = head(board, now, this.#lostAt);
    const before = this.#chart;
    const best = this.#fit(board, h);
    const keep = before && board.plies.length === this.#plies && best.windowMs > before.windowMs;
    this.#chart = keep && before ? new Chart(spent, before.windowMs, width, least) : best;
    this.#plies = board.plies.length;
    this.#drawPlies(this.#chart);
    this.#drawAxis(this.#chart);
    this.#drawRunning(this.#chart, h);
    if (before && before.scale !== this.#chart.scale) this.#widen(before.scale / this.#chart.scale);
    this.tick(now);
  }

  #build() {
    const { width, lane } = this.#o;
    const clip = (/** @type {string} */ name, /** @type {number} */ x) =>
      svg('clipPath', { id: this.#paint.name(name) }, svg('rect', { x, y: 0, width, height: this.height }));
    const group = (/** @type {string} */ name, /** @type {Record<string, any>} */ attributes = {}) =>
      (this.#g[name] = svg('g', attributes));
    const lanes = (/** @type {string} */ fill, /** @type {number} */ x) =>
      this.#shapes.tops.map((y) => svg('rect', { x, y, width, height: lane, fill }));
    this.#root.setAttribute('width', String(width));
    this.#root.setAttribute('height', String(this.height));
    this.#root.setAttribute('viewBox', `0 0 ${width} ${this.height}`);
    const inside = `url(#${this.#paint.name('lanes')})`;
    const passed = group('passed');
    passed.append(...lanes('var(--lane)', -width));
    const ground = svg('g', { 'clip-path': inside }, ...lanes('var(--ahead)', 0), passed, group('marks'), group('plies'));
    const reveal = `url(#${this.#paint.name('reveal')})`;
    for (const name of ['run', 'dots']) {
      group(name, { 'clip-path': reveal }).append(group(name + 'Inner'));
    }
    this.#root.replaceChildren(this.#paint.defs, clip('lanes', 0), clip('reveal', -width), ground);
    group('running').append(this.#g.run);
    this.#root.append(this.#g.running, this.#g.dots, group('figures'), group('axis'), this.#head.root);
  }

  /** @param {Chart} chart */
  #drawPlies(chart) {
    /** @type {SVGElement[]} */ const shapes = [];
    /** @type {SVGElement[]} */ const figures = [];
    this.#board?.plies.forEach((ply, i) => {
      const lane = this.#lane(sideOf(ply));
      const [x0, x1] = [chart.joints[i], chart.joints[i + 1]];
      shapes.push(...this.#shapes.move(ply.look, lane, x0, x1));
      if (ply.quality === QUALITY.ESTIMATED) shapes.push(this.#shapes.torn(lane, x0, x1));
      if (ply.mark) figures.push(...this.#shapes.sign(ply.mark, lane, x1));
      if (this.#o.figures && carriesTime(ply, x1 - x0)) {
        const y = this.#shapes.tops[lane] + this.#o.lane / 2 + 9;
        const look = ply.look === 'unsure' ? 'tell-time hollow' : 'tell-time';
        figures.push(svg('text', { class: look, x: (x0 + x1) / 2 - 1, y }, lasted(ply, this.#board?.white.clock.stepMs ?? 0)));
      }
    });
    this.#g.plies.replaceChildren(...shapes);
    this.#g.figures.replaceChildren(...figures);
  }

  /** @param {Chart} chart */
  #drawAxis(chart) {
    const { width, figures, lane } = this.#o;
    const marks = axis(chart, width - (figures ? 30 : 0), figures ? 90 : 24);
    this.#marks = marks.map(({ minute, x }) => ({ x, line: minute ? this.#markLine(x) : null, figure: this.#figure(minute, x) }));
    this.#g.marks.replaceChildren(...this.#marks.flatMap((m) => m.line ?? []));
    this.#g.axis.replaceChildren(...(lane >= 40 ? this.#marks.flatMap((m) => m.figure ?? []) : []));
  }

  /** @param {number} x */
  #markLine(x) {
    const { lane } = this.#o;
    const d = this.#shapes.tops.map((y) => `M${x - 1} ${y}h2v${lane}h-2z`).join('');
    return svg('path', { d, fill: 'var(--ink)' });
  }

  /** @param {number} minute @param {number} x */
  #figure(minute, x) {
    if (!this.#o.figures) return null;
    const y = this.#shapes.tops[0] + this.#o.lane + this.#o.gap / 2 + 6;
    return svg('text', { class: minute ? 'tell-axis' : 'tell-axis first', x, y }, minute ? String(minute) : '0 min');
  }

  /** @param {Chart} chart @param {import('./tellmap.js').Head} h */
  #drawRunning(chart, h) {
    const { width, lane } = this.#o;
    const at = chart.played;
    const room = Math.max(0, width - at);
    const block = h.side ? [this.#shapes.block(h.look, this.#lane(h.side), at, room)] : [];
    this.#g.runInner.replaceChildren(...block);
    const from = chart.after(h.runMs);
    const dots = this.#shapes.tops.map((y, i) =>
      svg('rect', { x: from, y, width: Math.max(0, width - from), height: lane, fill: this.#paint.dots(i) }),
    );
    this.#g.dotsInner.replaceChildren(...(h.held ? dots : []));
    this.#head.draw(h, h.side ? this.#lane(h.side) : 0, this.#o.figures);
  }

  /**
   * @param {import('./tellmap.js').Head} h
   * @param {number} x of the head
   * @param {number} runX where the running block ends
   */
  #move(h, x, runX) {
    const gap = this.#o.lane >= 16 ? 2 : 1;
    this.#g.passed.setAttribute('transform', `translate(${x} 0)`);
    this.#head.root.setAttribute('transform', `translate(${x} 0)`);
    reveal(this.#g.run, this.#g.runInner, Math.min(x, runX) - gap);
    reveal(this.#g.dots, this.#g.dotsInner, x);
    if (this.#o.figures) write(this.#head.now, h.side && !h.held && !h.vague ? timeText(h.runMs) : '');
    const headless = !h.held && h.side === '';
    for (const m of this.#marks) {
      const off = headless ? Infinity : Math.abs(m.x - x);
      if (m.line) show(m.line, off >= MARK_CLEAR);
      if (m.figure) show(m.figure, off >= CLEAR_OF_HEAD);
    }
  }

  /** All blocks move to a new scale together. @param {number} from share of the old scale */
  #widen(from) {
    if (!this.#o.motion || document.hidden) return;
    const ease = { duration: 400, easing: 'ease-out' };
    const { plies, running, figures, axis: scale, marks } = this.#g;
    for (const g of [plies, running]) g.animate([{ transform: `scaleX(${from})` }, { transform: 'none' }], ease);
    for (const g of [figures, scale, marks]) g.animate([{ opacity: 0 }, { opacity: 1 }], ease);
  }

  /** @param {'white' | 'black'} side */
  #lane(side) {
    return side === this.#o.top ? 0 : 1;
  }
}

/** @param {import('./wire.js').Ply} ply @param {number} width */
function carriesTime(ply, width) {
  return ply.spentMs >= FIGURES_FROM_MS && width >= FIGURES_WIDTH && (ply.look === 'thinking' || ply.look === 'unsure');
}

/** Uncover what lies left of x, without touching what is uncovered. @param {SVGElement} outer @param {SVGElement} inner @param {number} x */
function reveal(outer, inner, x) {
  outer.setAttribute('transform', `translate(${x} 0)`);
  inner.setAttribute('transform', `translate(${-x} 0)`);
}
