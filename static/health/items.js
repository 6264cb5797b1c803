// @ts-check

/**
 * What a page holds of many things, with those that a frame tells of in their places: those that
 * it does not hold come behind, and a frame without a base is all that there is.
 *
 * @template Item
 * @param {Item[]} held @param {{base: number, items: Item[]}} frame @param {(item: Item) => unknown} key what tells one from the others
 */
export function mergeItems(held, { base, items }, key) {
  if (base === 0) return items;
  return [...new Map([...held, ...items].map((item) => [key(item), item])).values()];
}
