// @ts-check
/** The games of the reference, drawn: how they ended, what they played, the last of them. */
/** @typedef {import('../lib/wire.js').Known} Known */
/** @typedef {import('../lib/wire.js').KnownGame} KnownGame */
/** @typedef {import('../lib/wire.js').KnownMove} KnownMove */
import { el } from '../lib/dom.js';
import { move } from '../lib/figures.js';
import { isWhite, moveNumber, thousands } from '../lib/san.js';
import { games } from '../surface/reference.js';
import { didBest, endings, gameFacts, numbered, playedBy } from './standing.js';

/** So many moves are told with all there is; one more, rather than a line for it alone. */
const SHOWN = 3;

/** What stays on one line. @param {...(Node | string)} parts */
const whole = (...parts) => el('span', { class: 'whole' }, ...parts);

/** @param {string} words */
const head = (words) => el('h4', {}, words);

/** How the games ended that reached a position. @param {Known} known @param {boolean} before the new move */
export function ended(known, before) {
  const words = before ? `How ${known.games === 1 ? 'the one game' : `the ${games(known.games)}`} ended` : 'How they ended';
  const list = endings(known).map(({ sign, text }) => el('li', {}, el('i', { class: `sign ${sign}` }), text));
  return el('section', {}, head(words), endBar(known), el('ul', { class: 'endings' }, ...list));
}

/** A bar divided by how games ended: White's part is full, draws are hatched, Black's part is hollow. @param {Known} known */
function endBar(known) {
  const parts = endings(known).filter((e) => e.games > 0).map(({ sign, games: n }) => {
    const part = el('i', { class: `sign ${sign}` });
    part.style.flexGrow = String(n);
    return part;
  });
  return el('span', { class: 'end-bar', 'aria-hidden': 'true' }, ...parts);
}

/** How often a move was played, as a length. @param {number} share of the games of the move played most */
function often(share) {
  const length = el('i');
  length.style.width = `${Math.round(1000 * share) / 10}%`;
  return el('span', { class: 'often', 'aria-hidden': 'true' }, length);
}

/** The moves played most in a position. @param {Known} known @param {number} ply to come @param {boolean} before the new move */
export function usual(known, ply, before) {
  const { moves } = known;
  const words = `${before ? 'What was usual for' : 'What was played by'} ${isWhite(ply) ? 'White' : 'Black'} on move ${moveNumber(ply)}`;
  if (moves.length === 0) return el('section', {}, head(words), el('p', { class: 'known-note' }, 'No game is held beyond here'));
  const shown = moves.length === SHOWN + 1 ? moves : moves.slice(0, SHOWN);
  const best = didBest(moves, isWhite(ply));
  const rows = shown.map((m) => row(m, m.games / moves[0].games, isWhite(ply), m.san === best));
  const rest = moves.slice(shown.length).flatMap((m, i) => [i ? ', ' : 'also ', whole(move(m.san), ` ${thousands(m.games)}`)]);
  const also = rest.length ? [el('p', { class: 'known-note also' }, ...rest)] : [];
  return el('section', {}, head(words), el('ul', { class: 'usual' }, ...rows), ...also);
}

/** @param {KnownMove} m @param {number} share of the games of the move played most @param {boolean} white @param {boolean} best */
function row(m, share, white, best) {
  const scored = endings(m).flatMap((e, i) => [...(i ? [', '] : []), whole(e.text)]);
  const side = white ? 'White' : 'Black';
  return el(
    'li',
    {},
    move(m.san),
    often(share),
    el('span', { class: 'games' }, games(m.games)),
    el('p', { class: 'scored' }, ...scored, ...(best ? ['; ', el('b', {}, `did best for ${side}`)] : [])),
    el('p', { class: 'by' }, ...by(m, white)),
  );
}

/** @param {KnownMove} m @param {boolean} white */
function by(m, white) {
  const { name, rating, year } = playedBy(m, white);
  const who = name ? ['best rated ', el('span', { dir: 'auto', class: 'who' }, name), ` ${rating}`] : rating ? [`ratings up to ${rating}`] : [];
  const when = year ? [whole(`last in ${year}`)] : [];
  return who.length && when.length ? [...who, ', ', ...when] : [...who, ...when];
}

/** The last game to share a position. @param {KnownGame} game @param {number} ply to come @param {boolean} before the new move */
export function lastGame(game, ply, before) {
  const { result, event } = gameFacts(game);
  const went = game.went ? [before ? 'it went on ' : 'then ', whole(`${numbered(ply)} `, move(game.went))] : ['it ended there'];
  return el(
    'section',
    { class: 'last-game' },
    head(before ? 'The last of them' : 'The last game here'),
    el('p', {}, ...player(game.white, game.whiteRating, 'White'), ' – ', ...player(game.black, game.blackRating, 'Black'), ', ', whole(result)),
    el('p', { class: 'known-note' }, ...(event ? [el('span', { dir: 'auto' }, event), ', '] : []), ...went),
  );
}

/** @param {string} name @param {number} rating @param {string} side */
function player(name, rating, side) {
  return [el('span', { dir: 'auto', class: 'who' }, name || side), ...(rating ? [el('span', { class: 'rating' }, ` ${rating}`)] : [])];
}
