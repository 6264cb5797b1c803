// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').BoardSources} BoardSources */
/** @typedef {import('./sender.js').Sender} Sender */
import { el, mark } from '../lib/dom.js';
import { namesOf } from './sources.js';
import { ClockForm } from './tool-clock.js';
import { LastMove, NextMove } from './tool-moves.js';
import { NameForm } from './tool-names.js';
import { FollowTool, FreezeTool, ResultTool } from './tool-press.js';

/** Tools is what the producer can do for one board by hand. */
export class Tools {
  #next;
  #clock;
  #all;

  /** @param {Sender} sender @param {BoardSources} item @param {string} id */
  constructor(sender, item, id) {
    this.#next = new NextMove(sender, item);
    this.#clock = new ClockForm(sender, item);
    const last = new LastMove(sender, item);
    const result = new ResultTool(sender, item);
    const follow = new FollowTool(sender, item);
    const freeze = new FreezeTool(sender, item);
    const names = [new NameForm(sender, 'white', item), new NameForm(sender, 'black', item)];
    this.#all = [this.#next, last, result, follow, freeze, ...names];
    const columns = [[this.#next, last], [this.#clock, result], [follow, freeze], names];
    const roots = columns.map((tools) => el('div', { class: 'tool-column' }, ...tools.map((tool) => tool.root)));
    this.root = el('div', { class: 'tools', id, role: 'group' }, ...roots);
    this.root.addEventListener('keydown', onePress);
  }

  /** The relay told where the board comes from. @param {BoardSources} item */
  update(item) {
    mark(this.root, 'aria-label', `By hand, board ${item.board}, ${namesOf(item)}`);
    for (const tool of this.#all) tool.update(item);
  }

  /** The board itself is another one. @param {BoardSources} item @param {Board | undefined} board */
  board(item, board) {
    this.#clock.update(item, board);
  }

  focus() {
    this.#next.input.focus();
  }
}

/** A key held down is one press: it must not send, or freeze and let go, again and again. @param {KeyboardEvent} e */
function onePress(e) {
  const types = e.target instanceof HTMLInputElement && e.key !== 'Enter';
  if (e.repeat && !types && (e.key === 'Enter' || e.key === ' ')) e.preventDefault();
}
