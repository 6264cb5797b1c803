// @ts-check
/** What a working surface needs beyond lib/dom.js: rows that stay, order, icons. */
import { svg } from '../lib/dom.js';

/**
 * Put children into the given order with as few moves as there are, and take
 * out the rest. A child that holds the focus keeps it.
 *
 * @param {Element} parent
 * @param {Element[]} order
 */
export function arrange(parent, order) {
  const focused = /** @type {HTMLElement | null} */ (document.activeElement);
  const keep = new Set(order);
  for (const child of [...parent.children]) if (!keep.has(child)) child.remove();
  order.forEach((child, i) => {
    if (parent.children[i] !== child) parent.insertBefore(child, parent.children[i] ?? null);
  });
  if (focused && focused !== document.activeElement && parent.contains(focused)) focused.focus({ preventScroll: true });
}

/**
 * Keep one row per key: make what is new, hand back those there were.
 *
 * @template Item
 * @template {{root: Element}} Row
 * @param {Element} parent
 * @param {Map<string, Row>} rows kept between calls
 * @param {Item[]} items
 * @param {(item: Item, index: number) => string} key
 * @param {(item: Item) => Row} make
 * @returns {Row[]} in the order of the items
 */
export function keepRows(parent, rows, items, key, make) {
  const before = new Map(rows);
  rows.clear();
  const list = items.map((item, i) => {
    const k = key(item, i);
    const row = before.get(k) ?? make(item);
    rows.set(k, row);
    return row;
  });
  arrange(parent, list.map((row) => row.root));
  return list;
}

/** Strokes of the icons, on a 24 by 24 grid. @type {Record<string, string[]>} */
const ICONS = {
  said: ['M4 12.5l5.5 5.5L20 7'],
  drop: ['M5 12h14'],
  take: ['M12 3.5a3 3 0 0 1 3 3v5a3 3 0 0 1-6 0v-5a3 3 0 0 1 3-3z', 'M5.5 11.5a6.5 6.5 0 0 0 13 0', 'M12 18v3'],
  air: ['M12 10.2a1.8 1.8 0 1 0 .01 0z', 'M8 16a5.7 5.7 0 0 1 0-8M16 8a5.7 5.7 0 0 1 0 8', 'M5 19a10 10 0 0 1 0-14M19 5a10 10 0 0 1 0 14'],
  off: ['M6 6h12v12H6z'],
  note: ['M4 20l1-4.5L16.5 4l3.5 3.5L8.5 19z', 'M14 6.5l3.5 3.5'],
  send: ['M4 12h15', 'M13 5.5l6.5 6.5-6.5 6.5'],
  facts: ['M4 4h16v16H4z', 'M4 12h16M12 4v16'],
  more: ['M6 9.5l6 6 6-6'],
  wipe: ['M6 6l12 12M18 6L6 18'],
  undo: ['M8 5L4 9l4 4', 'M4 9h10a5.5 5.5 0 0 1 0 11H9'],
  why: ['M5 12h13', 'M12.5 6l6 6-6 6'],
  up: ['M12 20V5', 'M5.5 11L12 4.5l6.5 6.5'],
  copy: ['M9 9h11v11H9z', 'M15 9V4H4v11h5'],
  tell: ['M3 5v14', 'M7 5v14', 'M12 6h9v12h-9z'],
  clock: ['M12 3.5a8.5 8.5 0 1 0 .01 0z', 'M12 7.5V12l3.5 2.5'],
  reference: ['M4 5.5h6a2 2 0 0 1 2 2V20a2 2 0 0 0-2-2H4z', 'M20 5.5h-6a2 2 0 0 0-2 2V20a2 2 0 0 1 2-2h6z'],
  match: ['M4 19.5h16', 'M6 19.5V11h4v8.5', 'M10 19.5V5.5h4v14', 'M14 19.5V14h4v5.5'],
  engine: ['M4 12h16', 'M12 7v10', 'M8 9.5a2.5 2.5 0 1 0 .01 0z'],
  feed: ['M5 19.5a.5.5 0 1 0 .01 0z', 'M5 12a7.5 7.5 0 0 1 7.5 7.5', 'M5 5a14.5 14.5 0 0 1 14.5 14.5'],
  fine: ['M12 2.5a9.5 9.5 0 1 0 .01 0z', 'M7 12.5l3.5 3.5L17 8.5'],
  warning: ['M12 3L22 20.5H2z', 'M12 9.5V14', 'M12 17.2v.2'],
  waiting: ['M12 2.5a9.5 9.5 0 1 0 .01 0z', 'M8 12h.1M12 12h.1M16 12h.1'],
  hand: ['M4 20l1-4.5L16.5 4l3.5 3.5L8.5 19z', 'M14 6.5l3.5 3.5'],
  frozen: ['M9 5v14', 'M15 5v14'],
  pinned: ['M12 21v-7', 'M7.5 14h9l-2-3.5V4.5h-5v6z'],
  ask: ['M12 2.5a9.5 9.5 0 1 0 .01 0z', 'M9.2 9.5a2.9 2.9 0 1 1 4.3 2.6c-1 .5-1.5 1.1-1.5 2', 'M12 17v.2'],
  bus: ['M12 10a2.2 2.2 0 1 0 .01 0z', 'M4.5 4.5a2 2 0 1 0 .01 0zM19.5 4.5a2 2 0 1 0 .01 0zM12 18a2 2 0 1 0 .01 0z', 'M6 7.7l4.3 3.2M18 7.7l-4.3 3.2M12 14.4V18'],
  journal: ['M5 3.5h12a2 2 0 0 1 2 2v15H7a2 2 0 0 1-2-2z', 'M9 8h6M9 12h6'],
  desk: ['M3.5 16.5h17', 'M5.5 16.5V7h13v9.5', 'M2 20h20'],
  eye: ['M2.5 12C5 7.5 8.2 5.5 12 5.5s7 2 9.5 6.5c-2.5 4.5-5.7 6.5-9.5 6.5S5 16.5 2.5 12z', 'M12 9.2a2.8 2.8 0 1 0 .01 0z'],
  turn: ['M8 4v16', 'M4.5 7.5L8 4l3.5 3.5', 'M16 20V4', 'M12.5 16.5L16 20l3.5-3.5'],
  keep: ['M6 11h12v9H6z', 'M8.5 11V8a3.5 3.5 0 0 1 7 0v3'],
  clear: ['M9 19l-5-5L13.5 4.5l6 6L11 19z', 'M8 9.5l6.5 6.5', 'M8 19.5h12'],
  back: ['M14.5 5L8 12l6.5 7'],
  forward: ['M9.5 5l6.5 7-6.5 7'],
  live: ['M5 5l7 7-7 7', 'M13 5l7 7-7 7'],
  burn: ['M12 3c.5 4 5.5 5.5 5.5 11a5.5 5.5 0 0 1-11 0c0-2.5 1.5-4 2.5-5.5.5 1.5 1 2 2 2.5C11.5 8.5 11 6 12 3z'],
  fork: ['M6 4v16', 'M6 15c0-5 10-3 10-10', 'M12.5 8L16 4.5 19.5 8'],
  line: ['M4 18L10 8l4 6 6-9'],
  play: ['M7 4.5v15l12-7.5z'],
  stale: ['M8 2.8h8L21.2 8v8L16 21.2H8L2.8 16V8z', 'M8.5 8.5l7 7M15.5 8.5l-7 7'],
};

/** Draw an icon; it is silent, the words beside it speak. @param {string} name */
export function icon(name) {
  const paths = (ICONS[name] ?? []).map((d) => svg('path', { d }));
  return svg('svg', { viewBox: '0 0 24 24', class: `icon icon-${name}`, 'aria-hidden': 'true' }, ...paths);
}
