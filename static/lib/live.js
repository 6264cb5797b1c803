// @ts-check
/** @typedef {import('./wire.js').Board} Board */
import { ShowTime } from './time.js';
import { VERSION, TYPE, CLOSE } from './wire.js';
import { merge } from './merge.js';

/** So many pings follow each other at once when a line opens, each when the last is answered: time is known at once. */
const FIRST_PINGS = 8;
/** So many pings without an answer, and the line is taken to be dead. */
const SILENT_PINGS = 3;

/**
 * Live is a page's line to the relay. It opens the socket, keeps show time,
 * puts updates onto the board it holds, asks again after a gap and comes back
 * by itself, for ever, with growing and scattered pauses.
 *
 * Callbacks: board(Board) with the whole merged board, welcome, show, prompts,
 * table, people, caption, air, opinions, feeds, sources, log, pages with their frames, time when it was told or
 * measured anew, and state('open' | 'lost').
 */
export class Live {
  #on;
  #url;
  #scene;
  /** @type {WebSocket | null} */ #socket = null;
  /** @type {Map<number, Board>} */ #boards = new Map();
  /** @type {number[]} */ #late = [];
  #tries = 0;
  #timer = 0;
  #pings = 0;
  #unanswered = 0;
  #first = 0;
  #closed = false;
  /** The show that was last here, the line of its log that came last, and when the newest of its boards came. */
  #has = { run: '', log: 0, seen: 0 };

  /**
   * @param {{page: string, board?: number | 'air', boards?: number[]}} want what to ask the relay for; board 0 and no boards: all;
   *   board 'air': the one that the desk has put on the air
   * @param {Record<string, (frame: any) => void>} on callbacks, each may be missing
   */
  constructor(want, on) {
    this.#on = on;
    this.#scene = want.page.startsWith('scene/');
    this.time = new ShowTime();
    const url = new URL('/live', location.href);
    url.protocol = url.protocol === 'https:' ? 'wss:' : 'ws:';
    url.searchParams.set('page', want.page);
    if (want.board) url.searchParams.set('board', String(want.board));
    if (want.boards?.length) url.searchParams.set('boards', want.boards.join());
    // What should be held back must never come as the present because a page forgot to say so.
    for (const hold of new URL(location.href).searchParams.getAll('hold')) url.searchParams.append('hold', hold);
    // Streaming software has no cookies to show; a page that people open has one.
    if (this.#scene) for (const token of new URL(location.href).searchParams.getAll('token')) url.searchParams.append('token', token);
    this.#url = url.href;
    this.#open();
  }

  close() {
    this.#closed = true;
    clearTimeout(this.#timer);
    clearInterval(this.#pings);
    this.#socket?.close(1000);
  }

  #open() {
    const url = new URL(this.#url);
    // It may come to another relay of the show, which is not to show what is older.
    if (this.#has.run) for (const [name, is] of Object.entries(this.#has)) url.searchParams.set(name, String(is));
    const socket = new WebSocket(url.href);
    this.#socket = socket;
    socket.onmessage = (m) => this.#receive(JSON.parse(m.data));
    socket.onclose = (c) => {
      if (socket === this.#socket) this.#lost(c.code);
    };
  }

  /** @param {number} code */
  #lost(code) {
    clearInterval(this.#pings);
    this.#on.state?.('lost');
    if (this.#closed || code === CLOSE.UNKNOWN_PAGE) return;
    if (code === CLOSE.TOKEN_RENEWED && this.#scene) return;
    if (this.#tries > 0 && !this.#scene) void this.#askMayI();
    const most = Math.min(5000, 250 * 2 ** this.#tries++);
    this.#timer = window.setTimeout(() => this.#open(), most * (0.5 + Math.random() / 2));
  }

  /** A page that may not come in any more says so itself, when it is loaded anew. A scene stays as it is: it may be on the air. */
  async #askMayI() {
    try {
      const { status } = await fetch(location.href, { method: 'HEAD', cache: 'no-store' });
      if (status === 401 || status === 403) location.reload();
    } catch {
      // The relay is not there.
    }
  }

  /** @param {any} frame */
  #receive(frame) {
    switch (frame.type) {
      case TYPE.WELCOME:
        return this.#welcome(frame);
      case TYPE.TIME:
        this.time.pace(frame.now, frame.rate);
        this.#ping();
        return this.#on.time?.(frame);
      case TYPE.PONG:
        return this.#pong(frame);
      case TYPE.BOARD:
        return this.#board(frame);
      case TYPE.LOG:
        this.#has.log = frame.items.at(-1)?.seq ?? this.#has.log;
        return this.#on.log?.(frame);
      default:
        this.#on[frame.type]?.(frame);
    }
  }

  /** @param {import('./wire.js').Welcome} frame */
  #welcome(frame) {
    if (frame.version !== VERSION) return location.reload();
    this.#tries = 0;
    if (frame.run !== this.#has.run) this.#has = { run: frame.run, log: 0, seen: 0 };
    this.#boards.clear();
    this.time.welcome(frame.now, frame.rate);
    this.#on.welcome?.(frame);
    this.#on.state?.('open');
    clearInterval(this.#pings);
    this.#unanswered = 0;
    this.#first = FIRST_PINGS;
    this.#ping();
    this.#pings = window.setInterval(() => this.#ping(), frame.pingEveryMs);
  }

  /** A line that swallows pings is dead, whatever the network says. */
  #ping() {
    if (this.#unanswered++ >= SILENT_PINGS) return this.#abandon();
    this.#measure();
  }

  #measure() {
    this.send({ type: TYPE.PING, t: this.time.pageNow(), late: this.#late.splice(0) });
  }

  /** @param {import('./wire.js').Pong} frame */
  #pong(frame) {
    this.#unanswered = 0;
    this.time.sample(frame.t, frame.now);
    this.#on.time?.(frame);
    if (--this.#first > 0) this.#measure();
  }

  /** Give the socket up without waiting for its close. */
  #abandon() {
    const dead = this.#socket;
    this.#socket = null;
    dead?.close();
    this.#lost(0);
  }

  /** @param {Board} frame */
  #board(frame) {
    const first = !this.#boards.has(frame.board);
    const board = merge(this.#boards.get(frame.board), frame);
    if (!board) return this.send({ type: TYPE.AGAIN, board: frame.board });
    this.#boards.set(frame.board, board);
    this.#has.seen = Math.max(this.#has.seen, frame.at);
    this.#on.board?.(board);
    // A page that just came is not late, and what no packet brought has no delay.
    if (first || frame.at === 0) return;
    const late = (this.time.now() - frame.at) / this.time.rate;
    if (this.#late.length < 50) this.#late.push(Math.max(0, Math.round(late)));
  }

  /** Send a frame, where the line stands. @param {object} frame */
  send(frame) {
    if (this.#socket?.readyState === WebSocket.OPEN) this.#socket.send(JSON.stringify(frame));
  }
}
