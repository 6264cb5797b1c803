// Measures a drawn tell line in a browser. Each fault is a sentence; an empty
// list and a number of things looked at above none mean that it is legible.

/** @param {SVGElement} root @param {import('../lib/tellsizes.js').Size} size */
export function measure(root, size) {
  const faults = [];
  const rects = [...root.querySelectorAll('g[clip-path] > g > rect, .tell-part > g > rect')].filter((r) => r.getAttribute('fill') !== 'var(--lane)');
  const box = (e) => ({ x: Number(e.getAttribute('x')), y: Number(e.getAttribute('y')), w: Number(e.getAttribute('width')), h: Number(e.getAttribute('height')) });
  const of = (fill) => rects.filter((r) => r.getAttribute('fill') === fill).map(box);
  const [presses, thoughts] = [of('var(--preparation)'), of('var(--thinking)')];
  for (const p of presses) {
    if (p.w < Math.min(size.tick, size.floor) - 0.01) faults.push(`a press is ${p.w} wide`);
    if (p.h > 0.8 * size.lane) faults.push(`a press is ${p.h} high in a lane of ${size.lane}: without colour it is a thought`);
  }
  for (const t of thoughts) {
    if (t.w < size.floor - size.rest - 0.01) faults.push(`a thought is ${t.w} wide`);
    if (t.h !== size.lane) faults.push(`a thought is ${t.h} high in a lane of ${size.lane}`);
  }
  const texts = [...root.querySelectorAll('text'), ...root.parentElement.querySelectorAll('.tell-now[data-text]')].filter(
    (t) => said(t) && t.getBoundingClientRect().width > 0 && getComputedStyle(t).visibility !== 'hidden',
  );
  const hollow = rects.filter((r) => r.getAttribute('stroke') === 'var(--thinking)').map(box);
  for (const t of texts) faults.push(...textFaults(t, root, [...thoughts, ...hollow]));
  faults.push(...overlaps(texts));
  // A cut is measured from the box of what is cut.
  for (const part of root.querySelectorAll('.tell-part')) {
    const [whole, b] = [Number(part.firstElementChild.getAttribute('width')), part.getBBox()];
    if (b.x !== 0 || b.width !== whole) faults.push(`a part is from ${b.x} on ${b.width} wide, not ${whole}: its cut is elsewhere`);
  }
  return { faults, presses: presses.length, thoughts: thoughts.length, texts: texts.length };
}

/** What stands there; the figures of digits.js are no text. */
const said = (t) => t.dataset?.text ?? t.textContent;

/** A text lies inside of the drawing, and the time of a think inside of its block. */
function textFaults(text, root, blocks) {
  const b = text.getBoundingClientRect();
  const all = root.getBoundingClientRect();
  const words = `"${said(text)}"`;
  const faults = [];
  if (b.left < all.left - 0.5 || b.top < all.top - 2 || b.bottom > all.bottom + 2) faults.push(`${words} leaves the drawing`);
  if (!text.classList.contains('tell-time')) return faults;
  const [from, to, middle] = [b.left - all.left, b.right - all.left, b.top - all.top + b.height / 2];
  const inside = blocks.some((k) => from >= k.x + 2 && to <= k.x + k.w - 2 && middle > k.y && middle < k.y + k.h);
  if (!inside) faults.push(`${words} is wider than its block`);
  return faults;
}

/** Texts are as wide as their signs; their boxes are higher, so heights are cut to the figures. */
function overlaps(texts) {
  const boxes = texts.map((t) => {
    const b = t.getBoundingClientRect();
    const type = parseFloat(getComputedStyle(t).fontSize);
    const middle = (b.top + b.bottom) / 2;
    return { text: said(t), left: b.left, right: b.right, top: middle - type * 0.36, bottom: middle + type * 0.36 };
  });
  const hits = (a, b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
  return boxes.flatMap((a, i) => boxes.slice(i + 1).filter((b) => hits(a, b)).map((b) => `"${a.text}" runs into "${b.text}"`));
}

/** What a second costs: the attributes that it sets, and nothing else. */
export function costs(root, line, now) {
  const watch = new MutationObserver(() => {});
  watch.observe(root.parentElement, { subtree: true, childList: true, attributes: true, characterData: true });
  line.tick(now + 1000);
  const records = watch.takeRecords();
  watch.disconnect();
  line.tick(now);
  const own = records.filter((r) => !r.target.closest('.tell-now'));
  const other = own.filter((r) => r.type !== 'attributes' || !['style', 'visibility'].includes(r.attributeName));
  return { cuts: own.filter((r) => r.attributeName === 'style').length, other: other.length };
}
