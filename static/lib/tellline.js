// @ts-check
/** @typedef {import('./wire.js').Board} Board */
/** @typedef {import('./wire.js').Ply} Ply */
/** @typedef {import('./tellmap.js').Chart} Chart */
/** @typedef {import('./tellmap.js').Head} Head */
import { mark, svg } from './dom.js';
import { timeText } from './clock.js';
import { QUALITY } from './wire.js';
import { axis, head, sideOf } from './tellmap.js';
import { layout } from './tellbreak.js';
import { SIZES } from './tellsizes.js';
import { Paint } from './tellpaint.js';
import { Shapes } from './tellshapes.js';
import { HeadMark, Spent, flagSpan, novelty, poleAt } from './tellmarks.js';
import { ground, paper, tear, toothOf } from './tellground.js';
import { figureOf, markOf, timeOf } from './telltext.js';

/** A running block may grow to this share of the lane before the scale must change between presses. */
const WIDEN_SHARE = 0.9;
/** No figure of the axis stands nearer to the head, a pole or a break than this, and no mark. */
const CLEAR = { figure: 20, mark: 14 };
/** Figures of the axis are so many times their type apart; marks without figures so many pixels. */
const APART = { figures: 5, marks: 24 };
/** The last figure of the axis keeps clear of the lane's end. */
const AXIS_END = 30;

/**
 * @typedef {object} Options
 * @property {string} [size] a key of SIZES
 * @property {number} [width] of the lanes; without it the element's own width
 * @property {'white' | 'black'} [top] whose lane is the upper one
 * @property {boolean} [motion] whether a new scale fades in
 * @property {typeof import('./telljoints.js').joints | null} [moves] writes moves at their joints, where the size has type for it
 * @property {typeof import('./tellsay.js').said | null} [says] the drawing in a sentence for screen readers
 */

/**
 * TellLine draws a game as time: White and Black each have a lane, and the axis is what they have spent
 * between them. draw() takes a new state of the board; tick() moves only head and running block, cheaply.
 */
export class TellLine {
  #o;
  #s;
  #tops;
  #paint;
  #shapes;
  /** @type {HeadMark} */ #head;
  /** @type {Spent | null} */ #spent = null;
  #root;
  #place;
  /** @type {Record<string, SVGElement>} */ #g = {};
  /** @type {Record<string, import('./tellpart.js').Part>} */ #parts = {};
  #drawn = '';
  /** @type {Ply[] | null} */ #drawnPlies = null;
  /** @type {Chart | null} */ #chart = null;
  /** @type {Board | null} */ #board = null;
  /** @type {number | null} */ #lostAt = null;
  /** @type {{x: number, line: SVGElement | null, figure: SVGElement | null}[]} */ #marks = [];
  #plies = -1;
  #lastNow = 0;

  /** @param {HTMLElement} element is filled with the drawing @param {Options} [options] */
  constructor(element, options = {}) {
    this.#place = element;
    element.style.isolation = 'isolate'; // or a fade would begin and end with a layout
    const width = Math.round(element.clientWidth) || 976;
    this.#o = { size: 'air', width, top: 'black', motion: true, moves: null, says: null, ...options };
    this.#s = SIZES[this.#o.size];
    const { lane, gap, over, under } = this.#s;
    this.#tops = [over, over + lane + gap];
    this.height = this.#tops[1] + lane + under;
    this.#paint = new Paint(this.#s, this.#tops);
    this.#shapes = new Shapes(this.#s, this.#tops, this.#paint);
    this.#head = new HeadMark(this.#s, this.#tops, width, this.height);
    const { says } = this.#o;
    // It is a picture to those who listen once there is something to say of it.
    this.#root = svg('svg', { class: 'tellline', 'data-size': this.#o.size, overflow: 'visible', 'aria-hidden': says ? null : 'true' });
    if (this.#s.now) this.#spent = new Spent(this.#s, this.#tops, this.height);
    this.#build();
    element.replaceChildren(this.#root, ...(this.#spent ? [this.#spent.root] : []));
  }

  /** Put the same drawing on another width. @param {number} width */
  resize(width) {
    if (width === this.#o.width || width <= 0) return;
    this.#o.width = width;
    this.#chart = null;
    this.#head = new HeadMark(this.#s, this.#tops, width, this.height);
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
    // Most states differ in what is not drawn here; to draw the same again would lay it out again.
    const { side, look, held, over, vague, exact, runMs } = head(board, now, lostAt);
    const drawn = JSON.stringify([side, look, held, over, vague, exact, held && runMs, board.novelty?.ply, board.white.clock.stepMs]);
    if (drawn === this.#drawn && board.plies === this.#drawnPlies) return this.tick(now);
    [this.#drawn, this.#drawnPlies] = [drawn, board.plies];
    this.#redraw(now);
  }

  /** The head and the running block at another time. @param {number} now */
  tick(now) {
    const [board, chart] = [this.#board, this.#chart];
    if (!board || !chart) return;
    this.#lastNow = now;
    const h = head(board, now, this.#lostAt);
    const x = chart.after(h.runMs + h.dotsMs);
    if (x > this.#o.width * WIDEN_SHARE && this.#lay(board, h).after(h.runMs + h.dotsMs) < x) {
      this.#plies = -1;
      return this.#redraw(now);
    }
    this.#move(h, Math.min(x, this.#o.width), Math.min(x, chart.after(h.runMs)));
  }

  /** @param {Board} board @param {Head} h */
  #lay(board, h) {
    return layout(board.plies.map((p) => p.spentMs), h.runMs + h.dotsMs, this.#o.width, this.#s);
  }

  /** @param {number} now */
  #redraw(now) {
    const board = this.#board;
    if (!board) return;
    const h = head(board, now, this.#lostAt);
    const before = this.#chart;
    const same = before && board.plies.length === this.#plies ? before.again(board.plies.map((p) => p.spentMs)) : null;
    const stays = same !== null && same.after(h.runMs + h.dotsMs) <= this.#o.width * WIDEN_SHARE;
    const chart = (this.#chart = stays && same ? same : this.#lay(board, h));
    this.#plies = board.plies.length;
    this.#g.paper.setAttribute('d', paper(this.#o.width, this.height, chart.tear, toothOf(this.#s)));
    const pole = this.#poleOf(board, chart);
    this.#drawPlies(board, chart, pole);
    this.#g.novelty.replaceChildren(...(pole === null ? [] : [novelty(this.#s, this.#tops, pole)]));
    this.#drawAxis(chart, pole);
    this.#drawRunning(chart, h);
    if (this.#o.says) {
      this.#root.setAttribute('role', 'img');
      this.#root.setAttribute('aria-label', this.#o.says(board, h));
    }
    if (before && (before.scale !== chart.scale || before.gap?.to !== chart.gap?.to)) this.#fade();
    this.tick(now);
  }

  #build() {
    const { width } = this.#o;
    ({ g: this.#g, parts: this.#parts } = ground(this.#s, this.#tops, this.#paint, width, this.height));
    this.#root.setAttribute('width', String(width));
    this.#root.setAttribute('height', String(this.height));
    this.#root.setAttribute('viewBox', `0 0 ${width} ${this.height}`);
    const { ground: below, running, figures, axis: scale, novelty: pole } = this.#g;
    this.#root.replaceChildren(this.#paint.defs, this.#g.clips, below, running, this.#parts.dots.root, figures, scale, this.#head.root, pole);
  }

  /** @param {Board} board @param {Chart} chart @param {number | null} pole */
  #drawPlies(board, chart, pole) {
    /** @type {SVGElement[]} */ const shapes = [];
    /** @type {SVGElement[]} */ const figures = [];
    const outside = this.#s.under >= this.#s.sign + 4 && !this.#o.moves;
    board.plies.forEach((ply, i) => {
      if (chart.isGone(i)) return;
      const lane = this.#lane(sideOf(ply));
      const [x0, x1] = [chart.joints[i], chart.joints[i + 1]];
      shapes.push(...this.#shapes.move(ply, lane, x0, x1));
      if (ply.quality === QUALITY.ESTIMATED) shapes.push(this.#shapes.torn(ply.look, lane, x0, x1));
      if (ply.mark) figures.push(...this.#shapes.sign(ply.mark, lane, x1, outside));
      figures.push(...timeOf(ply, this.#s, this.#tops[lane], x0, x1, board.white.clock.stepMs));
    });
    if (chart.tear) figures.push(...tear(this.#s, this.#tops, chart.tear, chart.goneMs, pole));
    if (this.#o.moves && this.#s.joints) {
      const flag = pole === null ? null : flagSpan(this.#s, pole);
      figures.push(...this.#o.moves(board, chart, { lane: (side) => this.#lane(side), size: this.#s, tops: this.#tops, flag }));
    }
    this.#g.plies.replaceChildren(...shapes);
    this.#g.figures.replaceChildren(...figures);
  }

  /** Where a new move stands, null without one. @param {Board} board @param {Chart} chart */
  #poleOf(board, chart) {
    const i = board.novelty ? board.plies.findIndex((p) => p.number === board.novelty?.ply) : -1;
    return i < 0 ? null : poleAt(chart, i);
  }

  /** @param {Chart} chart @param {number | null} pole */
  #drawAxis(chart, pole) {
    const written = this.#s.axis > 0;
    const marks = axis(chart, this.#o.width - (written ? AXIS_END : 0), written ? APART.figures * this.#s.axis : APART.marks);
    const edges = [pole, chart.tear?.[1]].flatMap((x) => x ?? []);
    const clear = (/** @type {number} */ x, /** @type {number} */ by) => edges.every((edge) => Math.abs(x - edge) >= by);
    this.#marks = marks.map(({ minute, x }) => ({
      x,
      line: minute && clear(x, CLEAR.mark) ? markOf(x, this.#s, this.#tops) : null,
      figure: written && clear(x, CLEAR.figure) ? figureOf(minute, x, this.#s, this.#tops) : null,
    }));
    this.#g.marks.replaceChildren(...this.#marks.flatMap((m) => m.line ?? []));
    this.#g.axis.replaceChildren(...this.#marks.flatMap((m) => m.figure ?? []));
  }

  /** @param {Chart} chart @param {Head} h */
  #drawRunning(chart, h) {
    const { width } = this.#o;
    const room = Math.max(0, width - chart.played);
    const block = h.side ? [this.#shapes.block(h.look, this.#lane(h.side), chart.played, room)] : [];
    this.#g.run.replaceChildren(...block);
    const from = chart.after(h.runMs);
    const dots = this.#tops.map((y, i) =>
      svg('rect', { x: from, y, width: Math.max(0, width - from), height: this.#s.lane, fill: this.#paint.dots(i) }),
    );
    this.#g.dots.replaceChildren(...(h.held ? dots : []));
    const lane = h.side ? this.#lane(h.side) : 0;
    this.#head.draw(h, lane);
    this.#spent?.draw(h.look, lane);
  }

  /**
   * @param {Head} h
   * @param {number} x of the head
   * @param {number} runX where the running block ends
   */
  #move(h, x, runX) {
    this.#parts.passed.show(0, x);
    this.#head.move(x);
    if (h.side) this.#parts.run.show(0, runX - this.#s.rest);
    if (h.held) this.#parts.dots.show(0, x);
    this.#spent?.say(h.side && !h.held && !h.vague ? (h.exact ? '' : '≈ ') + timeText(h.runMs) : '', x);
    const headless = !h.held && h.side === '';
    for (const m of this.#marks) {
      const off = headless ? Infinity : Math.abs(m.x - x);
      if (m.line) mark(m.line, 'visibility', off >= CLEAR.mark ? null : 'hidden');
      if (m.figure) mark(m.figure, 'visibility', off >= CLEAR.figure ? null : 'hidden');
    }
  }

  /** A new scale comes up as a whole: whatever moves or fades inside of an SVG is laid out again for it. */
  #fade() {
    if (!this.#o.motion || document.hidden) return;
    this.#place.animate([{ opacity: 0 }, { opacity: 1 }], { duration: 400, easing: 'ease-out' });
  }

  /** @param {'white' | 'black'} side */
  #lane(side) {
    return side === this.#o.top ? 0 : 1;
  }
}
