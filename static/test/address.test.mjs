import assert from 'node:assert/strict';
import { test } from 'node:test';
import { addressOf, boardsOf, holdTyped, holdWrong, sceneOf } from '../health/address.js';

const ORIGIN = 'http://127.0.0.1:8600';
const made = (scene, more = {}) => addressOf(ORIGIN, { scene, board: 1, hold: '', options: {}, ...more });

test('the address says what was chosen, and nothing that is so anyway', () => {
  assert.equal(made('scene/board'), `${ORIGIN}/scene/board?board=1`);
  assert.equal(made('scene/board', { board: 12, options: { side: 'white', marks: 'on', theme: 'dark', motion: 'on', safe: 'off' } }), `${ORIGIN}/scene/board?board=12`);
  assert.equal(
    made('scene/board', { board: 2, hold: '7.5', options: { side: 'black', marks: 'off', theme: 'light', motion: 'off', safe: 'on' } }),
    `${ORIGIN}/scene/board?board=2&hold=7.5&side=black&marks=off&theme=light&motion=off&safe=on`,
  );
  assert.equal(made('scene/caption', { board: 2, hold: 'air', options: { side: 'right' } }), `${ORIGIN}/scene/caption?hold=air&side=right`);
  assert.equal(made('scene/caption'), `${ORIGIN}/scene/caption`);
});

test('a scene may follow the board that the desk chooses, and a challenge may be of any', () => {
  const boards = [['1', '1'], ['2', '2']];
  const offered = (scene) => boardsOf(sceneOf(scene), boards).map(([value]) => value);
  assert.deepEqual(offered('scene/board'), ['1', '2', 'air']);
  assert.deepEqual(offered('scene/clocks'), ['1', '2', 'air']);
  assert.deepEqual(offered('scene/challenge'), ['', '1', '2']);
  assert.equal(made('scene/clocks', { board: 'air' }), `${ORIGIN}/scene/clocks?board=air`);
  assert.equal(made('scene/challenge', { board: '', options: { side: '' } }), `${ORIGIN}/scene/challenge`);
  assert.equal(made('scene/challenge', { board: '2', options: { side: 'black' } }), `${ORIGIN}/scene/challenge?board=2&side=black`);
});

test('the viewers’ token stands behind everything else', () => {
  assert.equal(made('scene/wall', { hold: 'air', token: 'A+B' }), `${ORIGIN}/scene/wall?hold=air&token=A%2BB`);
  assert.equal(made('scene/wall', { token: '' }), `${ORIGIN}/scene/wall`);
});

test('an option that the scene does not take, or a value that is none, is left out', () => {
  assert.equal(made('scene/caption', { options: { side: 'black', marks: 'off', theme: 'no such' } }), `${ORIGIN}/scene/caption`);
});

test('a scene that this page does not know takes what all scenes take', () => {
  assert.equal(sceneOf('scene/podium').name, 'Podium');
  assert.deepEqual(sceneOf('scene/podium').options.map((o) => o.name), ['theme', 'motion', 'safe']);
  assert.equal(made('scene/podium', { options: { theme: 'bold' } }), `${ORIGIN}/scene/podium?theme=bold`);
});

test('whatever a name holds, it stays one parameter of one path', () => {
  for (const odd of ['a&board=9', 'a#b', 'a b', '"><i>', 'ä%2F', 'a+b']) {
    const url = new URL(made('scene/board', { hold: odd }));
    assert.equal(url.searchParams.get('hold'), odd);
    assert.deepEqual([url.searchParams.get('board'), url.hash, url.pathname], ['1', '', '/scene/board']);
    assert.ok(new URL(made(`scene/${odd}`)).pathname.startsWith('/scene/'));
    assert.equal(decodeURIComponent(new URL(made(`scene/${odd}`)).pathname), `/scene/${odd}`);
  }
});

test('a hold is what the relay takes', () => {
  for (const good of ['', '0', '12', '7.5', '1800', '0.001', 'air', 'a', 'booth-2', 'a'.repeat(24)]) assert.equal(holdWrong(good, 1_800_000), '', good);
  for (const bad of ['-1', '+1', '1801', '1.', '.5', '1e3', '12 s', '1.0001', '1800.001', '9999999']) assert.match(holdWrong(bad, 1_800_000), /^Write seconds, 0 to 1800 /, bad);
  for (const bad of ['Air', 'é', 'a b', 'air!', '_', 'a'.repeat(25)]) assert.match(holdWrong(bad, 1_800_000), /small letters/, bad);
  assert.deepEqual([' 12,5 ', '12', ' air', 'a,b', ','].map(holdTyped), ['12.5', '12', 'air', 'a,b', ',']);
});
