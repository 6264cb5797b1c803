// What the panel draws of a match, in a document made for tests; the frames are written by hand.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import './fakedom.mjs';

let wide = true;
globalThis.matchMedia = () => ({ matches: wide });
const { MatchView, StakeView, played } = await import('../panel/match.js');

const GAME = { board: 1, white: '2½–½, Halloran wins the match', draw: '2–1, Halloran leads, 1 game to play', black: '1½–1½, level, 1 game to play' };
const MATCH = {
  first: 'Halloran', second: 'Pettibone', firstScore: '1½', secondScore: '½', stage: 'regular', played: 2, planned: 4,
  line: 'Halloran leads by one point with two games to play.', forecast: 'the ratings expect 1.14 of 2 for Halloran', games: [GAME], toCome: ['round 4: Pettibone has White'],
};
const words = (element) => element.textContent.replace(/\s+/g, ' ');
function make() {
  const [score, more] = [document.createElement('p'), document.createElement('details')];
  return { score, more, view: new MatchView(score, more) };
}

test('the score at the head, the rest folded out', () => {
  const { score, more, view } = make();
  view.update(MATCH);
  assert.equal(words(score), 'Halloran 1½ – ½ Pettibone 2 of 4 games');
  for (const part of [MATCH.line, 'The ratings expect 1.14 of 2 for Halloran.', 'round 4: Pettibone has White']) assert.ok(words(more).includes(part), part);
  assert.ok(more.hasAttribute('open'));
  assert.ok(!score.hasAttribute('hidden'));
});

test('no match, nothing to see', () => {
  const { score, more, view } = make();
  view.update(null);
  assert.ok(score.hasAttribute('hidden') && more.hasAttribute('hidden'));
});

test('nothing behind the line: nothing to fold', () => {
  const { more, view } = make();
  view.update({ ...MATCH, forecast: '', toCome: [] });
  assert.ok(more.hasAttribute('data-empty'));
});

test('on a phone all is folded', () => {
  wide = false;
  const { more, view } = make();
  view.update(MATCH);
  assert.ok(!more.hasAttribute('open'));
  assert.ok(!new StakeView().root.hasAttribute('open'));
  wide = true;
});

test('how far it has come', () => {
  assert.equal(played(MATCH), '2 of 4 games');
  assert.equal(played({ ...MATCH, stage: 'armageddon', played: 0, planned: 1 }), 'armageddon, 0 of 1 game');
});

test('three lines for a game of the match, none for another', () => {
  const view = new StakeView();
  view.update(undefined);
  assert.ok(view.root.hasAttribute('hidden'));
  view.update(GAME);
  assert.ok(!view.root.hasAttribute('hidden'));
  for (const part of [`1 – 0${GAME.white}`, `½ – ½${GAME.draw}`, `0 – 1${GAME.black}`]) assert.ok(words(view.root).includes(part), part);
});
