// @ts-check
/** @typedef {import('../../lib/wire.js').Board} Board */
import { Live } from '../../lib/live.js';
import { byId, mark } from '../../lib/dom.js';
import { Chosen } from '../chosen.js';
import { Pulse } from '../pulse.js';
import { Rows } from '../rows.js';
import { drawSafeAreas, fitStage, motionOption, setTheme } from '../stage.js';
import { showTag, waitFor } from '../waiting.js';
import { hasGame, topOption } from '../words.js';

/** Scene keeps the clocks of one board on the air. */
class Scene {
  /** @type {Board | null} */ #board = null;
  #chosen;
  #stage = byId('stage');

  /** @param {URLSearchParams} options */
  constructor(options) {
    const motion = motionOption(options);
    this.#chosen = new Chosen(options.get('board'));
    document.body.dataset.motion = motion ? 'on' : 'off';
    fitStage(this.#stage);
    setTheme(options);
    if (options.get('safe') === 'on') drawSafeAreas(this.#stage);
    this.look = /** @type {const} */ ({ size: 'third', width: 868, top: topOption(options), motion });
    this.rows = this.#rows();
    const live = new Live(
      { page: 'scene/clocks', board: this.#chosen.asked },
      {
        board: (b) => this.#heard(b),
        air: (a) => this.#turn(a),
        show: (s) => this.#show(s),
        time: () => this.pulse.beat(),
        state: (s) => this.#state(s),
      },
    );
    this.pulse = new Pulse(live.time, (moment) => this.#tick(moment));
    document.fonts.ready.then(() => this.#board && this.rows.refit(this.#board));
  }

  /** A game's rows begin afresh: nothing of the game before moves into this one. */
  #rows() {
    const rows = new Rows(byId('line'), this.look);
    byId('foot').replaceChildren(...rows.roots, byId('line'));
    return rows;
  }

  /** @param {Board} board */
  #heard(board) {
    this.#chosen.take(board);
    this.pulse.heard();
    document.body.dataset.rev = String(board.rev);
    this.#update();
  }

  /** @param {import('../../lib/wire.js').Air} air */
  #turn(air) {
    this.#chosen.air(air);
    this.#update();
  }

  #update() {
    const [before, board] = [this.#board, this.#chosen.board];
    if (!board) return; // what was shown stays until the board chosen has come
    this.#board = board;
    if (before && before.board !== board.board) this.rows = this.#rows();
    mark(this.#stage, 'data-view', hasGame(board) ? 'game' : 'waiting');
    if (hasGame(board)) {
      showTag(board);
      this.rows.draw(board, this.pulse.moment);
    }
    this.pulse.beat();
  }

  /** @param {import('../../lib/wire.js').Show} show */
  #show(show) {
    waitFor(show, this.#chosen.number);
    if (!this.#board) mark(this.#stage, 'data-view', 'waiting');
  }

  /** @param {'open' | 'lost'} state */
  #state(state) {
    if (!this.#board) mark(this.#stage, 'data-view', 'waiting');
    this.pulse.line(state);
  }

  /** @param {import('../pulse.js').Moment} moment */
  #tick(moment) {
    return this.#board && hasGame(this.#board) ? this.rows.tick(this.#board, moment) / moment.rate : Infinity;
  }
}

new Scene(new URLSearchParams(location.search));
