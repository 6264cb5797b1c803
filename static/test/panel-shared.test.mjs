// What is shared at the panel. What an act does to a prompt is the relay's own rule (relay/table.go, relay/atpanel.go);
// the statuses of /at-panel are those of overlay/PROTOCOL.md, and which of them may be tried again is RFC 9110, 15.5 and 15.6.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { AIR_WAIT_MS, Outbox, WAIT_MOST, WAIT_MS } from '../panel/outbox.js';
import { DONE_MS, SOON_MS, Shared } from '../panel/shared.js';
import { after } from '../panel/use.js';

const DONE = { status: 200, done: true, error: '' };
const NONE = { status: 0, done: false, error: '' };
const no = (status, error = '') => ({ status, done: false, error });
const OPEN = { state: 'open', by: '', since: 0, pinned: '' };
const tick = async () => { for (let i = 0; i < 4; i++) await new Promise(setImmediate); };

/** A browser's store. */
const store = () => {
  const held = new Map();
  return {
    held, getItem: (k) => held.get(k) ?? null, setItem: (k, v) => void held.set(k, v), removeItem: (k) => void held.delete(k),
    key: (i) => [...held.keys()][i] ?? null, get length() { return held.size; },
  };
};

/** A panel of Nadja whose relay gives these answers, and whose pauses end when told to. */
function desk(answers = [], kept = store()) {
  const d = { wall: 1000, sent: [], pauses: [], refused: [], kept };
  const post = async (body) => (d.sent.push(JSON.parse(body)), answers.shift() ?? NONE);
  const told = {
    done: (act) => d.shared.done(act),
    refused: (act, error) => d.refused.push([act.act, act.prompt || act.text, error]),
    changed: () => {},
  };
  d.outbox = new Outbox(kept, post, told, () => d.wall, (ms, run) => d.pauses.push(run));
  d.shared = new Shared(() => d.outbox.acts, () => d.wall);
  d.act = (act, prompt = '', more = {}) => d.outbox.add({ act, prompt, who: 'Nadja', ...more }, 500);
  d.lists = (...items) => d.shared.receive(items.map(([key, state = 'open', by = '', pinned = '']) => ({ key, ...OPEN, state, by, pinned })));
  d.use = (key = 'a') => {
    const { state, by, pinned, waits } = d.shared.use({ key, ...OPEN });
    return [state, by, pinned && `pinned ${pinned}`, waits && 'waits'].filter(Boolean).join(' ');
  };
  return d;
}

test('what an act does to a prompt, as in relay/table.go', () => {
  const use = (state, by, pinned = '') => ({ state, by, since: by ? 1 : 0, pinned });
  const cases = [
    [OPEN, 'take', 'taken Nadja 7'], [OPEN, 'said', 'said Nadja 7'], [OPEN, 'drop', 'dropped Nadja 7'], [OPEN, 'undo', 'open  0'],
    [use('taken', 'Nadja'), 'take', 'taken Nadja 1'], [use('taken', 'Nadja'), 'undo', 'open  0'],
    [use('taken', 'Ilja'), 'take', 'taken Ilja 1'], [use('taken', 'Ilja'), 'said', 'taken Ilja 1'], [use('taken', 'Ilja'), 'undo', 'taken Ilja 1'],
    [use('taken', 'Ilja'), 'take', 'taken Nadja 7', true], [use('said', 'Ilja'), 'take', 'said Ilja 1'], [use('said', 'Ilja'), 'undo', 'open  0'],
    [use('dropped', 'Ilja'), 'undo', 'open  0'], [use('dropped', 'Ilja'), 'take', 'taken Nadja 7'],
  ];
  for (const [from, act, want, over = false] of cases) {
    const u = after(from, { act, who: 'Nadja', over }, 7);
    assert.equal(`${u.state} ${u.by} ${u.since}`, want, `${from.state} by ${from.by}, ${act}`);
  }
  assert.equal(after(OPEN, { act: 'pin', who: 'Nadja' }, 7).pinned, 'Nadja');
  assert.equal(after(use('open', '', 'Ilja'), { act: 'pin', who: 'Nadja' }, 7).pinned, 'Ilja', 'the first who pinned it');
  assert.equal(after(use('taken', 'Nadja', 'Ilja'), { act: 'undo', who: 'Nadja' }, 7).pinned, 'Ilja');
  assert.equal(after(use('open', '', 'Ilja'), { act: 'unpin', who: 'Nadja' }, 7).pinned, '');
});

test('an act is seen at once, sent once with its id, and stays seen until the relay’s frame comes', async () => {
  const d = desk([DONE]);
  d.lists(['a']);
  const { id } = d.act('take', 'a');
  assert.equal(d.use(), 'taken Nadja');
  await tick();
  assert.deepEqual(d.sent, [{ id, who: 'Nadja', act: 'take', prompt: 'a', over: false, text: '', note: '' }]);
  assert.equal(d.use(), 'taken Nadja', 'answered, but the frame is not here yet');
  d.lists(['a', 'taken', 'Nadja']);
  d.lists(['a', 'taken', 'Ilja']);
  assert.equal(d.use(), 'taken Ilja', 'from then on the relay’s word counts');
  assert.equal(d.kept.length, 0);
});

test('a frame that came before the answer does not bring an act back', async () => {
  const d = desk([DONE]);
  d.lists(['a']);
  d.act('take', 'a');
  d.lists(['a', 'taken', 'Nadja']);
  await tick();
  d.lists(['a', 'open']);
  assert.equal(d.use(), 'open', 'given back elsewhere');
});

test('a frame that never comes is not waited for long', async () => {
  const d = desk([DONE]);
  d.lists(['a']);
  d.act('take', 'a');
  await tick();
  d.wall += DONE_MS;
  assert.equal(d.use(), 'open');
});

test('of two who take, the one refused sees who has it', async () => {
  const d = desk([no(409, 'Ilja has it')]);
  d.lists(['a']);
  d.act('take', 'a');
  d.lists(['a', 'taken', 'Ilja']);
  assert.equal(d.use(), 'taken Ilja', 'before the answer: the relay will refuse it');
  await tick();
  assert.deepEqual(d.refused, [['take', 'a', 'Ilja has it.']]);
  assert.equal(d.use(), 'taken Ilja');
  assert.equal(d.outbox.acts.length, 0);
});

test('without the relay acts wait in their order, say so, and are sent with the same ids', async () => {
  const d = desk([NONE, no(503), NONE, DONE, DONE, DONE]);
  d.lists(['a'], ['b']);
  d.act('take', 'a');
  d.act('said', 'a');
  d.act('pin', 'b');
  d.wall += SOON_MS;
  assert.equal(d.use(), 'said Nadja waits');
  assert.equal(d.use('b'), 'open pinned Nadja waits');
  for (let i = 0; i < 4; i++) {
    await tick();
    d.pauses.pop()?.();
  }
  await tick();
  const acts = d.sent.map((a) => a.act);
  assert.deepEqual(acts.filter((a, i) => a !== acts[i - 1]), ['take', 'said', 'pin']);
  assert.equal(new Set(d.sent.map((a) => a.id)).size, 3, 'something was sent under two ids');
  assert.equal(d.outbox.acts.length, 0);
});

test('a reload keeps what waits, in its order', async () => {
  const kept = store();
  const before = desk([], kept);
  before.act('take', 'a');
  before.wall++;
  before.act('said', 'a');
  kept.setItem('clocktell.panel.act.x', '{"somebody":"else"}');
  kept.setItem('clocktell.panel.act.y', '{');
  const d = desk([DONE, DONE], kept);
  d.lists(['a']);
  assert.equal(d.use(), 'said Nadja');
  d.outbox.send();
  await tick();
  assert.deepEqual(d.sent.map((a) => a.act), ['take', 'said']);
  assert.deepEqual(d.sent.map((a) => a.id), before.outbox.acts.map((a) => a.id));
});

test('a store that is full or forbidden does not stop the panel', async () => {
  const full = { ...store(), setItem() { throw new Error('full'); }, removeItem() { throw new Error('forbidden'); }, length: 0 };
  const d = desk([DONE], full);
  d.act('take', 'a');
  await tick();
  assert.equal(d.outbox.acts.length, 0);
});

test('the outbox is bounded: the oldest is refused, and said to be', () => {
  const d = desk();
  for (let i = 0; i <= WAIT_MOST; i++) d.act('pin', `p${i}`);
  assert.equal(d.outbox.acts.length, WAIT_MOST);
  assert.deepEqual(d.refused.map(([act, key]) => [act, key]), [['pin', 'p0']]);
  assert.equal(d.kept.length, WAIT_MOST);
});

test('what could not be sent for long is given up; for the air that is soon', async () => {
  const d = desk();
  d.act('air', 'a');
  d.act('said', 'b');
  await tick();
  d.wall += AIR_WAIT_MS;
  d.outbox.send();
  await tick();
  assert.deepEqual(d.refused.map(([act]) => act), ['air']);
  d.wall += WAIT_MS;
  d.outbox.send();
  await tick();
  assert.deepEqual(d.refused.map(([act]) => act), ['air', 'said']);
  assert.equal(d.sent.filter((a) => a.act === 'air').length, 1, 'it was sent after its time');
});

test('without the token nothing is lost: it waits, and the page can say why', async () => {
  for (const status of [401, 403]) {
    const d = desk([no(status, 'open the page with its token'), DONE]);
    d.lists(['a']);
    d.act('take', 'a');
    await tick();
    assert.equal(d.outbox.held, 'Open the page with its token.');
    assert.equal(d.outbox.acts.length, 1);
    d.outbox.send();
    await tick();
    assert.equal(d.outbox.held, '');
    assert.equal(d.outbox.acts.length, 0);
  }
});

test('a note is on the table at once, and once', async () => {
  const d = desk([DONE, DONE]);
  const note = { id: 'n', by: 'Ilja', at: 1, text: 'hello' };
  d.shared.table({ rev: 1, notes: [note] });
  const { id } = d.act('note', '', { text: 'well' });
  const texts = () => d.shared.notes().map((n) => n.text).join();
  assert.equal(texts(), 'hello,well');
  await tick();
  d.shared.table({ rev: 2, notes: [note, { id, by: 'Nadja', at: 2, text: 'well' }] });
  assert.equal(texts(), 'hello,well');
  d.act('wipe', '', { note: 'n' });
  assert.equal(texts(), 'well');
});

test('nothing is shown on the air before the relay says so', async () => {
  const d = desk([DONE, DONE]);
  d.act('air', 'a');
  assert.deepEqual([d.shared.air().caption, d.shared.air().to?.act], [null, 'air']);
  await tick();
  assert.equal(d.shared.air().to?.act, 'air', 'answered, but the frame is not here yet');
  d.shared.caption({ rev: 1, caption: { key: 'a', text: 'A.' } });
  assert.deepEqual([d.shared.air().caption?.key, d.shared.air().to], ['a', null]);
  d.act('off');
  assert.deepEqual([d.shared.air().caption?.key, d.shared.air().to?.act], ['a', 'off']);
  await tick();
  d.shared.caption({ rev: 2, caption: null });
  assert.deepEqual(d.shared.air(), { caption: null, to: null, waits: false });
});
