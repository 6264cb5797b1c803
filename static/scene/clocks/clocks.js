// @ts-check
/** @typedef {import('../../lib/wire.js').Board} Board */
import { Live } from '../../lib/live.js';
import { byId, mark } from '../../lib/dom.js';
import { Pulse } from '../pulse.js';
import { Rows } from '../rows.js';
import { drawSafeAreas, fitStage, motionOption, setTheme } from '../stage.js';
import { showTag, waitFor } from '../waiting.js';
import { boardOption, hasGame, topOption } from '../words.js';

/** Scene keeps the clocks of one board on the air. */
class Scene {
  /** @type {Board | null} */ #board = null;
  #number;
  #stage = byId('stage');

  /** @param {URLSearchParams} options */
  constructor(options) {
    const motion = motionOption(options);
    this.#number = boardOption(options.get('board'));
    document.body.dataset.motion = motion ? 'on' : 'off';
    fitStage(this.#stage);
    setTheme(options);
    if (options.get('safe') === 'on') drawSafeAreas(this.#stage);
    this.rows = new Rows(byId('line'), { size: 'third', width: 868, top: topOption(options), motion });
    byId('foot').prepend(...this.rows.roots);
    const live = new Live(
      { page: 'scene/clocks', board: this.#number },
      { board: (b) => this.#update(b), show: (s) => this.#show(s), time: () => this.pulse.beat(), state: (s) => this.#state(s) },
    );
    this.pulse = new Pulse(live.time, (moment) => this.#tick(moment));
    document.fonts.ready.then(() => this.#board && this.rows.refit(this.#board));
  }

  /** @param {Board} board */
  #update(board) {
    this.#board = board;
    this.pulse.heard();
    document.body.dataset.rev = String(board.rev);
    mark(this.#stage, 'data-view', hasGame(board) ? 'game' : 'waiting');
    if (hasGame(board)) {
      showTag(board);
      this.rows.draw(board, this.pulse.moment);
    }
    this.pulse.beat();
  }

  /** @param {import('../../lib/wire.js').Show} show */
  #show(show) {
    waitFor(show, this.#number);
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
