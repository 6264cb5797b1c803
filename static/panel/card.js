// @ts-check
/** @typedef {import('./stream.js').Card} Card */
import { el, mark, write } from '../lib/dom.js';
import { PROMPT } from '../lib/wire.js';
import { icon } from '../surface/dom.js';
import { age } from '../surface/words.js';
import { CardActions } from './cardactions.js';
import { conflictWords, lifeWords, lineWords, sayingWords, stateWords } from './cardwords.js';
import { ActButton } from './actbutton.js';
import { FORM } from './forms.js';
import { Lane } from '../surface/lane.js';

/** @typedef {{act: (name: string, key: string) => void, why: (board: number, games: boolean) => void}} Actions */
/** @typedef {'' | 'on' | 'coming' | 'leaving'} Aired whether the sentence is on the air, or on its way there or back */
/** @typedef {{me: string, aired: Aired, airedBy: string, conflict: string}} Around conflict: why something done here did not count */

let cards = 0; // for ids of this page

/** A prompt on the panel: large to be said, smaller while another says it, a line when it was. */
export class CardView {
  #card;
  /** @type {Around} */ #around = { me: '', aired: '', airedBy: '', conflict: '' };
  #age = el('span', { class: 'age' });
  #ends = el('span', { class: 'ends' });
  #sign = el('span', { class: 'true-sign', 'aria-hidden': 'true' });
  #about = el('span', { class: 'about' });
  #status = el('span', { class: 'status', dir: 'auto' });
  #aired = el('span', { class: 'aired', dir: 'auto' });
  #unsent = el('span', { class: 'unsent' }, icon('waiting'), 'not sent yet');
  #sentence = el('h3', { class: 'sentence', dir: 'auto' });
  #evidence = el('p', { class: 'evidence', dir: 'auto' });
  #conflicts = [conflictLine(), conflictLine()]; // of the two large forms
  #lane = new Lane('lane', { size: 'card', motion: false });
  #why = el('a', { class: 'why' });
  #actions;
  #full;
  #saying = new Lines('saying', 'saying-head');
  #line = new Lines('line', '');
  #over;
  #undo;

  /** @param {Card} card @param {Actions} actions */
  constructor(card, actions) {
    this.#card = card;
    const { key, prompt } = card;
    const about = (this.#sentence.id = `sentence-${++cards}`);
    const run = (/** @type {string} */ name) => actions.act(name, key);
    this.#actions = new CardActions(about, run);
    this.#over = new ActButton('over', about, run);
    this.#undo = new ActButton('undo', about, run);
    mark(this.#why, 'aria-describedby', about);
    this.#why.addEventListener('click', () => actions.why(prompt.board, prompt.kind === 'reference'));
    const now = el('span', { class: 'plate' }, 'now');
    const what = el('span', { class: 'what' }, now, this.#aired, this.#status, el('span', { class: 'kind' }, icon(prompt.kind), this.#about));
    const meta = el('header', { class: 'meta' }, what, el('span', { class: 'life' }, this.#unsent, this.#age, this.#sign, this.#ends));
    const reason = el('div', { class: 'reason' }, this.#evidence, this.#conflicts[0], this.#why);
    this.#full = el('div', { class: 'full' }, meta, this.#sentence, this.#lane.root, reason, this.#actions.root);
    this.#saying.root.append(this.#over.root);
    this.#saying.words.append(this.#conflicts[1]);
    this.#line.root.prepend(icon('said'));
    this.#line.root.append(this.#undo.root);
    this.root = el('article', { class: 'card', tabindex: -1, 'aria-labelledby': about }, this.#full, this.#saying.root, this.#line.root);
  }

  get board() {
    return this.#card.prompt.board;
  }

  /** @param {Card} card @param {Around} around */
  update(card, around) {
    if (card.held && card.form !== this.#card.form) this.root.style.minHeight = `${this.root.offsetHeight}px`;
    if (!card.held) this.root.style.minHeight = '';
    [this.#card, this.#around] = [card, around];
    const { prompt, use, form, end } = card;
    this.#marks();
    mark(this.#full, 'hidden', form !== FORM.FULL);
    mark(this.#saying.root, 'hidden', form !== FORM.SAYING);
    mark(this.#line.root, 'hidden', form !== FORM.LINE);
    this.#actions.update(card, around.aired);
    if (use.state === PROMPT.TAKEN) this.#over.says('over', 'Take over', end === '', 'take');
    else this.#over.says('take', 'Take', end === '' && use.state === PROMPT.OPEN);
    this.#undo.says('undo', use.state === PROMPT.DROPPED && card.settled ? 'Bring back' : 'Undo', use.state !== PROMPT.OPEN);
    const pinned = use.pinned ? `, pinned by ${use.pinned === around.me ? 'you' : use.pinned}` : '';
    write(this.#about, `${prompt.kind}, ${prompt.board ? `board ${prompt.board}` : 'the whole show'}${pinned}`);
    for (const sentence of [this.#sentence, this.#saying.text, this.#line.text]) write(sentence, prompt.text);
    write(this.#saying.head, sayingWords(card, around.me));
    write(this.#evidence, prompt.evidence);
    write(this.#ends, lifeWords(card));
    if (use.pinned && this.#sign.dataset.end !== end) this.#sign.replaceChildren(icon(end ? 'drop' : 'said'));
    this.#sign.dataset.end = use.pinned ? end : 'none';
    mark(this.#sign, 'hidden', !use.pinned);
    mark(this.#age, 'hidden', use.pinned !== '' || use.waits);
    this.#reason();
  }

  /** @param {number} show show time */
  tick(show) {
    const { prompt, use, form } = this.#card;
    const { me, aired, airedBy, conflict } = this.#around;
    write(this.#age, `${age(show - prompt.at)} old`);
    write(this.#status, stateWords(this.#card, me, show));
    mark(this.#status, 'hidden', use.state === PROMPT.OPEN);
    write(this.#aired, aired === 'on' || aired === 'leaving' ? `on the air${airedBy ? `, ${airedBy === me ? 'you' : airedBy}` : ''}` : '');
    mark(this.#aired, 'hidden', this.#aired.textContent === '');
    mark(this.#unsent, 'hidden', !use.waits);
    if (form === FORM.LINE) write(this.#line.head, lineWords(this.#card, me, show));
    for (const line of this.#conflicts) {
      mark(line, 'hidden', conflict === '');
      if (conflict && line.lastElementChild) write(line.lastElementChild, conflictWords(use, conflict, me, show));
    }
    mark(this.#evidence, 'hidden', prompt.evidence === '' || conflict !== '');
  }

  /** The times of the board the sentence speaks of. @param {import('../lib/wire.js').Board | undefined} board @param {number} now @param {number | null} lostAt */
  draw(board, now, lostAt) {
    const { prompt, form } = this.#card;
    this.#lane.draw(form === FORM.FULL && prompt.side !== '' ? board : undefined, now, lostAt);
  }

  #marks() {
    const { prompt, use, mine, end, form, held, settled } = this.#card;
    mark(this.root, 'data-prompt', prompt.key);
    mark(this.root, 'data-kind', prompt.kind);
    mark(this.root, 'data-priority', prompt.priority);
    mark(this.root, 'data-state', use.state);
    mark(this.root, 'data-mine', mine);
    mark(this.root, 'data-pinned', use.pinned !== '');
    mark(this.root, 'data-end', end || null);
    mark(this.root, 'data-form', form);
    mark(this.root, 'data-settled', settled);
    mark(this.root, 'data-held', held);
    mark(this.root, 'data-aired', this.#around.aired || null);
  }

  /** Where the reasons stand: at the board, at its games of the reference, or on the health page. */
  #reason() {
    const { kind, board } = this.#card.prompt;
    const feeds = kind === 'feed' || board === 0;
    const games = !feeds && kind === 'reference';
    const href = feeds ? '/health' : `#${games ? 'known' : 'board'}-${board}`;
    if (this.#why.getAttribute('href') === href) return;
    mark(this.#why, 'href', href);
    mark(this.#why, 'target', feeds && '_blank');
    this.#why.replaceChildren(el('span', {}, feeds ? 'Health' : games ? 'Games' : 'Why'), icon('why'));
  }
}

/** A card's small forms: a head and the sentence again. */
class Lines {
  text = el('span', { class: 'again', dir: 'auto' });

  /** @param {string} name @param {string} head class of the head */
  constructor(name, head) {
    this.head = el('strong', { class: head, dir: 'auto' });
    this.words = el('p', {}, this.head, ' ', this.text);
    this.root = el('div', { class: name }, this.words);
  }
}

const conflictLine = () => el('span', { class: 'conflict', hidden: true }, icon('warning'), el('span', { dir: 'auto' }));
