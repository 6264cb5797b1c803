// @ts-check
/** Words for the pages connected, of which only some have a row. */
/** @typedef {import('../lib/wire.js').Pages} PagesFrame */

/** "1,900": with thousands set off, as the page is English. @param {number} n */
const figure = (n) => n.toLocaleString('en');

/** "1 page", "1,900 pages". @param {number} n @param {string} one */
const number = (n, one) => `${figure(n)} ${n === 1 ? one : `${one}s`}`;

/** How many pages there are, how many of their last frames were late, and how many are in trouble. @param {PagesFrame} frame */
export function pagesWords({ count, frames, lateFrames, inTrouble }) {
  if (count === 0) return 'No page is connected';
  const late = lateFrames === 0 ? 'none late' : `${figure(lateFrames)} of the last ${number(frames, 'frame')} late`;
  return [`${number(count, 'page')} connected`, late, inTrouble && `${figure(inTrouble)} in trouble`].filter(Boolean).join(', ');
}

/** Of what kinds the pages are that have no row, and why just these; "" if each has one. @param {PagesFrame} frame */
export function moreWords({ count, inTrouble, kinds, items }) {
  const more = count - items.length;
  if (more <= 0) return '';
  const troubled = inTrouble - items.filter((p) => p.trouble !== '').length;
  const others = kinds
    .map(({ name, count: all }) => ({ name, left: all - items.filter((p) => p.page === name).length }))
    .filter(({ left }) => left > 0)
    .map(({ name, left }) => `${figure(left)} ${name}`);
  const trouble = troubled > 0 ? `${figure(troubled)} of them in trouble` : 'none of them in trouble';
  return `and ${figure(more)} more, ${trouble}: ${others.join(', ')}. Listed first is what is in trouble, then desk, panel and health, then scenes held back, then the oldest.`;
}

/** What is wrong with a page that neither its figures nor its hold tell; "" for nothing. A test holds the names to the relay's. @param {{trouble: string}} item */
export function troubleWords({ trouble }) {
  if (trouble === 'silent') return 'went silent';
  if (trouble === 'behind') return 'falls behind';
  return '';
}

/** How many groups have no row, "" for none. @param {number} n */
export function moreGroupsWords(n) {
  if (n === 0) return '';
  return n === 1 ? 'and 1 more group that is not set' : `and ${figure(n)} more groups that are not set`;
}
