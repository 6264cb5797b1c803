// Draws games with the modules of the pages and prints what they drew, shape by shape, in
// order: node dump.mjs <games.json. Only as much of a browser is there as they need.
import { readFileSync } from 'node:fs';
import '../../../static/test/fakedom.mjs';
import { joints } from '../../../static/lib/telljoints.js';
import { SIZES } from '../../../static/lib/tellsizes.js';
import { TellLine } from '../../../static/lib/tellline.js';

const number = (node, key) => Number(node.getAttribute(key) ?? 0);
const paint = (text) => (text ?? '').replace(/^url\(#tell-\d+-([a-z]+)-?(\d?)\)$/, '$1$2');
const numbers = (d) => (d.match(/-?[\d.]+(?:e-?\d+)?/g) ?? []).map(Number);

/** What class sets in tellline.css. */
const TYPE = {
  'tell-time': [600, 'var(--ink)'], 'tell-time hollow': [600, 'var(--text)'], 'tell-gone': [600, 'var(--quiet)'], 'tell-flag': [600, 'var(--ink)'],
  'tell-axis': [500, 'var(--quiet)'], 'tell-axis first': [500, 'var(--quiet)'], 'tell-joint': [500, 'var(--quiet)'],
};

const shapes = {
  text(node) {
    const kind = node.getAttribute('class');
    const [weight, fill] = TYPE[kind];
    const anchor = kind === 'tell-axis first' ? '' : 'middle';
    return [{ kind: 'text', fill, v: [number(node, 'x'), number(node, 'y'), number(node, 'font-size')], say: node.textContent, weight, anchor }];
  },
  rect(node, cut) {
    const stroke = node.getAttribute('stroke') ?? '';
    const fill = paint(node.getAttribute('fill'));
    let [x, w] = [number(node, 'x'), number(node, 'width')];
    const open = stroke && x + w > cut[1];
    if (!stroke || open) [x, w] = [Math.max(x, cut[0]), Math.min(x + w, cut[1]) - Math.max(x, cut[0])];
    if (w <= 0) return [];
    const [y, h] = [number(node, 'y'), number(node, 'height')];
    if (open) return [{ kind: 'path', fill: '', stroke, thick: number(node, 'stroke-width'), v: [x + w, y, x, y + h, x + w] }];
    return [{ kind: 'rect', fill: fill === 'none' ? '' : fill, stroke, thick: number(node, 'stroke-width'), v: [x, y, w, h] }];
  },
  path(node, cut, around) {
    const d = node.getAttribute('d');
    const v = numbers(d);
    if (around.marks) return [0, 1].map((i) => ({ kind: 'rect', fill: 'var(--ink)', stroke: '', thick: 0, v: [v[5 * i], v[5 * i + 1], 2, v[5 * i + 3]] }));
    let stroke = node.getAttribute('stroke') ?? '';
    let thick = number(node, 'stroke-width');
    let fill = node.getAttribute('fill') ?? '';
    if (node.getAttribute('class') === 'tell-torn') [stroke, fill] = ['var(--quiet)', ''];
    if (stroke === 'currentColor') stroke = around.cased ? 'var(--ink)' : around.inside ? 'var(--text)' : 'var(--quiet)';
    if (around.cased) thick = 9;
    return [{ kind: 'path', fill: fill === 'none' ? '' : fill, stroke, thick, v, letters: d.replace(/[-\d.e\s]/g, ''), at: around.at }];
  },
  line(node, cut) {
    const [dash, gap] = node.getAttribute('stroke-dasharray').split(' ').map(Number);
    const out = [];
    for (let y = number(node, 'y1'); y < number(node, 'y2'); y += dash + gap)
      out.push({ kind: 'rect', fill: node.getAttribute('stroke'), stroke: '', thick: 0, v: [cut[0], y, cut[1] - cut[0], Math.min(dash, number(node, 'y2') - y)] });
    return out;
  },
};

function walk(node, cut, around) {
  if (node.name === 'defs' || node.getAttribute('display') === 'none' || node.getAttribute('visibility') === 'hidden') return [];
  if (shapes[node.name]) return shapes[node.name](node, cut, around);
  const now = { ...around, marks: around.marks || node === around.marksGroup };
  const kind = node.getAttribute('class') ?? '';
  if (kind === 'tell-casing') now.cased = true;
  if (kind.startsWith('tell-sign')) Object.assign(now, { inside: kind.includes('inside'), at: numbers(node.getAttribute('transform')) });
  let children = node.children;
  if (kind === 'tell-part') {
    const right = number(children[0], 'width');
    const [, r, , l] = numbers(node.style.clipPath ?? "inset(0 -9999px 0 0)");
    cut = [Math.max(cut[0], l), Math.min(cut[1], right - r)];
    children = children.slice(1);
  }
  return children.flatMap((child) => walk(child, cut, now));
}

const games = JSON.parse(readFileSync(0, 'utf8'));
const drawn = games.map(({ size, width, moves, top, board, now, lostAt }) => {
  const place = document.createElement('div');
  const line = new TellLine(place, { size, width, top, motion: false, moves: moves ? joints : null });
  line.draw(board, now, lostAt);
  const root = place.children[0];
  const ground = root.children[2];
  return { height: line.height, shapes: walk(root, [0, Infinity], { marksGroup: ground.children[3] }) };
});
console.log(JSON.stringify({ drawn, sizes: { recap: SIZES.recap, panel: SIZES.panel } }));
