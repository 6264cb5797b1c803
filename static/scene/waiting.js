// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
import { speak, word } from '../lib/language.js';
import { GERMAN } from './german.js';
import { byId, el, write } from '../lib/dom.js';
import { placeOf } from './words.js';

/** Show, round and board, in the corner. @param {Board} board @param {string} [place] */
export function showTag(board, place = placeOf(board)) {
  const tag = byId('tag');
  if (!tag.firstChild) tag.append(el('b'), el('span'));
  const [event, beside] = tag.children;
  write(event, board.event);
  write(beside, place);
}

/** From now on this page speaks the language of the show. @param {import('../lib/wire.js').Show} show */
export function speakAs({ lang }) {
  document.documentElement.lang = lang;
  speak(/^de\b/i.test(lang) ? GERMAN : {});
}

/** Take the language of the show, and say what the scene waits for. @param {import('../lib/wire.js').Show} show @param {number} board 0: any */
export function waitFor(show, board) {
  speakAs(show);
  write(byId('waiting-show'), show.title);
  write(byId('waiting-words'), word(show.boards && board ? `Waiting for board ${board}` : 'Waiting for the first game'));
}
