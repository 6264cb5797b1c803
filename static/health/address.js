// @ts-check
/** The address of a scene, from what somebody chose. */
import { THEMES } from '../scene/themes.js';

/**
 * An option of a scene's address with what it can be, the first if it is left out: [value, words].
 *
 * @typedef {{name: string, label: string, values: readonly (readonly [string, string])[]}} Option
 * @typedef {readonly [string, string]} Named a value with its words
 * @typedef {{name: string, board: boolean, first?: Named, last?: Named, options: readonly Option[]}} Scene board: it shows
 *   one. first and last: what can be chosen before the boards and behind them
 * @typedef {{scene: string, board: string | number, hold: string, options: Record<string, string>, token?: string}} Choices
 *   board: "" for any, "air" for the desk's. hold: seconds, a group, or "" for none. options: by their names. token: the viewers'. "" or missing: none
 */

/** @type {Option} */
const BOTTOM = { name: 'side', label: 'At the bottom', values: [['white', 'White'], ['black', 'Black']] };
/** @type {Option} */
const PLACE = { name: 'side', label: 'Place', values: [['left', 'left'], ['right', 'right']] };
/** @type {Option} */
const MARKS = { name: 'marks', label: 'Marks of the caption', values: [['on', 'shown'], ['off', 'not shown']] };
/** @type {Option} */
const LIFT = { name: 'lift', label: 'One board large', values: [['on', 'where it burns'], ['off', 'never']] };

/** @type {Option} */
const TURNED = { name: 'side', label: 'At the bottom', values: [['', 'as at the desk'], ['white', 'White'], ['black', 'Black']] };
/** @type {Named} */
const DESKS = ['air', 'the one that the desk has put on the air'];

/** @type {readonly Option[]} */
const COMMON = [
  { name: 'theme', label: 'Theme', values: THEMES.map((theme) => /** @type {const} */ ([theme, theme])) },
  { name: 'motion', label: 'Motion', values: [['on', 'on'], ['off', 'off: nothing moves']] },
  { name: 'safe', label: 'Safe areas', values: [['off', 'not drawn'], ['on', 'drawn, for setting up']] },
];

/** What we know of scenes beyond what all share. @type {Record<string, Scene>} */
const KNOWN = {
  'scene/board': { name: 'Board', board: true, last: DESKS, options: [BOTTOM, MARKS] },
  'scene/clocks': { name: 'Clocks', board: true, last: DESKS, options: [BOTTOM] },
  'scene/wall': { name: 'Wall', board: false, options: [BOTTOM, LIFT] },
  'scene/caption': { name: 'Caption', board: false, options: [PLACE] },
  'scene/challenge': { name: 'Challenge', board: true, first: ['', 'any'], options: [TURNED] },
};

/** A scene by its path; of one that we do not know, what all scenes share. @param {string} path @returns {Scene} */
export function sceneOf(path) {
  const word = path.split('/').pop() ?? '';
  const scene = KNOWN[path] ?? { name: word.charAt(0).toUpperCase() + word.slice(1), board: false, options: [] };
  return { ...scene, options: [...scene.options, ...COMMON] };
}

/** What can be chosen for the board of a scene. @param {Scene} scene @param {readonly Named[]} boards @returns {Named[]} */
export function boardsOf({ first, last }, boards) {
  return [...(first ? [first] : []), ...boards, ...(last ? [last] : [])];
}

/** The address, absolute. What is left out means the same as the first value. @param {string} origin @param {Choices} choices */
export function addressOf(origin, { scene, board, hold, options, token }) {
  const { board: one, options: takes } = sceneOf(scene);
  const query = new URLSearchParams();
  if (one && board !== '') query.set('board', String(board));
  if (hold) query.set('hold', hold);
  for (const { name, values } of takes) {
    const value = options[name];
    if (values.slice(1).some(([v]) => v === value)) query.set(name, value);
  }
  if (token) query.set('token', token);
  const path = scene.split('/').map(encodeURIComponent).join('/');
  return `${origin}/${path}${String(query) ? `?${query}` : ''}`;
}

/** "12,5" is written 12.5 in an address. @param {string} typed */
export const holdTyped = (typed) => typed.trim().replace(/^(\d+),(\d+)$/, '$1.$2');

/** What is wrong with a hold, "" nothing: as the relay reads it. @param {string} hold @param {number} mostMs */
export function holdWrong(hold, mostMs) {
  if (hold === '' || /^[a-z][a-z0-9-]{0,23}$/.test(hold)) return '';
  if (!/^[0-9.+-]/.test(hold)) return 'The name of a group has 1 to 24 small letters, figures and hyphens, and begins with a letter.';
  if (/^\d{1,6}(\.\d{1,3})?$/.test(hold) && Number(hold) * 1000 <= mostMs) return '';
  return `Write seconds, 0 to ${mostMs / 1000} such as 12 or 7.5, or the name of a group.`;
}
