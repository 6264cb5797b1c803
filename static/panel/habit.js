// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').Habit} Habit */
import { STEP, inStep } from '../lib/clock.js';

/**
 * What is usual for a player, in past games of the reference at this time class.
 *
 * @param {Habit | null} habit
 * @param {number} own moves the player has made
 * @returns {string[]}
 */
export function habitLines(habit, own) {
  if (!habit) return [];
  const [low, middle, high] = habit.prepared;
  const lines = [`usually ${middle} moves of preparation (${low} to ${high} in half of ${habit.games} games)`];
  const spent = habit.next;
  if (spent) lines.push(`usually ${inStep(spent.timeMs, STEP.SECOND)} on move ${spent.move} (${spent.games} games)`);
  const next = habit.left.find((at) => at.move > own);
  if (next) lines.push(`usually ${inStep(next.timeMs, STEP.SECOND)} left after move ${next.move} (${next.games} games)`);
  return lines;
}

/**
 * How many moves a side has made on this board.
 *
 * @param {Board} board
 * @param {'white' | 'black'} side
 */
export function ownMoves(board, side) {
  return board.plies.filter((ply) => (ply.number % 2 === 1) === (side === 'white')).length;
}
