// @ts-check
/** @typedef {import('../lib/wire.js').BoardSources} BoardSources */
/** @typedef {import('../lib/wire.js').Offer} Offer */
/** Where a board comes from, in words. */
import { resultText } from '../lib/san.js';
import { OFFER } from '../lib/wire.js';
import { count } from '../surface/words.js';

/** A doubt as the relay words it, without its subject. @param {string} text */
const doubt = (text) => text.replace(/^(it|its) /, (word) => (word === 'its ' ? 'its ' : ''));

/** What a feed has of a board's game. @param {Offer} offer @param {BoardSources} board */
export function offerWords(offer, board) {
  const text = doubt(offer.text);
  const lag = board.plies - offer.plies;
  const short = lag > 0 && !text.includes('behind') ? `${count(lag, 'ply', 'plies')} short` : '';
  switch (offer.state) {
    case OFFER.FOLLOWED:
      return ['followed', text].filter(Boolean).join(', ');
    case OFFER.READY:
      return ['ready', short].filter(Boolean).join(', ');
    case OFFER.DIFFERS:
      return ['has other moves', text].filter(Boolean).join(', ');
  }
  return [text || 'in doubt', short].filter(Boolean).join(', ');
}

/** So many errors tell what is usual. */
const USUAL_FROM = 3;

/**
 * By how much the running clocks of a board turned out wrong.
 *
 * @param {import('../lib/wire.js').ClockError} error
 */
export function errorWords(error) {
  if (error.count === 0) return '';
  const off = (/** @type {number} */ ms) => (ms < 50 ? 'right' : `off by ${tenths(ms)} s`);
  const [last, usual] = [off(error.lastMs), off(error.medianMs)];
  return `clock was ${last}` + (error.count >= USUAL_FROM && usual !== last ? `, usually ${usual}` : '');
}

/** "0.2", and "12" where tenths tell nothing. @param {number} ms */
const tenths = (ms) => (ms < 9950 ? (ms / 1000).toFixed(1) : String(Math.round(ms / 1000)));

/** Whether an offer is nothing to worry about. @param {Offer} offer */
export const isSound = (offer) => offer.text === '' && (offer.state === OFFER.FOLLOWED || offer.state === OFFER.READY);

/** What is wrong with the feed followed besides, "" nothing. @param {BoardSources} board */
export function followWords({ offers, feed, pinned }) {
  if (offers.length === 0) return feed ? `${feed} does not have the game` : 'no feed has this game; by hand only';
  if (pinned && pinned !== feed) return `pinned to ${pinned}, which does not have the game`;
  return '';
}

/** Whether something of a board asks for a look. @param {BoardSources} board */
export function isNotable(board) {
  const { question, fault, frozen, pinned, byHand, offers } = board;
  return question !== null || fault !== '' || frozen > 0 || pinned !== '' || byHand.length > 0 || !offers.every(isSound) || followWords(board) !== '';
}

/** Whose move comes next: "24. White", "24... Black". @param {BoardSources} board */
export const nextWords = ({ next, turn }) => `${next} ${turn === 'black' ? 'Black' : 'White'}`;

/** "White – Black", as far as known. @param {{white: string, black: string}} board */
export const namesOf = ({ white, black }) => `${white || 'White'} – ${black || 'Black'}`;

/** The results, each as the relay writes it and in words. @type {[string, string][]} */
export const RESULTS = [
  ['1-0', 'White won'],
  ['1/2-1/2', 'draw'],
  ['0-1', 'Black won'],
  ['*', 'not over'],
];

/** "1–0", or "not over". @param {string} result */
export const resultWord = (result) => resultText(result) || 'not over';

/** Whether a board has what somebody looks for: its number or a part of a name. @param {BoardSources} board @param {string} sought */
export function isSought(board, sought) {
  const text = sought.trim().toLocaleLowerCase();
  if (/^\d+$/.test(text)) return String(board.board) === text;
  return `${board.white} ${board.black}`.toLocaleLowerCase().includes(text);
}

/** How many boards stand by hand, frozen and so on: "60 boards, 2 frozen, 3 by hand". @param {BoardSources[]} boards */
export function sumWords(boards) {
  const sum = (/** @type {(b: BoardSources) => boolean} */ holds, /** @type {string} */ word) => {
    const n = boards.filter(holds).length;
    return n > 0 ? `${n} ${word}` : '';
  };
  const parts = [
    count(boards.length, 'board'),
    sum((b) => b.fault !== '', 'stopped'),
    sum((b) => b.frozen > 0, 'frozen'),
    sum((b) => b.pinned !== '', 'pinned'),
    sum((b) => b.byHand.length > 0, 'with entries by hand'),
  ];
  return parts.filter(Boolean).join(', ');
}
