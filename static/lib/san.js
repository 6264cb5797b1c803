// @ts-check
/**
 * One part of a written move: a figurine or plain text.
 *
 * @typedef {{piece?: string, text?: string}} Part
 */

/**
 * Split a move in standard algebraic notation into figurines and text, with the
 * sign × for a capture. What is not a piece letter stays as it stands.
 *
 * @param {string} san
 * @returns {Part[]}
 */
export function parts(san) {
  const written = san.replace('x', '×');
  return written
    .split(/(^[KQRBN](?=[a-h1-8×])|(?<==)[QRBN])/)
    .filter((s) => s !== '')
    .map((s) => (/^[KQRBN]$/.test(s) ? { piece: s } : { text: s }));
}

/** The move number of a ply counted from 1. @param {number} ply */
export function moveNumber(ply) {
  return Math.ceil(ply / 2);
}

/** Whether a ply counted from 1 is White's. @param {number} ply */
export function isWhite(ply) {
  return ply % 2 === 1;
}

/** "1–0", "0–1", "½–½" or "" while the game goes on. @param {string} result */
export function resultText(result) {
  return { '1-0': '1–0', '0-1': '0–1', '1/2-1/2': '½–½' }[result] ?? '';
}

/** A side's own point: "1", "0", "½" or "". @param {string} result @param {'white' | 'black'} side */
export function point(result, side) {
  const [white = '', black = ''] = resultText(result).split('–');
  return side === 'white' ? white : black;
}

/**
 * Gains grouped for the plate: "BPP" is a bishop and two pawns.
 *
 * @param {string} gains
 * @returns {{piece: string, count: number}[]}
 */
export function grouped(gains) {
  /** @type {{piece: string, count: number}[]} */
  const groups = [];
  for (const piece of gains) {
    const last = groups[groups.length - 1];
    if (last?.piece === piece) last.count++;
    else groups.push({ piece, count: 1 });
  }
  return groups;
}

/** A large number in groups of three: "48 213"; four figures stand together. @param {number} n */
export function thousands(n) {
  return n < 10_000 ? String(n) : String(n).replace(/\B(?=(\d{3})+$)/g, '\u202f');
}

/** By how many full moves the game has gone on since, as people count them: a single move of either side is one. @param {number} plies of the game @param {number} ply */
export function movesBehind(plies, ply) {
  return Math.max(0, Math.ceil((plies - ply) / 2));
}
