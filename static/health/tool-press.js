// @ts-check
/** @typedef {import('../lib/wire.js').BoardSources} BoardSources */
/** @typedef {import('./sender.js').Sender} Sender */
import { el, mark, write } from '../lib/dom.js';
import { icon } from '../surface/dom.js';
import { Press } from '../surface/press.js';
import { Said } from './said.js';
import { RESULTS, resultWord } from './sources.js';

/** A group of buttons with a heading and the line that tells what came of them. */
class Group {
  #legend = el('legend');
  buttons = el('div', { class: 'choices' });
  sender;
  item;

  /** @param {Sender} sender @param {BoardSources} item @param {string} name */
  constructor(sender, item, name) {
    this.sender = sender;
    this.item = item;
    this.said = new Said(sender);
    this.root = el('fieldset', { class: 'tool', 'data-tool': name }, this.#legend, this.buttons, this.said.root);
  }

  /** @param {string} words */
  legend(words) {
    write(this.#legend, words);
  }

  /** @param {Partial<import('../lib/wire.js').Entry>} entry @param {string} what @param {string} done */
  send(entry, what, done) {
    return this.said.follow(this.sender, { board: this.item.board, ...entry }, what, done);
  }
}

/** The result. */
export class ResultTool extends Group {
  /** @type {[string, string, Press][]} */ #presses;

  /** @param {Sender} sender @param {BoardSources} item */
  constructor(sender, item) {
    super(sender, item, 'result');
    this.#presses = RESULTS.map(([result, word]) => [result, word, new Press({ 'data-result': result }, () => this.#set(result))]);
    mark(this.buttons, 'data-square', true);
    this.buttons.append(...this.#presses.map(([, , press]) => press.root));
    this.update(item);
  }

  /** @param {BoardSources} item */
  update(item) {
    this.item = item;
    const running = item.result === '*';
    this.legend(`Result, now ${resultWord(item.result)}`);
    for (const [result, word, press] of this.#presses) {
      const text = result === '*' ? 'Not over' : `${resultWord(result)} ${word}`;
      const ends = running && result !== '*';
      press.says(text, ends ? `Press again for ${resultWord(result)}` : '');
      mark(press.root, 'aria-pressed', String(item.result === result));
    }
  }

  /** @param {string} result */
  async #set(result) {
    if (result === this.item.result) return this.said.show('note', 'It is so already.');
    const word = resultWord(result);
    await this.send({ act: 'result', text: result }, `result ${word}`, `The result is entered: ${word}.`);
  }
}

/** The board stays as it is, or goes on. */
export class FreezeTool extends Group {
  #word = el('span');
  #button = el('button', { type: 'button', class: 'button', 'data-act': 'freeze' }, icon('frozen'), this.#word);

  /** @param {Sender} sender @param {BoardSources} item */
  constructor(sender, item) {
    super(sender, item, 'freeze');
    this.buttons.append(this.#button);
    // The second press of a double click would undo the first.
    this.#button.addEventListener('click', (e) => e.detail < 2 && this.#toggle());
    this.update(item);
  }

  /** @param {BoardSources} item */
  update(item) {
    this.item = item;
    this.legend(item.frozen ? 'Frozen: only what you enter shows' : 'What viewers see');
    write(this.#word, item.frozen ? 'Let it go on' : 'Freeze the board');
  }

  async #toggle() {
    const freeze = this.item.frozen === 0;
    const done = freeze ? 'Frozen: of the feeds nothing shows until you let it go on.' : 'It goes on.';
    await this.send({ act: freeze ? 'freeze' : 'thaw' }, freeze ? 'freezing' : 'letting it go on', done);
  }
}

/** Which feed the board follows. */
export class FollowTool extends Group {
  #key = '';

  /** @param {Sender} sender @param {BoardSources} item */
  constructor(sender, item) {
    super(sender, item, 'follow');
    this.update(item);
  }

  /** @param {BoardSources} item */
  update(item) {
    this.item = item;
    const { offers, feed, pinned } = item;
    this.legend(feed ? `Follow, now ${feed}${pinned ? ', pinned' : ''}` : 'Follow');
    const feeds = offers.map((o) => o.feed);
    if (pinned && !feeds.includes(pinned)) feeds.push(pinned);
    this.root.hidden = feeds.length === 0;
    this.#list(['', ...feeds]);
    for (const button of this.buttons.children) mark(button, 'aria-pressed', String(button.getAttribute('data-feed-name') === pinned));
  }

  /** @param {string[]} feeds "" for the best */
  #list(feeds) {
    const key = JSON.stringify(feeds);
    if (key === this.#key) return;
    this.#key = key;
    const buttons = feeds.map((feed) => {
      const button = el('button', { type: 'button', class: 'button', 'data-feed-name': feed, dir: 'auto' }, feed || 'The best feed');
      button.addEventListener('click', () => this.#pin(feed));
      return button;
    });
    this.buttons.replaceChildren(...buttons);
  }

  /** @param {string} feed */
  async #pin(feed) {
    if (feed === this.item.pinned) return this.said.show('note', 'It is so already.');
    const words = feed ? `following ${feed}` : 'following the best feed';
    await this.send({ act: 'pin', feed }, words, feed ? `Pinned to ${feed}, whatever it does.` : 'It follows the best feed.');
  }
}
