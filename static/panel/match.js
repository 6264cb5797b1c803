// @ts-check
/** @typedef {import('../lib/wire.js').Match} Match */
/** @typedef {import('../lib/wire.js').MatchGame} MatchGame */
import { el, mark, write } from '../lib/dom.js';

/** Whether there is room for what can be folded. */
const roomy = () => matchMedia('(min-width: 600px)').matches;

/** Words of a stage that is a tie-break. @type {Record<string, string>} */
const STAGES = { rapid: 'rapid tie-break', blitz: 'blitz tie-break', armageddon: 'armageddon' };

/** MatchView is the score at the head of the panel, and what is to come of the match. */
export class MatchView {
  #score;
  #more;
  #first = el('span', { class: 'first', dir: 'auto' });
  #second = el('span', { class: 'second', dir: 'auto' });
  #points = el('b');
  #played = el('span', { class: 'played' });
  #line = el('strong', { dir: 'auto' });
  #forecast = el('p', { class: 'match-note', dir: 'auto' });
  #head = el('h3', { id: 'match-to-come' }, 'To come');
  #list = el('ul', { class: 'match-rounds', 'aria-labelledby': 'match-to-come' });

  /** @param {HTMLElement} score @param {HTMLElement} more */
  constructor(score, more) {
    this.#score = score;
    this.#more = more;
    score.append(this.#first, ' ', this.#points, ' ', this.#second, ' ', this.#played);
    const body = el('div', { class: 'match-body' }, this.#forecast, this.#head, this.#list);
    more.append(el('summary', {}, this.#line), body);
    mark(more, 'open', roomy());
  }

  /** @param {Match | null} match */
  update(match) {
    mark(this.#score, 'hidden', match === null);
    mark(this.#more, 'hidden', match === null);
    if (!match) return;
    write(this.#first, match.first);
    write(this.#points, `${match.firstScore} – ${match.secondScore}`);
    write(this.#second, match.second);
    write(this.#played, played(match));
    write(this.#line, match.line);
    write(this.#forecast, match.forecast && `${match.forecast[0].toUpperCase()}${match.forecast.slice(1)}.`);
    mark(this.#forecast, 'hidden', match.forecast === '');
    mark(this.#head, 'hidden', match.toCome.length === 0);
    this.#list.replaceChildren(...match.toCome.map((line) => el('li', { dir: 'auto' }, line)));
    mark(this.#more, 'data-empty', match.forecast === '' && match.toCome.length === 0);
  }
}

/** How far the match has come: "4 of 6 games". @param {Match} match */
export function played(match) {
  const stage = STAGES[match.stage];
  return `${stage ? `${stage}, ` : ''}${match.played} of ${match.planned} ${match.planned === 1 ? 'game' : 'games'}`;
}

/** StakeView is what each result of a board's game would mean for the match. */
export class StakeView {
  #rows;

  constructor() {
    const rows = [['white', '1 – 0'], ['draw', '½ – ½'], ['black', '0 – 1']].map(([key, result]) => {
      const text = el('dd', { dir: 'auto' });
      return { key: /** @type {'white' | 'draw' | 'black'} */ (key), text, parts: [el('dt', {}, result), text] };
    });
    this.#rows = rows;
    const list = el('dl', {}, ...rows.flatMap((row) => row.parts));
    this.root = el('details', { class: 'stakes', hidden: true, open: roomy() }, el('summary', {}, 'For the match'), list);
  }

  /** @param {MatchGame | undefined} game undefined: it means nothing for a match */
  update(game) {
    mark(this.root, 'hidden', game === undefined);
    if (game) for (const { key, text } of this.#rows) write(text, game[key]);
  }
}
