// @ts-check
/** @typedef {import('../../lib/wire.js').Air} Air */
/** @typedef {import('../../lib/wire.js').AirChallenge} AirChallenge */
/** @typedef {import('../../lib/wire.js').Board} Board */
import { Live } from '../../lib/live.js';
import { byId, mark } from '../../lib/dom.js';
import { airWords } from '../airwords.js';
import { Frame } from '../frame.js';
import { ORPHAN_MS } from '../onair.js';
import { questionOf } from '../picture.js';
import { Pulse } from '../pulse.js';
import { drawSafeAreas, fitStage, motionOption, setTheme } from '../stage.js';
import { showTag, speakAs } from '../waiting.js';
import { Countdown } from './countdown.js';
import { Question } from './question.js';

/** Scene puts the question that is on the air to the viewers, and then shows the answer. */
class Scene {
  /** @type {Map<number, Board>} */ #boards = new Map();
  /** @type {AirChallenge | null} the last one, which stays while it fades */ #challenge = null;
  /** @type {Frame | null} */ #frame = null;
  #turned = '';
  #words = airWords('');
  #stage = byId('stage');
  #countdown = new Countdown();
  #question = new Question();

  /** @param {URLSearchParams} options */
  constructor(options) {
    this.motion = motionOption(options);
    this.side = options.get('side')?.toLowerCase();
    this.number = Number(/^[1-9]\d{0,2}$/.exec(options.get('board') ?? '')?.[0] ?? 0);
    document.body.dataset.motion = this.motion ? 'on' : 'off';
    setTheme(options);
    fitStage(this.#stage);
    if (options.get('safe') === 'on') drawSafeAreas(this.#stage);
    const live = new Live(
      { page: 'scene/challenge', board: this.number },
      {
        board: (b) => this.#boards.set(b.board, b) && this.#heard(),
        air: (a) => this.#air(a),
        show: (s) => this.#show(s),
        time: () => this.pulse.beat(),
        state: (s) => this.pulse.line(s),
      },
    );
    this.pulse = new Pulse(live.time, (moment) => this.#tick(moment));
    document.fonts.ready.then(() => (this.#question.forget(), this.pulse.beat()));
  }

  /** @param {Air} air */
  #air({ challenge }) {
    const ours = challenge && (!this.number || challenge.board === this.number);
    this.#challenge = ours ? challenge : null;
    this.#heard();
  }

  /** @param {import('../../lib/wire.js').Show} show */
  #show(show) {
    speakAs(show);
    this.#words = airWords(show.lang);
    this.#heard();
  }

  #heard() {
    this.pulse.heard();
    this.pulse.beat();
  }

  /** Returns wall milliseconds until it changes by itself. @param {import('../pulse.js').Moment} moment */
  #tick({ now, heldAt, rate }) {
    const c = this.#challenge;
    // Without the relay nobody can take it off.
    const orphan = c && heldAt !== null ? Math.max(heldAt, c.ends) + ORPHAN_MS * rate - now : Infinity;
    mark(this.#stage, 'data-state', c && orphan > 0 ? c.state : 'none');
    if (!c || orphan <= 0) return Infinity;
    const board = this.#boards.get(c.board) ?? null;
    const picture = questionOf(c, board, now);
    this.#turn(c.turned);
    this.#frame?.show(picture);
    if (board) showTag(board);
    mark(byId('tag'), 'hidden', !board);
    this.#question.draw(c, board, picture, this.#words);
    const wait = this.#countdown.draw(c, now, this.#words.over);
    return (Math.min(wait, picture.wait, orphan) + 1) / rate;
  }

  /** Which side is below: as the address says, or else as at the desk. @param {boolean} turned */
  #turn(turned) {
    const flipped = this.side === 'black' || (this.side !== 'white' && turned);
    if (String(flipped) === this.#turned) return;
    this.#turned = String(flipped);
    this.#frame = new Frame({ flipped, motion: this.motion });
  }
}

new Scene(new URLSearchParams(location.search));
