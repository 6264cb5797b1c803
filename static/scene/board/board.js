// @ts-check
/** @typedef {import('../../lib/wire.js').Air} Air */
/** @typedef {import('../../lib/wire.js').Board} Board */
/** @typedef {import('../../lib/wire.js').Caption} Caption */
/** @typedef {import('../picture.js').Picture} Picture */
import { Live } from '../../lib/live.js';
import { byId, mark } from '../../lib/dom.js';
import { WAY } from '../../lib/wire.js';
import { pieces } from '../../lib/placement.js';
import { Pointer } from '../../lib/pointer.js';
import { airWords, inPlace } from '../airwords.js';
import { Chosen } from '../chosen.js';
import { Frame } from '../frame.js';
import { OnAir } from '../onair.js';
import { challengeOn, explainedOn, pictureOf } from '../picture.js';
import { Pulse } from '../pulse.js';
import { Rows } from '../rows.js';
import { Strip } from './strip.js';
import { LeanPlate } from './lean.js';
import { NoticePlate } from './noticeplate.js';
import { Notices } from './notices.js';
import { drawSafeAreas, fitStage, motionOption, setTheme } from '../stage.js';
import { showTag, waitFor } from '../waiting.js';
import { CORRECTION_MS, description, hasGame, told, topOption } from '../words.js';

/** Scene keeps one board on the air. */
class Scene {
  /** @type {Board | null} drawn last */ #board = null;
  /** @type {Air | null} */ #air = null;
  #chosen;
  /** @type {'white' | 'black'} whose men stand above */ #top;
  #quiet = false;
  #words = airWords('');
  #notices = new Notices();
  #notice = new NoticePlate(byId('notice-place'), byId('notice'));
  #lean = new LeanPlate(byId('lean'));
  /** @type {Caption | null} */ #caption = null;
  /** @type {unknown[]} */ #drawn = [];

  /** @param {URLSearchParams} options */
  constructor(options) {
    this.motion = motionOption(options);
    this.#top = topOption(options);
    this.fixed = /^(white|black)$/i.test(options.get('side') ?? '');
    this.stage = byId('stage');
    this.#chosen = new Chosen(options.get('board'));
    document.body.dataset.motion = this.motion ? 'on' : 'off';
    setTheme(options);
    fitStage(this.stage);
    this.on = this.#lay();
    this.points = options.get('marks') !== 'off';
    this.strip = new Strip(byId('opening'), byId('moves'));
    if (options.get('safe') === 'on') drawSafeAreas(this.stage);
    this.live = new Live(
      { page: 'scene/board', board: this.#chosen.asked },
      {
        board: (b) => this.#heard(b),
        air: (a) => this.#turn(a),
        show: (s) => this.#show(s),
        caption: (f) => this.onAir.take(f),
        time: () => this.pulse.beat(),
        state: (s) => this.#state(s),
      },
    );
    this.onAir = new OnAir(this.live.time, (caption) => this.#point(caption));
    this.pulse = new Pulse(this.live.time, (moment) => this.#tick(moment));
    document.fonts.ready.then(() => this.#board && this.on.rows.refit(this.#board));
  }

  /** Everything that one board is drawn into, afresh: nothing of what was shown before moves into it. */
  #lay() {
    const [top, motion, flipped] = [this.#top, this.motion, this.#top === 'white'];
    const on = {
      rows: new Rows(byId('line'), { size: 'air', width: 976, top, motion }),
      frame: new Frame({ flipped, motion }),
      pointer: new Pointer({ flipped, motion }),
    };
    byId('foot').replaceChildren(...on.rows.roots, byId('line'));
    byId('board').append(on.pointer.root);
    this.#drawn = [];
    return on;
  }

  /** Whose men stand above, where the address leaves it to the desk to turn what it shows. @param {Board} board */
  #turnTo(board) {
    const explained = explainedOn(board, this.#air);
    const shown = challengeOn(board, this.#air) ?? (explained?.way === WAY.TEXT ? null : explained);
    const top = shown?.turned ? 'white' : 'black';
    if (this.fixed || top === this.#top) return false;
    this.#top = top;
    return true;
  }

  /** @param {Board} board */
  #heard(board) {
    this.#chosen.take(board);
    this.pulse.heard();
    document.body.dataset.rev = String(board.rev);
    this.#update();
  }

  /** @param {Air} air */
  #turn(air) {
    this.#air = air;
    this.#chosen.air(air);
    this.#update();
  }

  #update() {
    const [before, board] = [this.#board, this.#chosen.board];
    if (!board) return; // what was shown stays until the board chosen has come
    this.#board = board;
    const other = before !== null && before.board !== board.board;
    if (other) this.#notices = new Notices();
    if (this.#turnTo(board) || other) this.on = this.#lay();
    mark(this.stage, 'data-view', hasGame(board) ? 'game' : 'waiting');
    if (hasGame(board)) {
      showTag(board);
      this.on.rows.draw(board, this.pulse.moment);
    }
    this.pulse.beat();
  }

  /** @param {Caption | null} caption */
  #point(caption) {
    this.#caption = caption;
    this.pulse.beat();
  }

  /** What the desk points at, and the sentence on the air if it is about what is shown. @param {Board} board @param {Picture} picture */
  #aim(board, picture) {
    const desk = explainedOn(board, this.#air);
    const marks = [];
    if (desk && picture.state !== 'asked' && picture.state !== 'revealed' && picture.wait === Infinity) marks.push(...desk.marks);
    if (this.points && picture.state === 'live' && this.#caption?.board === board.board) marks.push(...this.#caption.marks);
    this.on.pointer.show(marks, pieces(picture.fen));
  }

  /** @param {import('../../lib/wire.js').Show} show */
  #show(show) {
    this.#quiet = show.quiet;
    this.#words = airWords(show.lang);
    waitFor(show, this.#chosen.number);
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
    const picture = pictureOf(board, this.#air, now);
    this.#draw(board, picture);
    this.#aim(board, picture);
    const waits = [this.on.rows.tick(board, moment) / rate, (picture.wait + 1) / rate];
    const instead = inPlace(board, this.#air, picture, this.#words);
    if (instead) this.strip.tell(instead);
    else this.strip.draw(board, now);
    const fix = told(board, now);
    if (fix) waits.push((fix.at + CORRECTION_MS - now) / rate + 1);
    const challenge = challengeOn(board, this.#air);
    this.#lean.show(challenge || this.#air?.lean?.board !== board.board ? null : this.#air.lean);
    const { notice, until } = this.#notices.at(board, { now, wall, rate }, this.#quiet || challenge !== null, moment.lostAt);
    this.#notice.show(challenge ? { kind: 'asked', headline: challenge.question, evidence: '' } : notice);
    if (notice) waits.push(until - wall);
    return Math.min(...waits);
  }

  /** @param {Board} board @param {Picture} picture */
  #draw(board, picture) {
    const drawn = [board, picture.state, picture.fen, picture.ply, picture.shown];
    if (drawn.every((part, i) => part === this.#drawn[i])) return;
    this.#drawn = drawn;
    mark(this.stage, 'data-held', picture.state === 'live' ? null : picture.state);
    this.on.frame.show(picture);
    const plies = [...board.plies.slice(0, picture.ply), ...picture.steps.slice(0, picture.shown)];
    mark(byId('board'), 'aria-label', description({ ...board, fen: picture.fen, plies }));
  }
}

new Scene(new URLSearchParams(location.search));
