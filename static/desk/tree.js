// @ts-check
/** @typedef {import('../lib/wire.js').LineMove} LineMove */

/**
 * A side line: moves that follow each other, up to where it ends. Other moves in
 * place of one of them begin lines of their own, one deeper.
 *
 * @typedef {object} Branch
 * @property {number} depth 0: it departs from the game
 * @property {number} ply of the game where it, or the line it departs from, leaves
 * @property {string} name often ""
 * @property {boolean} adrift
 * @property {LineMove[]} moves at least one
 */

/**
 * Side lines as a tree, flat and in the order in which they are read: by where they
 * leave the game, each followed by those that depart from it.
 *
 * @param {LineMove[]} lines as the relay tells them
 * @returns {Branch[]}
 */
export function branches(lines) {
  /** @type {Map<number, LineMove[]>} */
  const after = new Map();
  for (const move of lines) after.set(move.after, [...(after.get(move.after) ?? []), move]);
  const roots = [...(after.get(0) ?? [])].sort((a, b) => a.ply - b.ply);
  return roots.flatMap((root) => follow(root, 0, after));
}

/** @param {LineMove} first @param {number} depth @param {Map<number, LineMove[]>} after @returns {Branch[]} */
function follow(first, depth, after) {
  /** @type {LineMove[]} */ const moves = [];
  /** @type {LineMove[]} */ const others = [];
  for (let at = /** @type {LineMove | undefined} */ (first); at; ) {
    moves.push(at);
    /** @type {LineMove[]} */ const [next, ...rest] = after.get(at.id) ?? [];
    others.push(...rest);
    at = next;
  }
  const branch = { depth, ply: first.ply, name: first.name, adrift: moves.some((m) => m.adrift), moves };
  return [branch, ...others.flatMap((other) => follow(other, depth + 1, after))];
}

/** The moves from the game to one of a side line, the last one included. @param {LineMove[]} lines @param {number} id @returns {LineMove[]} */
export function lineTo(lines, id) {
  const byID = new Map(lines.map((m) => [m.id, m]));
  /** @type {LineMove[]} */ const path = [];
  for (let at = byID.get(id); at && !path.includes(at); at = byID.get(at.after)) path.unshift(at);
  return path;
}

/** The last move of the line that goes on from one of its moves. @param {LineMove[]} lines @param {number} id */
export function endOf(lines, id) {
  let at = lines.find((m) => m.id === id);
  for (let next = at; next; next = lines.find((m) => m.after === at?.id)) at = next;
  return at;
}

/** The name that a move's line bears, "" none: the nearest before it. @param {LineMove[]} lines @param {number} id */
export function nameOf(lines, id) {
  return lineTo(lines, id).reverse().find((m) => m.name !== '')?.name ?? '';
}
