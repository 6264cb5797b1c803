// How the line to the relay is kept is our own protocol: see overlay/PROTOCOL.md.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { CLOSE, VERSION } from '../lib/wire.js';

/** A stand-in for the browser: sockets that the test answers, timers that it fires. */
const sockets = [];
const timers = new Map();
let timerId = 0;
let reloads = 0;
globalThis.WebSocket = class {
  static OPEN = 1;
  readyState = 1;
  sent = [];
  constructor(url) {
    this.url = url;
    sockets.push(this);
  }
  send(text) {
    this.sent.push(JSON.parse(text));
  }
  close() {
    this.closed = true;
  }
  say(frame) {
    this.onmessage({ data: JSON.stringify(frame) });
  }
};
globalThis.location = { href: 'http://127.0.0.1:8600/panel', reload: () => reloads++ };
const timer = (run) => (timers.set(++timerId, run), timerId);
globalThis.window = { setTimeout: timer, setInterval: timer };
globalThis.clearTimeout = globalThis.clearInterval = (id) => timers.delete(id);
const fire = () => {
  for (const [id, run] of [...timers]) {
    run();
    void id;
  }
};

const { Live } = await import('../lib/live.js');
const welcome = { type: 'welcome', version: VERSION, run: 'r', now: 1000, rate: 1, pingEveryMs: 2000 };
const whole = (rev) => ({ type: 'board', board: 1, base: 0, rev, at: 1000, keep: 0, plies: [{ san: 'e4' }] });

function open() {
  timers.clear();
  const states = [];
  const boards = [];
  const live = new Live({ page: 'scene/board', board: 2 }, { state: (s) => states.push(s), board: (b) => boards.push(b) });
  const socket = sockets.at(-1);
  socket.say(welcome);
  return { live, socket, states, boards };
}

test('the address says which page and board', () => {
  assert.equal(open().socket.url, 'ws://127.0.0.1:8600/live?page=scene%2Fboard&board=2');
});

test('the welcome and frames of every kind reach the page', () => {
  const heard = [];
  const tell = (name) => (frame) => heard.push([name, frame.run ?? frame.items ?? frame]);
  new Live({ page: 'health' }, { welcome: tell('welcome'), state: tell('state'), sources: tell('sources'), log: tell('log') });
  const socket = sockets.at(-1);
  socket.say(welcome);
  socket.say({ type: 'sources', rev: 1, items: ['a'] });
  socket.say({ type: 'log', items: ['b'] });
  assert.deepEqual(heard, [['welcome', 'r'], ['state', 'open'], ['sources', ['a']], ['log', ['b']]]);
});

test('an update is put onto the board it follows', () => {
  const { socket, boards } = open();
  socket.say(whole(4));
  socket.say({ ...whole(5), base: 4, keep: 1, plies: [{ san: 'e5' }] });
  assert.deepEqual(boards[1].plies.map((p) => p.san), ['e4', 'e5']);
  assert.deepEqual(boards[0].plies.map((p) => p.san), ['e4'], 'the board before stays as it was');
});

test('after a gap the page asks again and shows nothing made up', () => {
  const { socket, boards } = open();
  socket.say(whole(4));
  socket.say({ ...whole(6), base: 5, keep: 1, plies: [] });
  assert.equal(boards.length, 1);
  assert.deepEqual(socket.sent.at(-1), { type: 'again', board: 1 });
});

test('a lost line comes back by itself, and forgets the boards of before', () => {
  const { socket, states, boards } = open();
  socket.say(whole(4));
  socket.onclose({ code: 1006 });
  assert.deepEqual(states, ['open', 'lost']);
  fire();
  const next = sockets.at(-1);
  assert.notEqual(next, socket);
  next.say(welcome);
  next.say({ ...whole(5), base: 4, keep: 1, plies: [] });
  assert.equal(boards.length, 1, 'an update on a board of the old connection');
  assert.equal(next.sent.at(-1).type, 'again');
});

test('it does not come back where it is not known', () => {
  const { socket } = open();
  const before = sockets.length;
  socket.onclose({ code: 4000 });
  fire();
  assert.equal(sockets.length, before);
});

test('a line that swallows pings is given up', () => {
  const { socket, states } = open();
  fire();
  socket.say({ type: 'pong', t: 0, now: 1000 });
  for (let i = 0; i < 3; i++) fire();
  assert.deepEqual(states, ['open'], 'an answer counts');
  fire();
  assert.deepEqual(states, ['open', 'lost']);
  socket.onclose({ code: 1006 });
  assert.deepEqual(states, ['open', 'lost'], 'its late close is not a second loss');
});

test('a relay of another version makes the page load itself again', () => {
  const { socket } = open();
  socket.say({ ...welcome, version: VERSION + 1 });
  assert.equal(reloads, 1);
});

test('the hold of the page goes with it, whatever it is', () => {
  const before = location.href;
  location.href = 'http://127.0.0.1:8600/scene/board?hold=12&hold=&board=2';
  assert.equal(open().socket.url, 'ws://127.0.0.1:8600/live?page=scene%2Fboard&board=2&hold=12&hold=');
  location.href = before;
});

test('another pace of time reaches the page, which measures anew', () => {
  const times = [];
  const live = new Live({ page: 'scene/board' }, { time: (f) => times.push(f.rate) });
  const socket = sockets.at(-1);
  socket.say(welcome);
  socket.say({ type: 'time', now: 5000, rate: 0 });
  assert.deepEqual(times, [0]);
  assert.equal(live.time.now(), 5000);
  assert.equal(socket.sent.at(-1).type, 'ping');
});

test('time is measured eight times at once, one after the other, then with the heartbeat', () => {
  const { socket } = open();
  const pings = () => socket.sent.filter((f) => f.type === 'ping').length;
  for (let answered = 0; answered < 7; answered++) {
    assert.equal(pings(), answered + 1);
    socket.say({ type: 'pong', t: 0, now: 1000 });
  }
  socket.say({ type: 'pong', t: 0, now: 1000 });
  assert.equal(pings(), 8);
});

test('a scene brings the token of its address along, a page for people does not', () => {
  const were = globalThis.location.href;
  globalThis.location.href = 'http://127.0.0.1:8600/x?token=A%2BB';
  new Live({ page: 'scene/board' }, {});
  assert.equal(sockets.at(-1).url, 'ws://127.0.0.1:8600/live?page=scene%2Fboard&token=A%2BB');
  new Live({ page: 'panel' }, {});
  assert.equal(sockets.at(-1).url, 'ws://127.0.0.1:8600/live?page=panel');
  globalThis.location.href = were;
});

test('when the token is renewed a scene stays and asks no more, a page tries whether its cookie is the new one', () => {
  const { socket } = open();
  timers.clear();
  socket.onclose({ code: CLOSE.TOKEN_RENEWED });
  assert.equal(timers.size, 0);
  const before = [reloads, sockets.length];
  new Live({ page: 'panel' }, {});
  sockets.at(-1).onclose({ code: CLOSE.TOKEN_RENEWED });
  fire();
  timers.clear();
  assert.deepEqual([reloads, sockets.length], [before[0], before[1] + 2]);
});

test('a page that is not let in again is loaded anew once the relay says so, a scene never', async () => {
  const statuses = [200, 401, 403];
  globalThis.fetch = async () => ({ status: statuses.shift() ?? assert.fail('asked too often') });
  const before = reloads;
  new Live({ page: 'panel' }, {});
  for (const want of [0, 0, 1, 2]) {
    sockets.at(-1).onclose({ code: 1006 });
    fire();
    timers.clear();
    await new Promise((done) => setTimeout(done));
    assert.equal(reloads - before, want);
  }
  new Live({ page: 'scene/board' }, {});
  for (let n = 0; n < 3; n++) {
    sockets.at(-1).onclose({ code: 1006 });
    fire();
    timers.clear();
  }
  assert.equal(reloads, before + 2);
});

test('a page that comes back says how far it is in the log and which board came last, as long as the show is the same', () => {
  timers.clear();
  new Live({ page: 'health' }, {});
  const back = () => {
    sockets.at(-1).onclose({ code: 1006 });
    fire();
    timers.clear();
    return new URL(sockets.at(-1).url).search;
  };
  sockets.at(-1).say(welcome);
  sockets.at(-1).say({ type: 'log', items: [{ seq: 7 }, { seq: 8 }] });
  assert.equal(back(), '?page=health&run=r&log=8&seen=0');
  sockets.at(-1).say(welcome);
  sockets.at(-1).say(welcome);
  for (const [rev, at] of [[4, 1000], [5, 2000], [6, 0]]) sockets.at(-1).say({ ...whole(rev), at });
  assert.equal(back(), '?page=health&run=r&log=8&seen=2000');
  sockets.at(-1).say({ ...welcome, run: 'another' });
  assert.equal(back(), '?page=health&run=another&log=0&seen=0');
});
