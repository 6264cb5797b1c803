import assert from 'node:assert/strict';
import { test } from 'node:test';
import './fakedom.mjs';
import { SLIP_MS } from '../surface/twice.js';
import { Sender } from '../health/sender.js';
import { LastMove, NextMove } from '../health/tool-moves.js';
import { NameForm } from '../health/tool-names.js';
import { FollowTool, FreezeTool, ResultTool } from '../health/tool-press.js';

const tick = () => new Promise(setImmediate);
const item = (over) => ({
  board: 3, white: 'Alder, Ines', black: 'Birch, Tomasz', plies: 46, last: '23...Qd7', turn: 'white', next: '24.', result: '*', fault: '',
  feed: 'arena', pinned: '', frozen: 0, byHand: [], offers: [{ feed: 'arena', state: 'followed', text: '', plies: 46 }, { feed: 'hall', state: 'ready', text: '', plies: 46 }], question: null, ...over,
});

/** A tool and a relay that answers when told to. */
function bench(make, over) {
  const sent = [];
  const waiting = [];
  const sender = new Sender((body) => (sent.push(JSON.parse(body)), new Promise((answer) => waiting.push(answer))), () => 'id', (_, run) => run());
  const tool = make(sender, item(over));
  const answer = async (status = 200, error = '') => {
    waiting.shift()({ status, done: status === 200, error });
    await tick();
  };
  const type = (text) => {
    tool.input.value = text;
    tool.input.fire('input');
  };
  const press = (key, value) => tool.root.find((n) => n.getAttribute(key) === value).fire('click', { detail: 1 });
  const words = () => tool.said.root.find((n) => n.attributes.has('role')).textContent;
  const label = () => tool.root.children[0].textContent;
  return { tool, sent, answer, type, press, words, label, enter: () => tool.root.fire('submit') };
}

const nextMove = (over) => bench((s, i) => new NextMove(s, i), over);
const lastMove = (over) => bench((s, i) => new LastMove(s, i), over);

test('the next move: sent once, confirmed, and the field is free again', async () => {
  const b = nextMove();
  assert.equal(b.label(), 'Next move, 24. White');
  b.type(' Nf3 ');
  b.enter();
  b.enter();
  assert.deepEqual(b.sent, [{ board: 3, act: 'move', ply: 47, san: 'Nf3', id: 'id' }]);
  await b.answer();
  assert.equal(b.tool.said.kind, 'done');
  assert.equal(b.words(), '24.Nf3 is entered.');
  assert.equal(b.tool.input.value, '');
});

test('the label follows, whether the relay tells of the board before or after its answer', async () => {
  const after = item({ plies: 47, last: '24.Nf3', turn: 'black', next: '24...' });
  for (const early of [true, false]) {
    const b = nextMove();
    b.type('Nf3');
    b.enter();
    if (early) b.tool.update(after);
    await b.answer();
    if (!early) b.tool.update(after);
    assert.equal(b.label(), 'Next move, 24... Black', String(early));
    assert.equal(b.tool.said.kind, 'done', String(early));
  }
});

test('a refusal stands beside the field, and what was typed stays', async () => {
  const b = nextMove();
  b.type('Qx9');
  b.enter();
  await b.answer(409, '"Qx9" cannot be played: it is no move');
  assert.equal(b.tool.input.value, 'Qx9');
  assert.equal(b.words(), '"Qx9" cannot be played: it is no move.');
  assert.equal(b.tool.input.getAttribute('aria-invalid'), 'true');
  b.type('Qx');
  assert.equal(b.tool.said.kind, 'none');
  assert.equal(b.tool.input.getAttribute('aria-invalid'), null);
});

test('what is typed while an entry is on its way stays, and is meant for the ply behind it', async () => {
  const b = nextMove();
  b.type('Nf3');
  b.enter();
  b.type('Nc6');
  await b.answer();
  assert.equal(b.tool.input.value, 'Nc6');
  b.tool.update(item({ plies: 47, last: '24.Nf3', turn: 'black', next: '24...' }));
  b.enter();
  assert.deepEqual([b.sent[1].ply, b.sent[1].san], [48, 'Nc6']);
});

test('the board goes on under a half-typed move: nothing is sent for another ply', async () => {
  const b = nextMove();
  b.type('Nf');
  b.tool.update(item({ plies: 47, last: '24.Nf3', turn: 'black', next: '24...' }));
  assert.equal(b.tool.said.kind, 'error');
  assert.match(b.words(), /was for 24\. White/);
  b.type('Nf3');
  b.enter();
  assert.equal(b.sent.length, 0);
  b.type('');
  b.type('Nf6');
  b.enter();
  assert.equal(b.sent[0].ply, 48);
});

test('an empty field sends nothing', () => {
  const b = nextMove();
  b.enter();
  assert.equal(b.sent.length, 0);
  assert.equal(b.tool.said.kind, 'error');
});

test('the last move is corrected', async () => {
  const b = lastMove();
  assert.equal(b.label(), 'Instead of 23...Qd7');
  b.type('Qe7');
  b.enter();
  assert.deepEqual(b.sent, [{ board: 3, act: 'correct', ply: 46, san: 'Qe7', id: 'id' }]);
  await b.answer();
  assert.equal(b.words(), 'Qe7 stands instead of 23...Qd7.');
});

test('without a last move there is nothing to correct', () => {
  assert.equal(lastMove({ plies: 0, last: '' }).tool.root.hidden, true);
});

/** Let so much time go by for the presses. */
function later(t, ms) {
  const now = performance.now();
  t.mock.method(performance, 'now', () => now + ms);
}

/** LastMove hangs its button in with before(), which the stand-in does not know. */
function backButton(t) {
  let button = null;
  const proto = Object.getPrototypeOf(document.createElement('p'));
  t.mock.method(proto, 'before', (box) => (button = box.children[0]));
  const b = lastMove();
  return { b, button };
}

test('taking back asks for a second press, and not for a double click', async (t) => {
  const { b, button } = backButton(t);
  assert.equal(button.textContent, 'Take back 23...Qd7');
  button.fire('click');
  button.fire('click');
  assert.equal(b.sent.length, 0);
  assert.equal(button.textContent, 'Press again to take back 23...Qd7');
  later(t, SLIP_MS + 1);
  button.fire('click');
  assert.deepEqual(b.sent, [{ board: 3, act: 'correct', ply: 46, san: '', id: 'id' }]);
  await b.answer();
  assert.equal(b.words(), '23...Qd7 is taken back.');
});

test('another last move, or leaving the button, disarms it', (t) => {
  const { b, button } = backButton(t);
  button.fire('click');
  b.tool.update(item({ plies: 47, last: '24.Nf3' }));
  assert.equal(button.textContent, 'Take back 24.Nf3');
  button.fire('click');
  button.fire('blur');
  later(t, SLIP_MS + 1);
  button.fire('click');
  later(t, SLIP_MS + 1);
  b.tool.update(item({ plies: 47, last: '24.Nf6' }));
  b.tool.update(item({ plies: 47, last: '24.Nf3' }));
  button.fire('click');
  assert.equal(b.sent.length, 0, 'a press from before the feed went to and fro counted');
});

test('a result ends a running game on the second press; afterwards one is enough', async (t) => {
  const b = bench((s, i) => new ResultTool(s, i));
  b.press('data-result', '1-0');
  assert.equal(b.sent.length, 0);
  later(t, SLIP_MS + 1);
  b.press('data-result', '1-0');
  assert.deepEqual(b.sent, [{ board: 3, act: 'result', text: '1-0', id: 'id' }]);
  await b.answer();
  b.tool.update(item({ result: '1-0' }));
  b.press('data-result', '1-0');
  assert.equal(b.words(), 'It is so already.');
  b.press('data-result', '*');
  assert.equal(b.sent[1].text, '*');
});

test('freezing and going on; a double click does not undo it', async () => {
  const b = bench((s, i) => new FreezeTool(s, i));
  b.press('data-act', 'freeze');
  assert.equal(b.sent[0].act, 'freeze');
  await b.answer();
  b.tool.update(item({ frozen: 9 }));
  b.tool.root.find((n) => n.getAttribute('data-act') === 'freeze').fire('click', { detail: 2 });
  assert.equal(b.sent.length, 1);
  b.press('data-act', 'freeze');
  assert.equal(b.sent[1].act, 'thaw');
});

test('following one feed, or the best', async () => {
  const b = bench((s, i) => new FollowTool(s, i));
  b.press('data-feed-name', '');
  assert.equal(b.sent.length, 0, 'it follows the best already');
  b.press('data-feed-name', 'hall');
  assert.deepEqual(b.sent, [{ board: 3, act: 'pin', feed: 'hall', id: 'id' }]);
  await b.answer();
  b.tool.update(item({ pinned: 'hall', feed: 'hall' }));
  b.press('data-feed-name', '');
  assert.equal(b.sent[1].feed, '');
});

test('a name follows the board until somebody types, and again afterwards', async () => {
  const b = bench((s, i) => new NameForm(s, 'black', i));
  assert.equal(b.tool.input.value, 'Birch, Tomasz');
  b.enter();
  assert.equal(b.words(), 'That is the name already.');
  b.type('Birch, Tomas');
  b.tool.update(item({ black: 'Birch, T' }));
  assert.equal(b.tool.input.value, 'Birch, Tomas');
  b.enter();
  assert.deepEqual(b.sent, [{ board: 3, act: 'name', side: 'black', text: 'Birch, Tomas', id: 'id' }]);
  await b.answer();
  b.tool.update(item({ black: 'Birch, Tomas' }));
  b.tool.update(item({ black: 'Birch, Tomas Jr' }));
  assert.equal(b.tool.input.value, 'Birch, Tomas Jr');
});

test('two tools of a board do not send at once', async () => {
  let answer = () => {};
  const sender = new Sender(() => new Promise((a) => (answer = a)), () => 'id', (_, run) => run());
  const freeze = new FreezeTool(sender, item());
  const next = new NextMove(sender, item());
  freeze.root.find((n) => n.getAttribute('data-act') === 'freeze').fire('click', { detail: 1 });
  next.input.value = 'Nf3';
  next.input.fire('input');
  next.root.fire('submit');
  await tick();
  assert.equal(next.said.kind, 'note');
  assert.equal(next.input.value, 'Nf3');
  answer({ status: 200, done: true, error: '' });
  await tick();
  assert.equal(freeze.said.kind, 'done');
});
