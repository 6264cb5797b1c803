// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').Desk} Desk */
/** @typedef {import('../lib/wire.js').DeskAct} DeskAct */
import { byId, mark } from '../lib/dom.js';
import { DeskBoard } from './board.js';
import { BoardHands } from './boardhands.js';
import { ChallengeView } from './challenge.js';
import { Elsewhere } from './elsewhere.js';
import { Lanes } from './lanes.js';
import { Lead } from './lead.js';
import { Lines, labelTyping, typing } from './lines.js';
import { OpinionView } from './opinion.js';
import { Players } from './players.js';
import { Rail } from './rail.js';
import { localStore } from '../surface/stores.js';
import { Sentences } from './sentences.js';
import { Tools } from './tools.js';

/**
 * What the parts of the page ask for.
 *
 * @typedef {object} Host
 * @property {(name: string) => void} run an action, after what it has to be told
 * @property {(name: string, fields: Partial<DeskAct>) => void} act an action, at once
 * @property {(from: string, to: string, dragged: boolean) => void} move
 * @property {(kind: string, to: string, from: string) => void} draw a mark
 * @property {(act: 'air' | 'off', prompt: string) => void} panel
 * @property {(name: string) => string} title
 * @property {() => void} drawn something is to be drawn anew
 */

/** Parts are what the page is made of, below its ribbon. */
export class Parts {
  board = new DeskBoard(byId('board'));
  #hands;
  #rail;
  #lanes;
  #lines;
  #lead;
  #sentences;
  #elsewhere;
  #players = new Players(byId('players'));
  #title;

  /** @param {Host} host */
  constructor(host) {
    this.#title = host.title;
    this.tools = new Tools(byId('tools'), host.run, () => this.#hands.drop());
    this.#hands = new BoardHands(this.board, { move: host.move, draw: host.draw, tool: () => this.tools.kind });
    const goTo = (/** @type {number} */ ply) => host.act('go-to', { ply });
    this.#rail = new Rail(byId('rail'), goTo, host.drawn);
    this.#lanes = new Lanes(byId('lanes'), goTo, (of) => this.#rail.middle(of));
    this.#lines = new Lines(byId('lines'), (move) => host.act('go-to', { move }));
    this.#lead = new Lead(byId('lead'), (name, fields = {}) => host.act(name, fields), host.title);
    this.challenge = new ChallengeView(byId('challenge'), { act: host.act, title: host.title });
    this.opinion = new OpinionView(byId('opinion'), host.act, localStore());
    this.#sentences = new Sentences(byId('sentences'), { mark: (prompt) => host.act('mark-fact', { prompt }), air: (key) => host.panel('air', key), off: () => host.panel('off', '') });
    this.#elsewhere = new Elsewhere(byId('elsewhere'), (board) => host.act('look-at', { board }));
    typing(/** @type {HTMLFormElement} */ (byId('type')), /** @type {HTMLInputElement} */ (byId('type-move')), (san) => host.act('play', { san }));
  }

  /** Words and keys of the table. @param {import('./table.js').Table} table */
  name(table) {
    this.tools.name((name) => table.action(name), table.key);
    this.challenge.name();
    labelTyping(table.title('play'));
  }

  /** The desk stands elsewhere, or has other marks. @param {Desk} desk @param {boolean} slide */
  moved(desk, slide) {
    this.board.update(desk, slide);
  }

  /** @param {Desk} desk @param {Map<number, Board>} boards @param {{prompts: import('../lib/wire.js').Prompt[], caption: import('../lib/wire.js').Caption | null, opinions: import('../lib/wire.js').Opinions | null, me: string}} more */
  update(desk, boards, { prompts, caption, opinions, me }) {
    const board = boards.get(desk.place.board);
    mark(document.body, 'data-place', desk.place.live ? 'live' : desk.place.move ? 'line' : 'game');
    this.tools.update(desk);
    this.#rail.update(desk, board);
    this.#lanes.update(desk, board);
    this.#players.update(board);
    this.#lines.update(desk, board);
    this.challenge.update(desk);
    this.#lead.update(desk, me);
    this.opinion.update(opinions, desk, caption);
    this.#sentences.update({ items: prompts, board: desk.place.board, caption, word: this.#title('mark-fact') });
    this.#elsewhere.update(desk, boards);
  }

  /** @param {import('../surface/clocks.js').Times} times */
  tick(times) {
    this.#lanes.tick(times);
    this.#players.tick(times);
    this.challenge.tick(times.now);
    this.#elsewhere.tick(times);
    this.#sentences.tick();
    this.opinion.tick();
  }

  /** Let go of what is picked up or chosen; whether there was anything. */
  escape() {
    if (this.#hands.drop()) return true;
    if (!this.tools.kind) return false;
    this.tools.choose('');
    return true;
  }
}
