// @ts-check
/** @typedef {import('../../lib/wire.js').Board} Board */
/** @typedef {import('../../lib/wire.js').Mark} Mark */
import { Live } from '../../lib/live.js';
import { BoardView } from '../../lib/boardview.js';
import { TellLine } from '../../lib/tellline.js';
import { inTrouble } from '../../lib/tellmap.js';
import { Steady, spentAt, standsFor, stepOf, untilChange } from '../../lib/clock.js';
import { byId, el, mark, write } from '../../lib/dom.js';
import { isWhite, moveNumber, point } from '../../lib/san.js';
import { pieces, spoken } from '../../lib/placement.js';
import { Pointer } from '../../lib/pointer.js';
import { OnAir } from '../onair.js';
import { Plate } from './plate.js';
import { CORRECTION_MS, Strip, told } from './strip.js';
import { Notices } from './notices.js';
import { drawSafeAreas, fitStage, motionOption } from '../stage.js';
import { hasGame, isOver, placeOf } from './words.js';

/** A lost line shows after this long, wall time: most come back sooner. */
const LOST_SHOWS_MS = 3000;
/** No two looks at the time are nearer than this, wall time. */
const SHORTEST_WAIT_MS = 40;
/** Further than this many plies from the picture is a cut, not a move. */
const NEAR_PLIES = 2;

const SIDES = /** @type {const} */ (['white', 'black']);

/** Scene keeps one board on the air. */
class Scene {
  /** @type {Board | null} */ #board = null;
  /** @type {number | null} */ #lostWall = null;
  /** @type {number | null} */ #heldAt = null;
  #timer = 0;
  #second = '';
  #number;
  #steady = { white: new Steady(), black: new Steady() };
  #plates = { white: new Plate('white'), black: new Plate('black') };
  #notices = new Notices();
  /** @type {Mark[]} */ #marks = []; // of the sentence on the air

  /** @param {URLSearchParams} options */
  constructor(options) {
    const motion = motionOption(options);
    const top = options.get('side')?.toLowerCase() === 'black' ? 'white' : 'black';
    this.stage = byId('stage');
    this.#number = boardOption(options.get('board'));
    document.body.dataset.motion = motion ? 'on' : 'off';
    fitStage(this.stage);
    coordinates(top === 'white');
    const rows = top === 'black' ? [this.#plates.black, this.#plates.white] : [this.#plates.white, this.#plates.black];
    byId('foot').prepend(...rows.map((p) => p.root));
    this.view = new BoardView(byId('board'), { flipped: top === 'white', motion });
    this.pointer = new Pointer({ flipped: top === 'white', motion });
    if (options.get('marks') !== 'off') byId('board').append(this.pointer.root);
    this.line = new TellLine(byId('line'), { size: 'air', width: 976, top, motion });
    this.strip = new Strip(byId('opening'), byId('moves'));
    if (options.get('safe') === 'on') drawSafeAreas(this.stage);
    this.live = new Live(
      { page: 'scene/board', board: this.#number },
      {
        board: (b) => this.#update(b),
        show: (s) => this.#show(s),
        caption: (f) => this.onAir.take(f),
        time: () => this.#tick(),
        state: (s) => this.#state(s),
      },
    );
    this.onAir = new OnAir(this.live.time, (caption) => this.#point(caption));
    document.addEventListener('visibilitychange', () => this.#tick());
    document.fonts.ready.then(() => this.#refit());
  }

  /** @param {Board} board */
  #update(board) {
    const before = this.#board;
    this.#board = board;
    this.#lostWall = this.#heldAt = null;
    document.body.dataset.rev = String(board.rev);
    mark(this.stage, 'data-view', hasGame(board) ? 'game' : 'waiting');
    if (hasGame(board)) this.#draw(board, before);
    this.#tick();
  }

  /** @param {Board} board @param {Board | null} before */
  #draw(board, before) {
    const last = board.plies[board.plies.length - 1] ?? null;
    if (!before || before.fen !== board.fen || before.plies.length !== board.plies.length) {
      const mended = before !== null && board.correction?.at !== before.correction?.at;
      const near = before !== null && !mended && Math.abs(board.plies.length - before.plies.length) <= NEAR_PLIES;
      this.view.show(board.fen, last, near);
    }
    this.#aim(board);
    const tag = byId('tag');
    tag.replaceChildren(el('b', {}, board.event), el('span', {}, placeOf(board)));
    mark(byId('board'), 'aria-label', description(board));
    for (const side of SIDES) this.#plates[side].player(board[side]);
    this.#drawLine(board);
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

  /** @param {Board} board */
  #drawLine(board) {
    this.line.draw(board, this.live.time.now(), this.#heldAt);
    this.#second = '';
  }

  /** @param {import('../../lib/wire.js').Show} show */
  #show(show) {
    write(byId('waiting-show'), show.title);
    write(byId('waiting-words'), show.boards.length ? `Waiting for board ${this.#number}` : 'Waiting for the first game');
    if (!this.#board) mark(this.stage, 'data-view', 'waiting');
  }

  /** @param {'open' | 'lost'} state */
  #state(state) {
    document.body.dataset.line = state;
    this.onAir.line(state);
    if (!this.#board) mark(this.stage, 'data-view', 'waiting');
    if (state === 'lost') this.#lostWall ??= performance.now();
    this.#tick();
  }

  #refit() {
    const board = this.#board;
    if (board) for (const side of SIDES) this.#plates[side].refit(board[side]);
  }

  /** Bring everything that depends on the time up to now, and come back when the next of it changes. */
  #tick() {
    clearTimeout(this.#timer);
    const wall = performance.now();
    const now = this.live.time.now();
    const board = this.#board;
    let wait = this.#watchLine(wall, now);
    if (board && hasGame(board)) wait = Math.min(wait, this.#tickGame(board, now, wall));
    if (wait < Infinity) this.#timer = window.setTimeout(() => this.#tick(), Math.max(SHORTEST_WAIT_MS, wait));
  }

  /** After a while without the relay the clocks stop pretending. @param {number} wall @param {number} now */
  #watchLine(wall, now) {
    if (this.#lostWall === null || this.#heldAt !== null) return Infinity;
    const wait = this.#lostWall + LOST_SHOWS_MS - wall;
    if (wait > 0) return wait;
    if (!this.#board) mark(this.stage, 'data-view', 'waiting');
    this.#heldAt = now;
    if (this.#board) this.#drawLine(this.#board);
    return Infinity;
  }

  /** @param {Board} board @param {number} now @param {number} wall */
  #tickGame(board, now, wall) {
    const rate = this.live.time.rate;
    const waits = SIDES.map((side) => this.#clock(board, side, now) / rate);
    this.#tickLine(board, now);
    this.strip.draw(board, now);
    const fix = told(board, now);
    if (fix) waits.push((fix.at + CORRECTION_MS - now) / rate + 1);
    const { notice, until } = this.#notices.at(board, now, wall, rate);
    this.#notice(notice);
    if (notice) waits.push(until - wall);
    if (this.#isHeld(board)) waits.push(1000 / rate);
    return Math.min(...waits);
  }

  /** @param {Board} board */
  #isHeld(board) {
    return !isOver(board) && (board.frozen || this.#heldAt !== null || SIDES.some((s) => board[s].clock.state === 'held'));
  }

  /** Draw one clock; returns show milliseconds until its text changes. @param {Board} board @param {'white' | 'black'} side @param {number} now */
  #clock(board, side, now) {
    const { clock, tell } = board[side];
    const over = isOver(board);
    const held = this.#isHeld(board);
    const left = this.#steady[side].next(board, side, this.#heldAt ?? now);
    const state = over ? 'over' : held ? 'held' : clock.state;
    const stands = state === 'running' ? standsFor(board, side, now) : 0;
    const step = stepOf(clock);
    const exact = state !== 'held' && clock.quality !== 'estimated';
    const known = clock.quality !== 'none';
    this.#plates[side].time({ state, left, step, stands, mark: clock.mark, known, exact, trouble: over || held || !inTrouble(tell) ? 0 : tell.trouble, point: point(board.result, side) });
    this.#plates[side].says(board[side], held, over);
    if (!known || (state !== 'running' && state !== 'rising')) return Infinity;
    return stands > 0 ? (stands % 1000) + 1 : untilChange(left, step, state === 'rising');
  }

  /** The tell line moves once a second. @param {Board} board @param {number} now */
  #tickLine(board, now) {
    const running = board.running === 'white' || board.running === 'black' ? board[board.running].clock : null;
    const spent = running ? spentAt(running, now) : now;
    const second = `${board.rev} ${Math.floor(spent / 1000)} ${this.#heldAt}`;
    if (second === this.#second) return;
    this.#second = second;
    this.line.tick(now);
  }

  /** @param {import('./notices.js').Notice | null} notice */
  #notice(notice) {
    const box = byId('notice');
    mark(box, 'data-kind', notice?.kind ?? '');
    mark(byId('notice-place'), 'data-shown', String(notice !== null));
    if (!notice) return; // the words stay while the plate rolls back
    if (box.dataset.key === `${notice.headline} ${notice.evidence}`) return;
    box.dataset.key = `${notice.headline} ${notice.evidence}`;
    if (!box.firstElementChild) box.append(el('i'), el('b'), el('span'));
    mark(box, 'data-look', notice.kind);
    write(box.children[1], notice.headline);
    write(box.children[2], notice.evidence);
    const [, headline, evidence] = box.children;
    mark(box, 'data-narrow', null);
    const cut = headline.scrollWidth > headline.clientWidth || evidence.scrollWidth > evidence.clientWidth;
    mark(box, 'data-narrow', cut); // half a sentence is worse than none
  }
}

/** The board asked for, from 1; anything that is no number means the first. @param {string | null} text */
function boardOption(text) {
  return /^[1-9]\d{0,2}$/.test(text ?? '') ? Number(text) : 1;
}

/** Letters and numbers along the board. @param {boolean} flipped */
function coordinates(flipped) {
  const files = [...'abcdefgh'];
  const ranks = [...'87654321'];
  if (flipped) for (const list of [files, ranks]) list.reverse();
  byId('files').append(...files.map((f) => el('span', {}, f)));
  byId('ranks').append(...ranks.map((r) => el('span', {}, r)));
}

/** The board in words. @param {Board} board */
function description(board) {
  const last = board.plies[board.plies.length - 1];
  const moved = last ? ` Last move ${moveNumber(last.number)}${isWhite(last.number) ? '' : ' …'} ${last.san}.` : '';
  const next = isOver(board) ? ` Result ${board.result}.` : board.fen.split(' ')[1] === 'b' ? ' Black to move.' : ' White to move.';
  return `${board.white.name} against ${board.black.name}. ${spoken(board.fen)}${moved}${next}`;
}

new Scene(new URLSearchParams(location.search));
