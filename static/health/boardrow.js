// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').BoardSources} BoardSources */
import { el, mark, write } from '../lib/dom.js';
import { icon } from '../surface/dom.js';
import { resultWords } from '../surface/tell.js';
import { ago } from '../surface/words.js';
import { Half } from './half.js';
import { QuestionView } from './question.js';
import { Sender } from './sender.js';
import { errorWords, followWords, isSound, namesOf, nextWords, offerWords } from './sources.js';
import { Tools } from './tools.js';

/** A board in one line: who plays, where it stands, where it comes from; below it what asks for the producer. */
export class BoardRow {
  /** @type {BoardSources | null} */ #item = null;
  /** @type {Board | undefined} */ #board;
  /** @type {Tools | null} */ #tools = null;
  #sender;
  #number = el('span', { class: 'number' });
  #white = new Half('white');
  #black = new Half('black');
  #last = el('span', { class: 'last', dir: 'ltr' });
  #next = el('span', { class: 'next' });
  #sources = el('p', { class: 'sources' });
  #frozen = el('span');
  #frozenLine = el('p', { class: 'remark frozen', hidden: true }, icon('frozen'), ' ', this.#frozen);
  #hand = el('span', { dir: 'auto' });
  #handLine = el('p', { class: 'remark', hidden: true }, icon('hand'), ' ', this.#hand);
  #fault = el('span', { dir: 'auto' });
  #faultLine = el('p', { class: 'remark row-fault', hidden: true }, icon('warning'), ' ', this.#fault);
  #question;
  #word = el('span', {}, 'By hand');
  #open;
  #drawn = '';

  /** @param {import('../surface/post.js').Post} post @param {number} number */
  constructor(post, number) {
    this.#sender = new Sender(post);
    this.#question = new QuestionView(this.#sender);
    this.#open = el('button', { type: 'button', class: 'button open', 'aria-expanded': 'false' }, icon('hand'), this.#word);
    this.#open.addEventListener('click', (e) => this.#toggle(/** @type {PointerEvent} */ (e).pointerType !== 'touch'));
    const state = el('p', { class: 'stand' }, this.#last, ' ', this.#next);
    const head = el('div', { class: 'row-head' }, this.#number, this.#white.root, this.#black.root, state, this.#sources, this.#open);
    this.root = el('li', { class: 'board-row', 'data-board': number, id: `board-${number}` }, head, this.#question.root, this.#faultLine, this.#frozenLine, this.#handLine);
    this.root.addEventListener('keydown', (e) => {
      if (e.key === 'Escape' && this.isOpen) this.#toggle(false, true);
    });
  }

  get isOpen() {
    return this.#tools !== null && !this.#tools.root.hidden;
  }

  /** @param {BoardSources} item */
  sources(item) {
    const drawn = JSON.stringify(item);
    this.#item = item;
    this.#tools?.update(item);
    if (drawn === this.#drawn) return;
    this.#drawn = drawn;
    this.#draw(item);
  }

  /** @param {Board | undefined} board */
  board(board) {
    if (board === this.#board) return;
    this.#board = board;
    if (!this.#item) return;
    this.#halves(this.#item);
    this.#faults(this.#item);
    this.#tools?.board(this.#item, board);
  }

  /** @param {BoardSources} item */
  #draw(item) {
    write(this.#number, String(item.board));
    this.#halves(item);
    write(this.#last, item.last || 'no move yet');
    write(this.#next, resultWords(item.result) || nextWords(item));
    mark(this.#open, 'aria-label', `By hand, board ${item.board}, ${namesOf(item)}`);
    this.#sources.replaceChildren(...sourceNodes(item));
    mark(this.#frozenLine, 'hidden', item.frozen === 0);
    write(this.#hand, `By hand: ${item.byHand.join('; ')}`);
    mark(this.#handLine, 'hidden', item.byHand.length === 0);
    this.#faults(item);
    this.#question.update(item);
    mark(this.root, 'data-asks', item.question !== null);
  }

  /** @param {BoardSources} item */
  #halves(item) {
    this.#white.update(item.white, this.#board);
    this.#black.update(item.black, this.#board);
  }

  /** @param {BoardSources} item */
  #faults(item) {
    const silent = item.result === '*' && this.#board?.feed.state === 'stale' ? 'nothing comes from the feed followed, clocks are held' : '';
    const words = [item.fault && `shown no further: ${item.fault}`, silent].filter(Boolean).join('; ');
    write(this.#fault, words.charAt(0).toUpperCase() + words.slice(1));
    mark(this.#faultLine, 'hidden', words === '');
  }

  /** @param {import('../surface/clocks.js').Times} times */
  tick(times) {
    if (!this.root.isConnected) return;
    if (this.#item && this.#item.frozen > 0) write(this.#frozen, `Frozen ${ago(times.now - this.#item.frozen)}: only what you enter shows`);
    if (!this.#board) return;
    this.#white.tick(this.#board, times);
    this.#black.tick(this.#board, times);
  }

  /** Open the tools. @param {() => void} draw brings the row into the list, where it may be missing */
  unfold(draw) {
    if (!this.isOpen) this.#toggle(false);
    draw();
    this.#tools?.focus();
  }

  /** Bring the question before the eyes. */
  ask() {
    this.root.scrollIntoView({ block: 'center' });
    this.#question.focus();
  }

  /** @param {boolean} focus whether the first field takes the focus @param {boolean} [back] or the button, when it closes */
  #toggle(focus, back = false) {
    const item = this.#item;
    if (!item) return;
    const open = !this.isOpen;
    if (!this.#tools) {
      this.#tools = new Tools(this.#sender, item, `tools-${item.board}`);
      this.#tools.update(item);
      this.#tools.board(item, this.#board);
      mark(this.#open, 'aria-controls', this.#tools.root.id);
      this.root.append(this.#tools.root);
    }
    this.#tools.root.hidden = !open;
    write(this.#word, open ? 'Close' : 'By hand');
    mark(this.#open, 'aria-expanded', String(open));
    mark(this.root, 'data-open', open);
    if (open && focus) this.#tools.focus();
    if (back) this.#open.focus();
  }
}

/** What every feed has of the game, each in words. @param {BoardSources} item */
function sourceNodes(item) {
  const nodes = item.offers.map((offer) => {
    const sound = isSound(offer);
    const pin = item.pinned === offer.feed ? [icon('pinned'), ' pinned, '] : [];
    const sign = sound ? [] : [icon('warning'), ' '];
    return el('span', { class: 'offer', 'data-offer': offer.state, 'data-sound': sound }, ...sign, el('b', { dir: 'auto' }, offer.feed), ' ', ...pin, offerWords(offer, item));
  });
  const words = followWords(item);
  const off = errorWords(item.clockError);
  if (off) nodes.push(el('span', { class: 'clock-error', title: 'at the last move: by how much the running clock was wrong, beyond what is unknown anyway' }, off));
  if (words) nodes.push(el('span', { class: 'offer', 'data-sound': item.offers.length === 0 && item.feed === '' }, words));
  return nodes;
}
