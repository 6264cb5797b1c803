// @ts-check
/** @typedef {import('../lib/wire.js').BoardSources} BoardSources */
/** @typedef {import('./sender.js').Sender} Sender */
import { el, mark, write } from '../lib/dom.js';
import { icon } from '../surface/dom.js';
import { Said } from './said.js';

/** What an answer would put on the air. @param {import('../lib/wire.js').Question} question @param {'hand' | 'feed'} keep */
export function answerWords({ kind, hand, feed }, keep) {
  const said = keep === 'hand' ? hand : feed;
  if (kind === 'result') return said === '*' || said === '' ? 'not over' : said;
  if (said) return said;
  return kind === 'move' ? 'no move' : 'nothing';
}

/** QuestionView asks, loudly, who is right, and sends the answer. */
export class QuestionView {
  #sender;
  /** @type {BoardSources | null} */ #item = null;
  #text = el('p', { class: 'question-text', dir: 'auto' });
  #said;
  #answers;

  /** @param {Sender} sender */
  constructor(sender) {
    this.#sender = sender;
    this.#said = new Said(sender);
    this.#answers = [this.#answer('hand', 'Keep by hand'), this.#answer('feed', 'Take the feed’s')];
    const buttons = el('div', { class: 'answers' }, ...this.#answers.map((a) => a.button));
    this.root = el('div', { class: 'question', role: 'group', tabindex: -1, 'aria-label': 'Who is right?', hidden: true }, icon('ask'), this.#text, buttons, this.#said.root);
  }

  /** @param {BoardSources} item */
  update(item) {
    const { question } = item;
    if (question?.id !== this.#item?.question?.id) this.#said.show('none');
    this.#item = item;
    mark(this.root, 'hidden', question === null);
    if (!question) return;
    write(this.#text, question.text);
    for (const { keep, words } of this.#answers) write(words, answerWords(question, keep));
  }

  /** The question takes the focus, not an answer: the next Enter must not give one by mistake. */
  focus() {
    this.root.focus({ preventScroll: true });
  }

  /** @param {'hand' | 'feed'} keep @param {string} name */
  #answer(keep, name) {
    const words = el('span', { class: 'answer-words', dir: 'auto' });
    const button = el('button', { type: 'button', class: 'button', 'data-keep': keep }, el('strong', {}, name), words);
    button.addEventListener('click', () => this.#send(keep, name));
    return { keep, button, words };
  }

  /** @param {'hand' | 'feed'} keep @param {string} name */
  async #send(keep, name) {
    const { board, question } = this.#item ?? {};
    if (!question) return;
    await this.#said.follow(this.#sender, { board, act: 'answer', keep, asked: question.id }, name, 'Answered.');
  }
}
