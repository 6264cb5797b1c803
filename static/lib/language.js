// @ts-check
/** Figures, with what groups them or stands between them: 12, 0:41, 48 213. */
const FIGURES = /\d+(?:[:.\u202f]\d+)*/g;

/** @type {Record<string, string>} */
let table = {};

/** From now on texts are drawn in the words of this table, by their English; an empty one: in English. @param {Record<string, string>} words */
export function speak(words) {
  table = words;
}

/** A text in the language of the show. Its figures stand for themselves: the table has # for each, in the same order. @param {string} english */
export function word(english) {
  const figures = english.match(FIGURES) ?? [];
  return table[english.replace(FIGURES, '#')]?.replace(/#/g, () => figures.shift() ?? '') ?? english;
}

/** The same of a text about somebody, whose name stands for {}. @param {string} english @param {string} name */
export function about(english, name) {
  return word(english).replace('{}', () => name);
}
