// @ts-check
/** @typedef {import('../../lib/wire.js').Board} Board */
/** @typedef {import('../../lib/wire.js').Mark} Mark */
import { Live } from '../../lib/live.js';
import { BoardView } from '../../lib/boardview.js';
import { byId, el, mark, write } from '../../lib/dom.js';
import { pieces } from '../../lib/placement.js';
import { Pointer } from '../../lib/pointer.js';
import { OnAir } from '../onair.js';
import { Pulse } from '../pulse.js';
import { Rows } from '../rows.js';
import { Strip } from './strip.js';
import { NoticePlate } from './noticeplate.js';
import { Notices } from './notices.js';
import { drawSafeAreas, fitStage, motionOption, setTheme } from '../stage.js';
import { showTag, waitFor } from '../waiting.js';
import { CORRECTION_MS, boardOption, description, hasGame, isNear, told, topOption } from '../words.js';

/** Scene keeps one board on the air. */
class Scene {
  /** @type {Board | null} */ #board = null;
  #number;
  #quiet = false;
  #notices = new Notices();
  #notice = new NoticePlate(byId('notice-place'), byId('notice'));
  /** @type {Mark[]} */ #marks = []; // of the sentence on the air

  /** @param {URLSearchParams} options */
  constructor(options) {
    const motion = motionOption(options);
    const top = topOption(options);
    const flipped = top === 'white';
    this.stage = byId('stage');
    this.#number = boardOption(options.get('board'));
    document.body.dataset.motion = motion ? 'on' : 'off';
    setTheme(options);
    fitStage(this.stage);
    coordinates(flipped);
    this.rows = new Rows(byId('line'), { size: 'air', width: 976, top, motion });
    byId('foot').prepend(...this.rows.roots);
    this.view = new BoardView(byId('board'), { flipped, motion });
    this.pointer = new Pointer({ flipped, motion });
    if (options.get('marks') !== 'off') byId('board').append(this.pointer.root);
    this.strip = new Strip(byId('opening'), byId('moves'));
    if (options.get('safe') === 'on') drawSafeAreas(this.stage);
    this.live = new Live(
      { page: 'scene/board', board: this.#number },
      {
        board: (b) => this.#update(b),
        show: (s) => this.#show(s),
        caption: (f) => this.onAir.take(f),
        time: () => this.pulse.beat(),
        state: (s) => this.#state(s),
      },
    );
    this.onAir = new OnAir(this.live.time, (caption) => this.#point(caption));
    this.pulse = new Pulse(this.live.time, (moment) => this.#tick(moment));
    document.fonts.ready.then(() => this.#board && this.rows.refit(this.#board));
  }

  /** @param {Board} board */
  #update(board) {
    const before = this.#board;
    this.#board = board;
    this.pulse.heard();
    document.body.dataset.rev = String(board.rev);
    mark(this.stage, 'data-view', hasGame(board) ? 'game' : 'waiting');
    if (hasGame(board)) this.#draw(board, before);
    this.pulse.beat();
  }

  /** @param {Board} board @param {Board | null} before */
  #draw(board, before) {
    if (!before || before.fen !== board.fen || before.plies.length !== board.plies.length) {
      this.view.show(board.fen, board.plies[board.plies.length - 1] ?? null, isNear(before, board));
    }
    this.#aim(board);
    showTag(board);
    mark(byId('board'), 'aria-label', description(board));
    this.rows.draw(board, this.pulse.moment);
  }

  /** @param {import('../../lib/wire.js').Caption | null} caption */
  #point(caption) {
    this.#marks = caption?.board === this.#number ? caption.marks : [];
    if (this.#board) this.#aim(this.#board);
  }

  /** @param {Board} board */
  #aim(board) {
    this.pointer.show(this.#marks, pieces(board.fen));
  }

  /** @param {import('../../lib/wire.js').Show} show */
  #show(show) {
    this.#quiet = show.quiet;
    waitFor(show, this.#number);
    if (!this.#board) mark(this.stage, 'data-view', 'waiting');
    this.pulse.beat();
  }

  /** @param {'open' | 'lost'} state */
  #state(state) {
    this.onAir.line(state);
    if (!this.#board) mark(this.stage, 'data-view', 'waiting');
    this.pulse.line(state);
  }

  /** Bring what depends on the time up to it; returns wall milliseconds until it changes. @param {import('../pulse.js').Moment} moment */
  #tick(moment) {
    const board = this.#board;
    if (!board || !hasGame(board)) return Infinity;
    const { now, wall, rate } = moment;
    const waits = [this.rows.tick(board, moment) / rate];
    this.strip.draw(board, now);
    const fix = told(board, now);
    if (fix) waits.push((fix.at + CORRECTION_MS - now) / rate + 1);
    const { notice, until } = this.#notices.at(board, { now, wall, rate }, this.#quiet);
    this.#notice.show(notice);
    if (notice) waits.push(until - wall);
    return Math.min(...waits);
  }
}

/** Letters and numbers along the board. @param {boolean} flipped */
function coordinates(flipped) {
  const files = [...'abcdefgh'];
  const ranks = [...'87654321'];
  if (flipped) for (const list of [files, ranks]) list.reverse();
  byId('files').append(...files.map((f) => el('span', {}, f)));
  byId('ranks').append(...ranks.map((r) => el('span', {}, r)));
}

new Scene(new URLSearchParams(location.search));
