// @ts-check
/** @typedef {import('../lib/wire.js').LogLine} LogLine */
import { resultText } from '../lib/san.js';

/** What the lines of the show log say, in words. The kinds are those of relay/note.go. */

/** Groups of kinds, for the filter, each with its name. @type {[string, string][]} */
export const GROUPS = [
  ['moves', 'moves and corrections'],
  ['clocks', 'clocks'],
  ['feeds', 'feeds'],
  ['hand', 'by hand'],
  ['alerts', 'alerts'],
  ['panel', 'at panel and desk'],
];

/** @typedef {(line: LogLine) => string} Words */

/** @param {string} name @returns {Words} */
const changed = (name) => ({ was, is }) => (is === '' ? `${name}: was ${was}, now none` : `${name}: ${was ? `was ${was}, now ` : ''}${is}`);
/** @param {string} result */
const result = (result) => resultText(result) || 'not over';
/** "13.Nxe5 Nxe5": a number is said once. @param {string} text */
const moves = (text) => text.replace(/(^| )(\d+)\.([^. ]\S*) \2\.\.\./g, '$1$2.$3 ');
/** An alert without its sentence, by its kind. @param {string} is */
const kept = (is) => (is === 'engine' ? 'The engine has something to say; it is kept back while viewers are asked' : is);
/** A game that is under way needs no result. @param {string} text */
const game = (text) => text.replace(/, \*$/, '');
/** Why another feed is followed, which names the one left or means the new one. @param {LogLine} line */
const why = ({ was, is, text }) => (text.startsWith(`${was}: `) ? text.slice(was.length) : text && `; ${text.replace(/^it /, `${is} `)}`);

/** @type {Record<string, string>} */
const STATES = { ok: 'fine', late: 'late', stale: 'silent', waiting: 'waiting' };
/** @param {string} text */
const sentenceCase = (text) => text.charAt(0).toUpperCase() + text.slice(1);
/** What a co-host did, by the words of relay/atpanel.go. @type {Record<string, string>} */
const PANEL_ACTS = {
  take: 'takes', said: 'has said', drop: 'drops', undo: 'takes back', pin: 'pins', unpin: 'unpins', air: 'puts on the air', off: 'takes off the air', note: 'notes',
  wipe: 'wipes the note',
};
/** @param {string} state */
const stateWord = (state) => STATES[state] ?? state;

/** @type {Record<string, {group: string, loud?: boolean, says: Words}>} */
export const KINDS = {
  game: { group: 'moves', says: ({ was, is }) => `New game: ${game(is)}${was ? `; was ${game(was)}` : ''}` },
  moves: { group: 'moves', says: ({ is }) => moves(is) },
  replaced: { group: 'moves', loud: true, says: ({ was, is }) => `Replaced: was ${moves(was)}, now ${moves(is)}` },
  takenBack: { group: 'moves', loud: true, says: ({ was }) => `Taken back: ${moves(was)}` },
  result: { group: 'moves', says: ({ was, is }) => `Result: was ${result(was)}, now ${result(is)}` },
  uncounted: { group: 'moves', loud: true, says: ({ was, is, text }) => (is ? `Not counted for the match: ${is}; ${text}` : `Counted for the match now; was ${was}`) },
  player: { group: 'moves', says: changed('Player') },
  control: { group: 'clocks', says: changed('Time control') },
  clock: { group: 'clocks', says: ({ was, is }) => `Clock: was ${was}, now ${is}` },
  fault: { group: 'moves', loud: true, says: ({ is }) => (is ? `Shown no further: ${is}` : 'Shown on again') },
  vanished: { group: 'feeds', loud: true, says: ({ was, text }) => `Feed ${text} no longer has the game (had ${was})` },
  returned: { group: 'feeds', says: ({ is, text }) => `Feed ${text} has the game again (${is})` },
  place: { group: 'feeds', says: ({ was, is, text }) => `Feed ${text} lists the game elsewhere: was number ${was}, now ${is}` },
  older: { group: 'feeds', loud: true, says: ({ was, is, text }) => `Feed ${text} went back: was ${was}, now ${is}; not shown` },
  olderOver: { group: 'feeds', says: ({ was, is, text }) => `Feed ${text} goes on: was ${was}, now ${is}` },
  feed: { group: 'feeds', loud: true, says: (line) => `Follows ${line.is || 'no feed'}, was ${line.was || 'no feed'}${why(line)}` },
  feedState: { group: 'feeds', says: ({ was, is, text }) => `Feed ${text}: was ${stateWord(was)}, now ${stateWord(is)}` },
  byHand: { group: 'hand', says: ({ is, text }) => `By hand: ${text || is}` },
  panel: { group: 'panel', says: ({ was, is, text }) => `${was} ${PANEL_ACTS[is] ?? is}: ${text}` },
  desk: { group: 'panel', says: ({ was, text }) => `Desk${was ? `, ${was}` : ''}: ${text}` },
  refused: { group: 'hand', loud: true, says: ({ is, text }) => `By hand, not done: ${is && !text.includes(is) ? `${is}, ` : ''}${text}` },
  asked: { group: 'hand', loud: true, says: ({ was, is, text }) => `Who is right? The ${text} by hand: ${was || 'taken back'}; the feed’s: ${is || 'none'}` },
  agreed: { group: 'hand', says: ({ is }) => `The feed now says ${is} too, and leads again` },
  raised: { group: 'alerts', says: ({ is, text }) => text || kept(is) },
  cleared: { group: 'alerts', says: ({ is, text }) => `Over: ${text || kept(is)}` },
  tell: { group: 'alerts', says: ({ was, is }) => `${sentenceCase(is)}, was ${was.replace(/^\S+ /, '')}` },
};

/** @param {string} kind */
export const groupOf = (kind) => KINDS[kind]?.group ?? '';

/** Whether a line tells of something the producer should not miss. @param {LogLine} line */
export function isLoud({ kind, is }) {
  if (kind === 'fault' || kind === 'uncounted') return is !== '';
  return KINDS[kind]?.loud === true || (kind === 'feedState' && is === 'stale');
}

/** A line in words, without its time and board. @param {LogLine} line @param {string} place of its ply, "23...", or "" */
export function noteWords(line, place) {
  const kind = KINDS[line.kind];
  const words = kind ? kind.says(line) : [line.kind, line.was && `was ${line.was}`, line.is && `now ${line.is}`, line.text].filter(Boolean).join(', ');
  return line.kind === 'clock' && place ? words.replace('Clock:', `Clock after ${place}:`) : words;
}

/** Time of day, as the clock on the wall shows it. @param {number} at show time */
export function dayTime(at) {
  const d = new Date(at);
  return [d.getHours(), d.getMinutes(), d.getSeconds()].map((n) => String(n).padStart(2, '0')).join(':');
}
