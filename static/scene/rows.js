// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('./pulse.js').Moment} Moment */
/** @typedef {'white' | 'black'} Side */
import { STEP, Steady, spentAt, standsFor, stepOf, untilChange } from '../lib/clock.js';
import { point } from '../lib/san.js';
import { TellLine } from '../lib/tellline.js';
import { inTrouble } from '../lib/tellmap.js';
import { Plate } from './plate.js';
import { isHeld, isOver, isVeiled } from './words.js';

const SIDES = /** @type {const} */ (['white', 'black']);

/** Rows is a game without its board: a row for each player, and the tell line of both. */
export class Rows {
  #plates = { white: new Plate('white'), black: new Plate('black') };
  #steady = { white: new Steady(), black: new Steady() };
  #line;
  #second = '';
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
    const waits = SIDES.map((side) => this.#clock(board, side, moment));
    return Math.min(...waits, isHeld(board, moment.heldAt) ? 1000 : Infinity);
  }

  /** The tell line up to a moment. @param {Moment} moment */
  line({ now }) {
    this.#line.tick(now);
  }

  /** @param {Board} board @param {Side} side @param {Moment} moment */
  #clock(board, side, { now, heldAt }) {
    const { clock, tell } = board[side];
    const [over, held, plate] = [isOver(board), isHeld(board, heldAt), this.#plates[side]];
    const left = this.#steady[side].next(board, side, heldAt ?? now);
    const state = over ? 'over' : held ? 'held' : clock.state;
    const stands = state === 'running' ? standsFor(board, side, now) : 0;
    const step = stepOf(clock);
    const exact = state !== 'held' && clock.quality !== 'estimated';
    const known = clock.quality !== 'none';
    const trouble = over || held || !inTrouble(tell) ? 0 : tell.trouble;
    plate.time({ state, left, step, stands, mark: clock.mark, known, veiled: isVeiled(board), exact, trouble, point: point(board.result, side) });
    plate.says(board[side], held, over);
    if (!known || (state !== 'running' && state !== 'rising')) return Infinity;
    if (stands > 0) return (stands % 1000) + 1;
    return Math.min(untilChange(left, step, state === 'rising'), step === STEP.MINUTE ? 1000 : Infinity); // the tell line goes on meanwhile
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
