// @ts-check
import { svg } from '../lib/dom.js';

/**
 * The pieces, cut like stencils: each stands on a slab, and its parts are held
 * apart by gaps of an outline's width. Fan and mane echo the ticks of the tell
 * line. One set of outlines in a square of 100 draws the board and the
 * figurines in text.
 *
 * slab: left and right end of the foot. solids: filled outlines. cuts: lines
 * left open. eye: centre and radius of a hole. ball: centre and radius of a
 * solid disc.
 *
 * @typedef {{slab: [number, number], solids: string[], cuts?: string[], eye?: [number, number, number], ball?: [number, number, number]}} Outline
 * @type {Record<string, Outline>}
 */
export const OUTLINES = {
  P: { slab: [25, 75], solids: ['M32 77.5C40 70 43 64 43.5 57H56.5C57 64 60 70 68 77.5Z'], ball: [50, 40.5, 14.5] },
  R: {
    slab: [21, 79],
    solids: [
      'M29 77.5L34.5 46.5H65.5L71 77.5Z',
      'M26 43V19Q26 16.5 28.5 16.5H37.5V25.5H44.5V16.5H55.5V25.5H62.5V16.5H71.5Q74 16.5 74 19V43Z',
    ],
  },
  N: {
    slab: [22, 79],
    solids: [
      'M31 77.5C31 64 46 61 48.5 49C43.5 54 37.5 54.5 33.5 58C31 61.5 29 64 25.5 64C19.5 63.5 15.5 58 16.5 52.5' +
        'C21 46.5 24.5 40.5 27 33.5C29 27.5 32.5 23 37.5 20L39 11L48.5 17.5C65 20 77 36 77 58C77 65 76 72 74.5 77.5Z',
    ],
    cuts: ['M63.5 23.5L56.5 32.5', 'M72.5 35.5L62.5 41', 'M77 50.5L65.5 51.5'],
    eye: [38, 33.5, 3.1],
  },
  B: {
    slab: [23, 77],
    solids: [
      'M31 77.5C39.5 71 42 66 42.5 60.5H57.5C58 66 60.5 71 69 77.5Z',
      'M50 17C61 25.5 69 35.5 69 44.5C69 50.5 65.5 57 61 57H39C34.5 57 31 50.5 31 44.5C31 35.5 39 25.5 50 17Z',
    ],
    cuts: ['M51 44L62.5 27'],
  },
  Q: {
    slab: [22, 78],
    solids: [
      'M31 77.5C37.5 72 39.5 67.5 39 62.5Q50 57 61 62.5C60.5 67.5 62.5 72 69 77.5Z',
      'M29.4 62.3L13.1 37.1L13.9 25L24.3 31.1L36.1 58.7Z',
      'M37.4 58.2L26.9 27.5L30.8 15.9L39.6 24.3L44.8 56.4Z',
      'M46.2 56.2L43.2 21.3L50 11L56.8 21.3L53.8 56.2Z',
      'M62.6 58.2L73.1 27.5L69.2 15.9L60.4 24.3L55.2 56.4Z',
      'M70.6 62.3L86.9 37.1L86.1 25L75.7 31.1L63.9 58.7Z',
    ],
  },
  K: {
    slab: [22, 78],
    solids: [
      'M31 77.5C37.5 72 39.5 67.5 39 60.5H61C60.5 67.5 62.5 72 69 77.5Z',
      'M36 57L26 36Q36 27.5 50 27.5Q64 27.5 74 36L64 57Z',
      'M45.6 24.2V20.4H38.5V12.6H45.6V7H54.4V12.6H61.5V20.4H54.4V24.2Z',
    ],
  },
};

/** Left and right end of each figurine, so that text sits close. @type {Record<string, [number, number]>} */
const FIGURINE = { P: [24, 76], R: [20, 80], N: [15, 80], B: [22, 78], Q: [12, 88], K: [21, 79] };

const COLOURS = {
  white: { fill: 'var(--piece-white)', edge: 'var(--piece-white-edge)', stroke: 'var(--stroke-white, 6.4)', cut: 3.6 },
  black: { fill: 'var(--piece-black)', edge: 'var(--piece-black-edge)', stroke: 'var(--stroke-black, 4.6)', cut: 3.2 },
};

/**
 * A piece of the board as an SVG element that fills its square.
 *
 * @param {string} letter as in a FEN: capitals are White
 */
export function piece(letter) {
  sprite();
  const colour = letter === letter.toUpperCase() ? 'white' : 'black';
  return svg(
    'svg',
    { viewBox: '0 0 100 100', 'aria-hidden': 'true' },
    svg('use', { href: `#piece-${colour}-${letter.toUpperCase()}` }),
  );
}

/**
 * A figurine for text: one fill in the colour of the text, 5/6 em high. The
 * page may set --figurine-ground to the colour behind it.
 *
 * @param {string} letter K, Q, R, B, N or P
 */
export function figurine(letter) {
  sprite();
  const [from, to] = FIGURINE[letter];
  return svg(
    'svg',
    { class: 'figurine', viewBox: `${from} 6 ${to - from} 85`, 'aria-hidden': 'true' },
    svg('use', { href: `#figurine-${letter}` }),
  );
}

/** Put the outlines into the page, once. */
function sprite() {
  if (document.getElementById('piece-sprite')) return;
  const symbols = Object.keys(OUTLINES).flatMap((letter) => [
    board(letter, 'white'),
    board(letter, 'black'),
    text(letter),
  ]);
  const sheet = svg('svg', { id: 'piece-sprite', width: 0, height: 0, 'aria-hidden': 'true' }, ...symbols);
  sheet.style.position = 'absolute';
  document.body.prepend(sheet);
}

/** All edges lie under all fills: that makes the gaps between parts even. @param {string} letter @param {'white' | 'black'} colour */
function board(letter, colour) {
  const { fill, edge, stroke, cut } = COLOURS[colour];
  const edges = svg('g', { fill: edge, stroke: edge, 'stroke-width': stroke, 'stroke-linejoin': 'round' }, ...solids(letter));
  const fills = svg('g', { fill }, ...solids(letter));
  // 94 % of the square, raised a little: the slab is heavier than the head.
  const set = svg('g', { transform: 'translate(3 1.8) scale(.94)' }, edges, fills, holes(letter, edge, cut));
  return svg('symbol', { id: `piece-${colour}-${letter}`, viewBox: '0 0 100 100' }, set);
}

/** @param {string} letter */
function text(letter) {
  const ground = 'var(--figurine-ground, var(--ink))';
  const set = svg('g', { fill: 'currentColor' }, ...solids(letter));
  return svg('symbol', { id: `figurine-${letter}`, overflow: 'visible' }, set, holes(letter, ground, 4));
}

/** @param {string} letter */
function solids(letter) {
  const { slab, solids, ball } = OUTLINES[letter];
  const shapes = solids.map((d) => svg('path', { d }));
  shapes.push(svg('rect', { x: slab[0], y: 81, width: slab[1] - slab[0], height: 9, rx: 3.5 }));
  if (ball) shapes.push(svg('circle', { cx: ball[0], cy: ball[1], r: ball[2] }));
  return shapes;
}

/** @param {string} letter @param {string} colour @param {number} width */
function holes(letter, colour, width) {
  const { cuts = [], eye } = OUTLINES[letter];
  const lines = cuts.map((d) => svg('path', { d, fill: 'none', stroke: colour, 'stroke-width': width, 'stroke-linecap': 'round' }));
  if (eye) lines.push(svg('circle', { cx: eye[0], cy: eye[1], r: eye[2], fill: colour }));
  return svg('g', {}, ...lines);
}
