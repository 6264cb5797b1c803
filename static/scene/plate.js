// @ts-check
/** @typedef {import('../lib/wire.js').Player} Player */
import { el, mark, svg, write } from '../lib/dom.js';
import { word } from '../lib/language.js';
import { grouped } from '../lib/san.js';
import { swatch } from '../lib/tellpaint.js';
import { figurine } from '../pieces/pieces.js';
import { tellOf } from './words.js';
import { STEP, figures } from '../lib/clock.js';
import { Digits } from '../lib/digits.js';
import { markSign } from '../lib/marks.js';

/** "About equal", drawn: the type has no such sign. */
const NEARLY = 'M2 13C7 4 13 4 18 10S29 16 34 7M2 27C7 18 13 18 18 24S29 30 34 21';
/** Two upright bars: held. Nobody knows whether such a clock runs, however exact its last reading was. */
const HELD = 'M11 3V31M25 3V31';

/**
 * @typedef {{state: string, left: number, step: number, stands: number, mark: string, known: boolean, veiled: boolean, exact: boolean, trouble: number, point: string}} Time
 *
 * Plate is one player's row of the foot: side mark, name, tell, clock.
 */
export class Plate {
  #name = el('span', { class: 'name', dir: 'auto' });
  #about = el('span', { class: 'about' });
  #gains = el('span', { class: 'gains' });
  #swatch = el('span', { class: 'sample' });
  #word = el('span', { class: 'word' });
  #evidence = el('span', { class: 'evidence' });
  #big = el('span', { class: 'big' });
  #small = el('span', { class: 'small' });
  #big2 = el('span', { class: 'big' });
  #small2 = el('span', { class: 'small' });
  #sign = el('span');
  #delay = el('span');
  #rest = el('b');
  #note = el('span', { class: 'note' }, this.#sign, this.#delay, this.#rest);
  #nearly = svg('path', {});
  #point = el('span', { class: 'point' });
  #figures = [this.#big, this.#small, this.#big2, this.#small2].map((part) => new Digits(part));
  #fitted = '';
  /** @type {unknown[]} */ #told = [];
  #looks = '';

  /** @param {'white' | 'black'} side */
  constructor(side) {
    this.who = el('div', { class: 'who' }, this.#name, this.#about, this.#gains);
    this.tell = el('div', { class: 'tell', 'data-side': side }, this.#swatch, this.#word, this.#evidence);
    const nearly = svg('svg', { class: 'nearly', viewBox: '0 0 36 34', 'aria-hidden': 'true' }, this.#nearly);
    const aside = el('div', { class: 'aside' }, nearly, this.#note);
    const time = el('div', { class: 'time' }, aside, this.#big, this.#small, this.#big2, this.#small2);
    this.clock = el('div', { class: 'clock', 'data-side': side, role: 'timer' }, time, this.#point);
    this.root = el('div', { class: `row ${side}` }, el('i', { class: 'side' }), this.who, this.tell, this.clock);
  }

  /** Name and gains. @param {Player} player */
  player(player) {
    const key = JSON.stringify([player.short, player.name, player.title, player.rating, player.federation, player.gains]);
    if (key === this.#fitted) return;
    this.#fitted = key;
    this.#gains.replaceChildren(...gainsOf(player.gains));
    write(this.#name, player.short);
    this.#fit(player);
  }

  /** Forget what fitted: the type has arrived. @param {Player} player */
  refit(player) {
    this.#fit(player);
  }

  /**
   * A long name first takes the room of the federation, then of the title, of
   * the rating, of the gains; then it grows smaller, then narrower, then takes the room of the
   * tell's word where that stands beside it, then it grows smaller again, and only then loses its end.
   *
   * @param {Player} player
   */
  #fit(player) {
    const rating = player.rating ? String(player.rating) : '';
    const levels = [[player.title, rating, player.federation], [player.title, rating], [rating], []];
    for (const room of ['all', 'no-gains', 'small', 'narrow', 'wordless', 'least']) {
      mark(this.who, 'data-room', room);
      for (const level of room === 'all' ? levels : [[]]) {
        write(this.#about, level.filter(Boolean).join(' '));
        if (this.#name.scrollWidth <= this.#name.clientWidth) return;
      }
    }
  }

  /** @param {Player} player @param {boolean} held @param {boolean} over */
  says(player, held, over) {
    const what = [player, held, over];
    if (what.every((w, i) => w === this.#told[i])) return;
    this.#told = what;
    const { look, word: verdict, evidence } = tellOf(player, held, over);
    mark(this.tell, 'data-verdict', player.tell.verdict);
    mark(this.root, 'data-tell', String(verdict !== '' || evidence !== ''));
    if (this.tell.dataset.look !== look) this.#swatch.replaceChildren(...(look ? [swatch(look)] : []));
    mark(this.tell, 'data-look', look);
    mark(this.clock, 'data-look', look);
    write(this.#evidence, evidence);
    if (this.#word.textContent === verdict) return;
    write(this.#word, verdict);
    this.#fit(player); // a word may stand where the name had room
  }

  /** @param {Time} c */
  time(c) {
    const [[big, small], [big2, small2] = ['', '']] = c.known ? figures(c.left, c.step) : [[c.veiled ? '—' : word('no clock'), '']];
    [big, small, big2, small2].forEach((text, i) => this.#figures[i].write(text));
    const read = big + small + big2 + small2;
    const held = c.known && c.state === 'held';
    const text = (c.exact || !c.known ? '' : held ? '‖' : '≈') + read;
    mark(this.clock, 'data-text', text);
    mark(this.clock, 'aria-label', held ? `${word('held')} ${read}` : text); // the figures are drawn, not written
    const size = c.veiled ? 'long' : c.known ? (big.length > 5 || big2 ? 'long' : 'full') : 'words';
    const looks = JSON.stringify({ ...c, left: 0, size });
    if (looks !== this.#looks) this.#look(c, size);
    this.#looks = looks;
  }

  /** What is not another every second. @param {Time} c @param {string} size */
  #look(c, size) {
    write(this.#point, c.point);
    mark(this.clock, 'data-state', c.state);
    mark(this.clock, 'data-exact', String(c.exact || !c.known || c.stands > 0));
    mark(this.clock, 'data-trouble', String(c.trouble));
    mark(this.#nearly, 'd', c.state === 'held' ? HELD : NEARLY);
    mark(this.clock, 'data-size', size);
    mark(this.clock, 'data-minutes', c.known && c.step === STEP.MINUTE);
    mark(this.clock, 'data-point', c.point);
    this.#besides(c);
  }

  /** Why the clock stands, or rises, or is not simply what the feed says. @param {Time} c */
  #besides(c) {
    const delay = c.stands > 0 ? String(Math.ceil(c.stands / 1000)) : '';
    const sign = !c.known || delay || c.state === 'over' ? '' : c.state === 'rising' ? 'rising' : c.mark;
    write(this.#delay, delay && word('delay'));
    write(this.#rest, delay);
    if (this.#note.dataset.sign !== sign) this.#sign.replaceChildren(...[markSign(sign)].flatMap((s) => s ?? []));
    mark(this.#note, 'data-sign', sign);
    mark(this.clock, 'data-delay', delay || null);
  }
}

/** @param {string} gains */
function gainsOf(gains) {
  if (!gains) return [];
  const drawn = grouped(gains).flatMap(({ piece, count }) =>
    count > 2 ? [figurine(piece), String(count)] : Array.from({ length: count }, () => figurine(piece)),
  );
  return ['+', ...drawn];
}
