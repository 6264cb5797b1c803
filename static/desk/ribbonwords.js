// @ts-check
/** What the ribbon says: what the desk sees against what the viewers see. */
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').Desk} Desk */
/** @typedef {import('../lib/wire.js').HoldGroup} HoldGroup */
import { CHALLENGE, WAY } from '../lib/wire.js';
import { timeText } from '../lib/clock.js';
import { count } from '../surface/words.js';
import { afterWords, behind, behindWords, countdown, lastPly, lineWords, stepWords } from './words.js';
import { lineTo, nameOf } from './tree.js';

/**
 * @typedef {object} Plate
 * @property {string} head whose eyes
 * @property {string} text what they see
 * @property {string} more "" nothing
 */

/**
 * same: desk and viewers see the same, without anything of the desk on the air. apart: they do not.
 * shared: viewers follow the desk. sent: something of the desk is on the air, whatever the desk looks at.
 *
 * @typedef {{state: 'same' | 'apart' | 'shared' | 'sent', mine: Plate, theirs: Plate, action: string}} Ribbon action: its name
 */

/** A question on the air, or its answer; null: neither. @param {Desk} desk */
export function question({ challenge }) {
  const up = challenge?.air.state === CHALLENGE.ASKED || challenge?.air.state === CHALLENGE.REVEALED;
  return up && challenge ? challenge : null;
}

/**
 * @param {Desk} desk
 * @param {Map<number, Board>} boards
 * @param {number} now show ms
 * @param {boolean} [heard] whether the relay is heard; else the plates say that they are old
 * @param {HoldGroup[]} [groups] of scenes that are held back
 * @returns {Ribbon}
 */
export function ribbon(desk, boards, now, heard = true, groups = []) {
  const words = delayed(seen(desk, boards, now), laterWords(groups));
  if (heard) return words;
  const old = (/** @type {Plate} */ plate) => ({ ...plate, head: `When last heard: ${plate.head.charAt(0).toLowerCase()}${plate.head.slice(1)}` });
  return { ...words, mine: old(words.mine), theirs: old(words.theirs) };
}

/** How much later than the desk the viewers see, "12 s later" or "5 to 12 s later"; "" at the same time. @param {HoldGroup[]} groups */
export function laterWords(groups) {
  const held = groups.map((g) => g.holdMs / 1000);
  const [least, most] = [Math.min(...held), Math.max(...held)];
  if (held.length === 0 || most === 0) return '';
  return least === most ? `${most} s later` : `${least} to ${most} s later`;
}

/** On the plate that speaks of the viewers. @param {Ribbon} words @param {string} later @returns {Ribbon} */
function delayed(words, later) {
  if (later === '') return words;
  const plate = words.state === 'shared' ? 'mine' : 'theirs';
  return { ...words, [plate]: { ...words[plate], head: `${words[plate].head}, ${later}` } };
}

/** @param {Desk} desk @param {Map<number, Board>} boards @param {number} now show ms @returns {Ribbon} */
function seen(desk, boards, now) {
  const mine = here(desk, boards.get(desk.place.board), boards.size);
  const asked = question(desk);
  if (asked) return { state: 'sent', mine: { head: 'Only the desk sees', ...mine }, theirs: askedPlate(asked, now), action: 'end-challenge' };
  const live = boards.get(desk.air.board);
  const since = timeText(now - desk.air.since);
  if (desk.air.way === WAY.FOLLOW) {
    const ahead = behind(desk.place, boards.get(desk.place.board));
    const game = `${lastText(boards.get(desk.place.board))}${ahead > 0 ? `, ${count(ahead, 'move')} ahead` : ''}`;
    const hidden = desk.place.live ? { head: '', text: '', more: '' } : { head: 'Not shown: the live game', text: game, more: '' };
    return { state: 'shared', mine: { ...mine, head: `On the air for ${since}: viewers follow the desk` }, theirs: hidden, action: 'take-off-air' };
  }
  if (desk.air.way) return { state: 'sent', mine: { head: 'Only the desk sees', ...mine }, theirs: linePlate(desk, since), action: 'take-off-air' };
  const theirs = { head: 'The viewers see', text: `${boards.size > 1 ? `board ${desk.air.board} ` : ''}live, ${lastText(live)}`, more: '' };
  const same = desk.place.live && desk.place.board === desk.air.board && desk.marks.length === 0;
  if (same) return { state: 'same', mine: { head: 'The desk sees', ...mine }, theirs: { ...theirs, head: 'The viewers see the same' }, action: 'put-on-air' };
  return { state: 'apart', mine: { head: 'Only the desk sees', ...mine }, theirs, action: 'put-on-air' };
}

/** What the desk looks at. @param {Desk} desk @param {Board | undefined} board @param {number} boards how many there are */
function here({ place, lines, marks }, board, boards) {
  const which = boards > 1 ? `board ${place.board} ` : '';
  const marked = marks.length ? `${marks.length} ${marks.length === 1 ? 'mark' : 'marks'}` : '';
  const late = place.live ? '' : behindWords(behind(place, board));
  const more = [late, marked].filter(Boolean).join(', ');
  if (place.live) return { text: `${which}live, ${lastText(board)}`, more };
  if (!place.move) return { text: `${which}${afterWords(place.last)}`, more };
  const name = nameOf(lines, place.move);
  return { text: `${name || 'side line'}, ${place.last ? stepWords(place.last) : ''}`, more };
}

/** @param {Board | undefined} board */
function lastText(board) {
  const last = lastPly(board);
  return last ? stepWords(last) : 'no move yet';
}

/** @param {import('../lib/wire.js').DeskChallenge} challenge @param {number} now @returns {Plate} */
function askedPlate({ air }, now) {
  if (air.state === CHALLENGE.REVEALED) return { head: 'On the air: the answer', text: air.answer.length ? lineWords(air.answer) : 'the move played', more: '' };
  const left = air.ends - now;
  return { head: 'On the air: your question', text: air.question, more: left > 0 ? `${countdown(left)} left` : 'time is up' };
}

/** @param {Desk} desk @param {string} since @returns {Plate} */
function linePlate({ air, lines }, since) {
  const steps = lineTo(lines, air.move).map((m) => m.step);
  const how = air.way === WAY.TEXT ? 'a line, written' : 'a line, played through';
  return { head: `On the air for ${since}: ${how}`, text: nameOf(lines, air.move) || lineWords(steps), more: '' };
}
