// @ts-check
/** @typedef {import('../../lib/wire.js').Caption} Caption */
import { Live } from '../../lib/live.js';
import { byId, mark } from '../../lib/dom.js';
import { OnAir } from '../onair.js';
import { drawSafeAreas, fitStage, motionOption, setTheme } from '../stage.js';
import { Plate } from './plate.js';
import { leave, wipe } from './wipe.js';

/** As --plate in tokens.css. */
const PLATE_MS = 250;

/** Scene keeps one sentence on the air. */
class Scene {
  /** @type {Plate | null} */ #plate = null;
  /** @type {HTMLElement[]} */ #going = [];
  #timer = 0;
  #turn = 0;
  #place = byId('caption');

  /** @param {URLSearchParams} options */
  constructor(options) {
    this.motion = motionOption(options);
    document.body.dataset.motion = this.motion ? 'on' : 'off';
    mark(this.#place, 'data-side', options.get('side')?.toLowerCase() === 'right' ? 'right' : 'left');
    setTheme(options);
    fitStage(byId('stage'));
    if (options.get('safe') === 'on') drawSafeAreas(byId('stage'));
    const live = new Live(
      { page: 'scene/caption' },
      { caption: (f) => onAir.take(f), show: (s) => this.#show(s), state: (s) => this.#state(s, onAir) },
    );
    const onAir = new OnAir(live.time, (caption) => void this.#change(caption));
  }

  /** @param {import('../../lib/wire.js').Show} show */
  #show(show) {
    document.documentElement.lang = show.lang;
  }

  /** @param {'open' | 'lost'} state @param {OnAir} onAir */
  #state(state, onAir) {
    document.body.dataset.line = state;
    onAir.line(state);
  }

  /** @param {Caption | null} caption */
  async #change(caption) {
    const turn = ++this.#turn;
    if (caption) await typeFor(caption);
    if (turn !== this.#turn) return; // another one came in the meantime
    this.#clear();
    const old = this.#plate;
    this.#plate = caption && new Plate(caption);
    if (this.#plate) {
      this.#place.append(this.#plate.root);
      this.#plate.fit();
    }
    this.#exchange(old, this.#plate);
  }

  /** @param {Plate | null} old @param {Plate | null} next */
  #exchange(old, next) {
    if (old) this.#going.push(old.root);
    if (!this.motion || document.hidden) return this.#clear();
    if (next) {
      const clips = wipe(old && old.box, next.box, next.rtl);
      play(next.root, clips.next, 'none');
      if (old) play(old.root, clips.old, 'forwards');
    } else if (old) play(old.root, leave(old.box, old.rtl), 'forwards');
    this.#timer = window.setTimeout(() => this.#clear(), PLATE_MS);
  }

  /** Whatever was still moving is done. */
  #clear() {
    clearTimeout(this.#timer);
    for (const root of this.#going.splice(0)) root.remove();
    for (const animation of this.#plate?.root.getAnimations() ?? []) animation.finish();
  }
}

/** Clips cost no layout. @param {HTMLElement} root @param {{from: string, to: string}} clip @param {'none' | 'forwards'} fill */
function play(root, { from, to }, fill) {
  root.animate([{ clipPath: from }, { clipPath: to }], { duration: PLATE_MS, easing: 'ease-out', fill });
}

/** A sentence is measured in the type that it will be set in. @param {Caption} caption */
async function typeFor({ text, source }) {
  const family = '"Barlow Semi Condensed"';
  await Promise.allSettled([document.fonts.load(`600 56px ${family}`, text), document.fonts.load(`500 26px ${family}`, source)]);
}

new Scene(new URLSearchParams(location.search));
