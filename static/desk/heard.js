// @ts-check
/** @typedef {import('../lib/wire.js').Desk} Desk */
import { WAY } from '../lib/wire.js';
import { question } from './ribbonwords.js';
import { stepWords } from './words.js';

/**
 * What a screen reader is told of a change: what is on the air first, then who leads,
 * then the move. "" nothing.
 *
 * @param {Desk} was
 * @param {Desk} is
 * @param {string} me
 */
export function news(was, is, me) {
  return [air(was, is), lean(was, is), lead(was, is, me), move(was, is)].filter(Boolean).join(' ');
}

/** @param {Desk} was @param {Desk} is */
function air(was, is) {
  const asked = question(is)?.air.state ?? '';
  if (asked !== (question(was)?.air.state ?? '')) return asked === '' ? 'The question is off the air.' : asked === 'asked' ? 'The question is on the air.' : 'The answer is on the air.';
  if (was.air.way === is.air.way) return '';
  if (is.air.way === '') return 'Off the air: viewers see the live board.';
  if (is.air.way === WAY.FOLLOW) return 'On the air: viewers follow the desk.';
  return is.air.way === WAY.TEXT ? 'On the air: the line, written.' : 'On the air: the line, played through.';
}

/** @param {Desk} was @param {Desk} is */
function lean(was, is) {
  if (was.air.leanBoard === is.air.leanBoard) return '';
  return is.air.leanBoard ? 'The lean is on the air.' : 'The lean is off the air.';
}

/** @param {Desk} was @param {Desk} is @param {string} me */
function lead(was, is, me) {
  if (is.asks && is.asks !== was.asks && is.asks !== me) return `${is.asks} asks for the lead.`;
  if (was.lead === is.lead) return '';
  return is.lead === '' ? 'Nobody leads.' : is.lead === me ? 'You lead.' : `${is.lead} leads.`;
}

/** @param {Desk} was @param {Desk} is */
function move(was, is) {
  if (was.place.board !== is.place.board) return `Board ${is.place.board}.`;
  if (was.place.fen === is.place.fen && was.place.move === is.place.move) return '';
  const step = is.place.last ? stepWords(is.place.last) : 'The start';
  if (is.place.move) return `Side line: ${step}.`;
  return is.place.live && !was.place.live ? `Live: ${step}.` : `${step}.`;
}
