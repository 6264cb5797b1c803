// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('./pulse.js').Moment} Moment */
/** @typedef {import('./plate.js').Time} Time */
/** @typedef {'white' | 'black'} Side */
import { STEP, Steady, spentAt, standsFor, stepOf, untilChange } from '../lib/clock.js';
import { point } from '../lib/san.js';
import { TellLine } from '../lib/tellline.js';
import { QUALITY } from '../lib/wire.js';
import { inTrouble } from '../lib/tellmap.js';
import { Plate } from './plate.js';
import { isHeld, isOver, isVeiled } from './words.js';

/** States in which a clock shows the same until the board is another. */
const RESTS = new Set(['stopped', 'over']);
const SIDES = /** @type {const} */ (['white', 'black']);

/** Rows is a game without its board: a row for each player, and the tell line of both. */
export class Rows {
  #plates = { white: new Plate('white'), black: new Plate('black') };
  #steady = { white: new Steady(), black: new Steady() };
  #line;
  #second = '';
  /** @type {Record<Side, Time | null>} */ #times = { white: null, black: null };
  /** What they are of. @type {unknown[]} */ #of = [];
  /** @type {number | null} */ #heldAt = null;

  /**
   * @param {HTMLElement} place is filled with the tell line
   * @param {import('../lib/tellline.js').Options & {top: Side}} options of the tell line; top: whose row is the upper one
   */
  constructor(place, options) {
    this.#line = new TellLine(place, options);
    const order = options.top === 'black' ? /** @type {const} */ (['black', 'white']) : SIDES;
    /** The upper row and the lower one. */
    this.roots = order.map((side) => this.#plates[side].root);
  }

  /** Another state of the board. @param {Board} board @param {Moment} moment */
  draw(board, moment) {
    for (const side of SIDES) this.#plates[side].player(board[side]);
    this.#drawLine(board, moment);
  }

  /** The type has arrived. @param {Board} board */
  refit(board) {
    for (const side of SIDES) this.#plates[side].refit(board[side]);
  }

  /** What depends on the time; returns show milliseconds until it changes by itself. @param {Board} board @param {Moment} moment */
  tick(board, moment) {
    const wait = this.clocks(board, moment);
    this.#tickLine(board, moment);
    return wait;
  }

  /** The same without the tell line, which line() moves. @param {Board} board @param {Moment} moment */
  clocks(board, moment) {
    if (moment.heldAt !== this.#heldAt) this.#drawLine(board, moment);
    if (board !== this.#of[0] || moment.heldAt !== this.#of[1]) this.#times = { white: null, black: null };
    this.#of = [board, moment.heldAt];
    return Math.min(this.#clock(board, 'white', moment), this.#clock(board, 'black', moment), isHeld(board, moment.heldAt) ? 1000 : Infinity);
  }

  /** The tell line up to a moment. @param {Moment} moment */
  line({ now }) {
    this.#line.tick(now);
  }

  /** @param {Board} board @param {Side} side @param {Moment} moment */
  #clock(board, side, { now, heldAt }) {
    const before = this.#times[side];
    if (before && before.known && RESTS.has(before.state)) return Infinity; // it shows what it did
    const time = before ?? (this.#times[side] = this.#state(board, side, heldAt));
    const left = this.#steady[side].next(board, side, heldAt ?? now);
    const stands = time.state === 'running' ? standsFor(board, side, now) : 0;
    this.#plates[side].time(time, left, stands);
    if (!time.known || (time.state !== 'running' && time.state !== 'rising')) return Infinity;
    if (stands > 0) return (stands % 1000) + 1;
    return Math.min(untilChange(left, time.step, time.state === 'rising'), time.step === STEP.MINUTE ? 1000 : Infinity); // the tell line goes on meanwhile
  }

  /** What the time does not change, and with it the tell. @param {Board} board @param {Side} side @param {number | null} heldAt @returns {Time} */
  #state(board, side, heldAt) {
    const { clock, tell } = board[side];
    const [over, held] = [isOver(board), isHeld(board, heldAt)];
    this.#plates[side].says(board[side], held, over);
    const state = over ? 'over' : held ? 'held' : clock.state;
    const trouble = over || held || !inTrouble(tell) ? 0 : tell.trouble;
    const exact = state !== 'held' && clock.quality !== QUALITY.ESTIMATED;
    const known = clock.quality !== QUALITY.NONE;
    return { state, step: stepOf(clock), mark: clock.mark, known, veiled: isVeiled(board), exact, trouble, point: point(board.result, side) };
  }

  /** @param {Board} board @param {Moment} moment */
  #drawLine(board, { now, heldAt }) {
    this.#heldAt = heldAt;
    this.#line.draw(isVeiled(board) ? { ...board, white: since(board.white, now), black: since(board.black, now) } : board, now, heldAt);
    this.#second = '';
  }

  /** The tell line moves once a second. @param {Board} board @param {Moment} moment */
  #tickLine(board, { now, heldAt }) {
    const running = board.running === 'white' || board.running === 'black' ? board[board.running].clock : null;
    const spent = running ? spentAt(running, now) : now;
    const second = `${board.rev} ${Math.floor(spent / 1000)} ${heldAt}`;
    if (second === this.#second) return;
    this.#second = second;
    this.#line.tick(now);
  }
}

/** A clock of which nothing is told has no instant: nothing is known of the time from now on. @param {import('../lib/wire.js').Player} player @param {number} now */
function since(player, now) {
  return { ...player, clock: { ...player.clock, at: player.clock.at || now } };
}
