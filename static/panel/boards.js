// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').Match} Match */
/** @typedef {import('../lib/wire.js').Reference} Reference */
import { el, mark, write } from '../lib/dom.js';
import { inTrouble } from '../lib/tellmap.js';
import { said } from '../lib/tellsay.js';
import { arrange } from '../surface/dom.js';
import { ClockView } from '../surface/clocks.js';
import { AttachedLine } from './attached.js';
import { KnownView } from './known.js';
import { habitLines, ownMoves } from './habit.js';
import { Lane } from '../surface/lane.js';
import { OpinionTile } from './opinion.js';
import { StakeView } from './match.js';
import { SIDES, certainty, feedWords, frozenWords, resultWords, troubleWords } from '../surface/tell.js';

/** With more boards than this the reasons fold away until asked for. */
const OPEN_BOARDS = 2;

/** Boards draws, per board, what the co-host needs to answer "why". */
export class Boards {
  /** @type {Map<number, BoardView>} */ #views = new Map();
  #list;
  #attached;

  /** @param {Element} list @param {HTMLElement} attached line about the reference */
  constructor(list, attached) {
    this.#list = list;
    this.#attached = new AttachedLine(attached);
  }

  /**
   * @param {Board[]} boards those to be shown, in order
   * @param {number} all how many the show has
   * @param {Reference | null} reference null: not heard of yet
   * @param {Match | null} match null: none
   * @param {import('../lib/wire.js').Opinions | null} opinions null: not heard of yet
   */
  update(boards, all, reference, match, opinions) {
    if (reference) this.#attached.update(reference);
    const views = boards.map((board) => {
      let view = this.#views.get(board.board);
      if (!view) this.#views.set(board.board, (view = new BoardView(board.board, all <= OPEN_BOARDS)));
      view.update(board, reference);
      view.opinion.update(opinions, board);
      view.stake.update(match?.games.find((game) => game.board === board.board));
      return view;
    });
    arrange(this.#list, views.map((v) => v.root));
  }

  /** @param {import('../surface/clocks.js').Times} times */
  tick(times) {
    for (const view of this.#views.values()) view.tick(times);
  }

  /** Show a board's reasons, or its games of the reference. @param {number} board @param {boolean} [games] undefined: both */
  unfold(board, games) {
    this.#views.get(board)?.unfold(games);
  }

  /** Unfold what the reference says of the boards in sight; fold it where all is unfolded. */
  turnReference() {
    const shown = [...this.#views.values()].filter((v) => v.root.isConnected && !v.known.root.hidden);
    const open = shown.some((v) => !v.known.unfolded);
    for (const view of shown) view.known.unfold(open);
    return shown.length > 0;
  }
}

class BoardView {
  /** @type {Board | null} */ #board = null;
  #names = el('h3', { dir: 'auto' });
  #opening = el('p', { class: 'opening', dir: 'auto' });
  #note = el('p', { class: 'note' });
  #reasons;
  #why = el('summary', {}, 'Why');
  #lane = new Lane('lane', { size: 'panel', motion: false, says: said });
  #sides;

  /** @param {number} number @param {boolean} open */
  constructor(number, open) {
    this.known = new KnownView(number, open);
    this.stake = new StakeView();
    this.opinion = new OpinionTile();
    this.#sides = SIDES.map((side) => new SideView(side, `why-${number}-${side}`));
    const why = el('div', { class: 'whys' }, ...this.#sides.map((s) => s.why));
    this.#reasons = el('details', { open }, this.#why, why);
    const head = el('header', {}, el('span', { class: 'number' }, String(number)), this.#names);
    this.root = el(
      'article',
      { class: 'board', id: `board-${number}`, tabindex: -1, 'data-board': number },
      head,
      this.#opening,
      this.#note,
      this.#sides[0].root,
      this.#lane.root,
      this.#sides[1].root,
      this.opinion.root,
      this.stake.root,
      this.known.root,
      this.#reasons,
    );
  }

  /** @param {Board} board @param {Reference | null} reference */
  update(board, reference) {
    this.#board = board;
    const names = `${board.white.short || 'White'} – ${board.black.short || 'Black'}`;
    write(this.#names, names);
    mark(this.root, 'aria-label', `board ${board.board}, ${names}`);
    write(this.#opening, `${board.opening.code} ${board.opening.name}`.trim());
    mark(this.#opening, 'hidden', this.#opening.textContent === '');
    this.known.update(board, reference);
    mark(this.known.root, 'aria-label', `Reference, board ${board.board}, ${names}`);
    for (const part of [this.#why, this.#reasons]) mark(part, 'aria-label', `Why, board ${board.board}, ${names}`);
    const notes = [resultWords(board.result), board.fault, frozenWords(board.frozen), feedWords(board.feed.state)];
    write(this.#note, notes.filter(Boolean).join('; '));
    mark(this.#note, 'hidden', this.#note.textContent === '');
    for (const side of this.#sides) side.update(board);
  }

  /** @param {import('../surface/clocks.js').Times} times */
  tick(times) {
    if (!this.#board || !this.root.isConnected) return;
    for (const side of this.#sides) side.tick(this.#board, times);
    this.#lane.draw(this.#board, times.now, times.lostAt);
    this.known.tick();
  }

  /** @param {boolean} [games] undefined: both */
  unfold(games) {
    if (games !== true) mark(this.#reasons, 'open', true);
    if (games !== false) this.known.unfold(true);
  }
}

/** One side of a board: name, clock, the tell in a word, and the reasons for it. */
class SideView {
  #side;
  #name = el('span', { class: 'name', dir: 'auto' });
  #clock;
  #word = el('span', { class: 'word' });
  #evidence = el('span', { class: 'evidence', dir: 'auto' });
  #remark = el('p', { class: 'remark', dir: 'auto' });
  #whose;
  #list;
  #changed = el('p', { class: 'changed', dir: 'auto' });
  #aheadHead;
  #ahead;

  /** @param {'white' | 'black'} side @param {string} id of the heading over the reasons, which names their list */
  constructor(side, id) {
    this.#side = side;
    this.#clock = new ClockView(side);
    this.#whose = el('h4', { id, dir: 'auto' });
    this.#list = el('ul', { 'aria-labelledby': id });
    this.#aheadHead = el('h5', { id: `${id}-ahead` }, 'Time ahead');
    this.#ahead = el('ul', { 'aria-labelledby': `${id}-ahead` });
    const mark = el('span', { class: `mark ${side}`, role: 'img', 'aria-label': side });
    const tell = el('p', { class: 'tell' }, this.#word, ' ', this.#evidence);
    this.root = el('div', { class: 'side', 'data-side': side }, mark, this.#name, this.#clock.root, tell, this.#remark);
    this.why = el('section', {}, this.#whose, this.#list, this.#changed, this.#aheadHead, this.#ahead);
  }

  /** @param {Board} board */
  update(board) {
    const player = board[this.#side];
    mark(this.root, 'data-running', board.running === this.#side);
    mark(this.root, 'data-trouble', inTrouble(player.tell));
    mark(this.root, 'data-verdict', player.tell.verdict);
    write(this.#name, player.short || player.name || this.#side);
    mark(this.#name, 'title', player.name);
    write(this.#word, [player.tell.shade, troubleWords(player.tell.trouble)].filter(Boolean).join(', '));
    write(this.#evidence, player.tell.evidence);
    write(this.#remark, player.clock.remark);
    mark(this.#remark, 'hidden', player.clock.remark === '');
    write(this.#whose, [player.short || this.#side, certainty(player.tell)].filter(Boolean).join(': '));
    writeLines(this.#list, player.tell.reasons.length ? player.tell.reasons : ['no reasons yet']);
    const ahead = [...player.tell.outlook, ...habitLines(player.habit, ownMoves(board, this.#side))];
    writeLines(this.#ahead, ahead);
    mark(this.#aheadHead, 'hidden', ahead.length === 0);
    write(this.#changed, player.tell.changed && `Last change: ${player.tell.changed}`);
    mark(this.#changed, 'hidden', player.tell.changed === '');
  }

  /** @param {Board} board @param {import('../surface/clocks.js').Times} times */
  tick(board, times) {
    this.#clock.tick(board, times);
  }
}

/** @param {Element} list @param {string[]} lines */
function writeLines(list, lines) {
  while (list.children.length > lines.length) list.lastElementChild?.remove();
  lines.forEach((line, i) => {
    const item = list.children[i] ?? list.appendChild(el('li', { dir: 'auto' }));
    write(item, line);
  });
}
