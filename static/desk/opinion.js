// @ts-check
/** @typedef {import('../lib/wire.js').Desk} Desk */
/** @typedef {import('../lib/wire.js').DeskAct} DeskAct */
/** @typedef {import('../lib/wire.js').Opinion} Opinion */
/** @typedef {import('../lib/wire.js').Opinions} Opinions */
import { el, mark, write } from '../lib/dom.js';
import { ENGINE } from '../lib/wire.js';
import { Touch } from '../surface/touch.js';
import { OpinionLineView } from './opinionline.js';
import { chancesWords, headWords, isVerdict, opinionAt, opening, otherAt, whyNone } from './opinionwords.js';

const STORE_KEY = 'clocktell.desk.opinion';

/**
 * OpinionView is the second opinion on where the desk stands: words first, then lines that
 * are opened on the board by one touch. It can be folded away, and stays so.
 */
export class OpinionView {
  #fold = el('button', { type: 'button', class: 'opinion-fold', 'aria-controls': 'opinion-body' }, 'Second opinion', el('kbd', { 'aria-hidden': 'true' }, 'S'));
  #of = el('span', { class: 'opinion-of', dir: 'auto' });
  #body = el('div', { class: 'opinion-body', id: 'opinion-body' });
  #words = el('p', { class: 'opinion-words', dir: 'auto' });
  #chances = el('p', { class: 'opinion-chances' });
  #list = el('ol', { class: 'opinion-lines', 'aria-labelledby': 'opinion-head' });
  #say = el('button', { type: 'button', class: 'button small', 'data-act': 'say-verdict', 'aria-pressed': 'false' }, el('span'));
  #lean = el('button', { type: 'button', class: 'button small', 'data-act': 'lean', 'aria-pressed': 'false' }, el('span'));
  #keep = el('button', { type: 'button', class: 'button small', 'data-act': 'keep-lean', 'aria-pressed': 'false' }, el('span'));
  #touch = new Touch('.opinion-line');
  #otherWords = el('p', { class: 'opinion-other', dir: 'auto' });
  #otherLine = new OpinionLineView(0, (steps) => this.#play(this.#other, 0, steps), 'div');
  /** @type {Opinion | null} drawn, of the engine compared with */ #other = null;
  /** @type {OpinionLineView[]} */ #rows = [];
  /** @type {Opinions | null} */ #opinions = null;
  /** @type {Desk | null} */ #desk = null;
  /** @type {Opinion | null} drawn */ #drawn = null;
  #at = '';
  #open = true;
  #root;
  #store;
  #act;

  /**
   * @param {HTMLElement} root
   * @param {(name: string, fields: Partial<DeskAct>) => void} act
   * @param {Pick<Storage, 'getItem' | 'setItem'> | null} store
   */
  constructor(root, act, store) {
    this.#root = root;
    this.#act = act;
    this.#store = store;
    this.#open = read(store) !== 'folded';
    const does = el('div', { class: 'opinion-does', role: 'group', 'aria-label': 'The verdict on the air' }, this.#say, this.#lean, this.#keep);
    this.#fold.addEventListener('click', () => this.fold(!this.#open));
    this.#body.append(this.#words, this.#list, this.#chances, this.#otherWords, this.#otherLine.root, does);
    root.append(el('header', { class: 'part-head' }, el('h2', { id: 'opinion-head' }, this.#fold), this.#of), this.#body);
    mark(root, 'hidden', true);
    this.fold(this.#open);
  }

  /** Show or fold it, and remember that. @param {boolean} open */
  fold(open) {
    this.#open = open;
    mark(this.#fold, 'aria-expanded', String(open));
    mark(this.#body, 'hidden', !open);
    try {
      this.#store?.setItem(STORE_KEY, open ? 'open' : 'folded');
    } catch {
      // The store is full or forbidden: it holds until the page is left.
    }
    this.tick();
  }

  /** By its key: unfold it and go to the first line; from there fold it again. */
  turn() {
    if (this.#root.hidden) return;
    const inside = this.#root.contains(document.activeElement);
    this.fold(!(this.#open && inside));
    if (this.#open) (this.#rows.find((r) => !r.root.hidden)?.focus ?? (() => this.#fold.focus()))();
    else this.#fold.focus();
  }

  /** @param {Opinions | null} opinions @param {Desk} desk @param {import('../lib/wire.js').Caption | null} caption */
  update(opinions, desk, caption) {
    this.#opinions = opinions;
    this.#desk = desk;
    mark(this.#say, 'aria-pressed', String(isVerdict(caption)));
    mark(this.#lean, 'aria-pressed', String(desk.air.leanBoard !== 0 && desk.air.leanBoard === desk.place.board));
    mark(this.#keep, 'aria-pressed', String(desk.air.leanKept));
    mark(this.#root, 'hidden', opinions === null || opinions.state === ENGINE.NONE);
    this.tick();
  }

  /** Draw what there is; what somebody is at does not change under the hand. */
  tick() {
    const [opinions, desk] = [this.#opinions, this.#desk];
    if (!opinions || !desk || !this.#open || this.#root.hidden) return;
    const at = `${desk.place.board} ${desk.place.ply} ${desk.place.move}`;
    if (this.#drawn && (at === this.#at ? this.#touch.busy : this.#touch.down)) return;
    this.#at = at;
    const why = whyNone(opinions, desk);
    const opinion = why ? null : opinionAt(opinions, desk.place);
    write(this.#of, headWords(opinions, opinion));
    this.#compare(opinions, desk);
    if (opinion !== null && opinion === this.#drawn) return;
    this.#drawn = opinion;
    mark(this.#root, 'data-none', opinion === null);
    write(this.#words, opinion ? opinion.words : why);
    write(this.#chances, opinion ? chancesWords(opinion.lines[0]) : '');
    this.#lines(opinion);
  }

  /** @param {Opinions} opinions @param {Desk} desk */
  #compare(opinions, desk) {
    const { opinion, words } = otherAt(opinions, desk.place);
    this.#other = opinion;
    mark(this.#otherWords, 'data-differ', opinions.differ);
    write(this.#otherWords, words);
    mark(this.#otherLine.root, 'hidden', opinion === null);
    this.#otherLine.update(opinion?.lines[0] ?? null);
  }

  /** The rows stay where they are while the next lines are on their way. @param {Opinion | null} opinion */
  #lines(opinion) {
    const lines = opinion?.lines ?? [];
    while (this.#rows.length < lines.length) {
      const row = new OpinionLineView(this.#rows.length, (steps) => this.#play(this.#drawn, row.index, steps));
      this.#rows.push(row);
      this.#list.append(row.root);
    }
    this.#rows.forEach((row, i) => row.update(lines[i] ?? null));
  }

  /** @param {Opinion | null} opinion @param {number} index @param {number} steps */
  #play(opinion, index, steps) {
    const line = opinion?.lines[index];
    if (!opinion || !line) return;
    this.#act('play-moves', opening(opinion, line, Math.min(steps, line.moves.length)));
    /** @type {HTMLElement | null} */ (document.activeElement)?.blur(); // the arrows step through the line now, not along the list
  }
}

/** @param {Pick<Storage, 'getItem'> | null} store */
function read(store) {
  try {
    return store?.getItem(STORE_KEY) ?? '';
  } catch {
    return '';
  }
}
