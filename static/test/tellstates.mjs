// Invented games for the tell line: each a board as the wire has it, as far as
// the drawing reads it, with the moment at which it is looked at.

const SECOND = 1000;
const MINUTE = 60 * SECOND;
const SANS = ['e4', 'c5', 'Nf3', 'd6', 'd4', 'cxd4', 'Nxd4', 'Nf6', 'Nc3', 'a6', 'Be3', 'e5', 'Nb3', 'Be6', 'f3', 'O-O'];

/** A generator of numbers from 0 to 1 that is the same every time. */
export function dice(seed) {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/** Plies from [seconds, look, more]. */
export function plies(list) {
  return list.map(([s, look, more = {}], i) => ({
    number: i + 1, san: SANS[i % SANS.length], spentMs: s * SECOND, quality: 'read', look, mark: '', ...more,
  }));
}

const clock = (state, spentMs, more = {}) => ({ state, at: 0, spentMs, leftMs: 5 * MINUTE, quality: 'read', stepMs: SECOND, unsureMs: 0, mark: '', ...more });

/** A board whose side on move has thought so long. */
export function board(list, runSeconds, look = 'thinking', more = {}, clockMore = {}) {
  const all = Array.isArray(list[0]) ? plies(list) : list;
  const running = all.length % 2 ? 'black' : 'white';
  const tell = { verdict: look === 'unsure' ? 'thinking' : look, thinking: look === 'unsure' ? 0.7 : look === 'preparation' ? 0.1 : 0.95, trouble: 0 };
  if (look === 'trouble') Object.assign(tell, { verdict: 'thinking', trouble: 2 });
  if (look === 'none') tell.verdict = 'noclock';
  const side = (s) => ({ clock: s === running ? clock('running', runSeconds * SECOND, clockMore) : clock('stopped', 0, clockMore), tell });
  return { plies: all, running, result: '*', novelty: null, white: side('white'), black: side('black'), ...more };
}

const prep = (s) => [s, 'preparation'];
const think = (s) => [s, 'thinking'];
const opening = [2, 4, 6, 8, 5, 8, 7, 9, 6, 10, 8, 11, 12, 14, 10].map(prep);
const middle = [[9, 'preparation'], [78, 'thinking'], [4, 'preparation'], [104, 'thinking'], [11, 'preparation'], [186, 'thinking'], [12, 'unsure'], [62, 'unsure']];
const rapid = [
  ...[3, 5, 4, 6, 3, 4, 5, 7, 4, 5, 6, 9, 8, 21].map(prep), ...[8, 14, 10, 48, 6, 63].map((s, i) => (i % 2 ? think(s) : prep(s))),
  prep(5), think(274), prep(6), think(9), prep(9), think(196), prep(12), think(148), prep(16), think(66), prep(9), think(66), prep(15), think(58),
  prep(10), [20, 'trouble'], prep(8),
];

/** A long game: an opening from preparation, then thinks of every length. */
export function long(count, mean, seed) {
  const next = dice(seed);
  return Array.from({ length: count }, (_, i) => {
    if (i < 18) return prep(2 + Math.round(10 * next()));
    const s = Math.round(-mean * Math.log(1 - next()));
    return [Math.max(1, s), s < mean / 6 ? 'preparation' : s < mean / 3 ? 'unsure' : 'thinking'];
  });
}

const marked = rapid.slice(0, 28).map((p, i) => {
  const more = { 5: { mark: 'mended' }, 21: { mark: 'mended' }, 23: { mark: 'doubtful' }, 24: { quality: 'estimated' }, 25: { quality: 'estimated' }, 26: { mark: 'unread', quality: 'none' }, 16: { quality: 'estimated' } }[i];
  return more?.quality === 'none' ? [0, 'none', more] : [p[0], p[1], more];
});

/** name, board, show time, since when the page is lost. */
export const STATES = [
  ['start', board([], 4, 'unsure'), 0, null],
  ['preparation', board(opening, 3, 'preparation'), 0, null],
  ['first thoughts', board([...opening, ...middle], 112, 'thinking'), 0, null],
  ['new move, time trouble', board(rapid, 27, 'trouble', { novelty: { ply: 37 } }), 0, null],
  ['new move early', board([...opening, ...middle], 40, 'unsure', { novelty: { ply: 1 } }), 0, null],
  ['feed silent', board(rapid.slice(0, 30), 0, 'thinking', { running: '', novelty: { ply: 19 }, white: { clock: clock('held', 95 * SECOND), tell: {} }, black: { clock: clock('stopped', 0), tell: {} } }), 0, null],
  ['page lost', board(rapid.slice(0, 29), 50, 'thinking'), 50 * SECOND, 20 * SECOND],
  ['marks', board(marked, 20, 'thinking', {}, { quality: 'estimated' }), 0, null],
  ['no clocks', board(plies(rapid.slice(0, 24)).map((p) => ({ ...p, spentMs: 0, look: 'none', quality: 'none' })), 0, 'none', {}, { quality: 'none' }), 0, null],
  ['minutes only', board([...opening.map(() => [0, 'unsure']), [120, 'thinking'], [0, 'unsure'], [300, 'thinking'], [60, 'unsure'], [480, 'thinking'], [60, 'unsure'], [360, 'thinking']], 70, 'thinking', {}, { stepMs: MINUTE, unsureMs: 40 * SECOND }), 0, null],
  ['three and a half hours', board(long(96, 160, 7), 380, 'thinking', { novelty: { ply: 17 } }), 0, null],
  ['new move in the gap', board(long(120, 130, 11), 30, 'unsure', { novelty: { ply: 31 } }), 0, null],
  ['many moves', board(long(210, 11, 5), 6, 'trouble', { novelty: { ply: 21 } }), 0, null],
  ['ended', board(rapid, 0, 'thinking', { result: '1-0', running: '' }), 0, null],
];
