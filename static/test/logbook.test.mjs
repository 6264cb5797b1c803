import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { LINES_MOST, Logbook, Steady, passes } from '../health/logbook.js';
import { placeOf } from '../health/logview.js';
import { GROUPS, KINDS, dayTime, groupOf, isLoud, noteWords } from '../health/notes.js';

const line = (seq, over = {}) => ({ seq, at: 1000 * seq, board: 1, kind: 'moves', ply: seq, was: '', is: '', text: '', ...over });
const range = (from, to) => Array.from({ length: to - from + 1 }, (_, i) => line(from + i));
const seqs = (lines) => lines.map((l) => l.seq);
function book(...frames) {
  const b = new Logbook();
  b.welcome('run');
  for (const items of frames) b.receive(items);
  return b;
}

test('newest first, each line once', () => {
  assert.deepEqual(seqs(book([line(1), line(2)], [line(2), line(3)]).lines), [3, 2, 1]);
});

test('at most so many lines', () => {
  const b = book(range(1, LINES_MOST), range(LINES_MOST + 1, LINES_MOST + 7));
  assert.equal(b.lines.length, LINES_MOST);
  assert.equal(b.lines[0].seq, LINES_MOST + 7);
  assert.equal(b.lines.at(-1).seq, 8);
});

test('lines that never came are counted, but not those before the first', () => {
  const b = book([line(41)], [line(45), line(46)]);
  assert.deepEqual(b.lines.map((l) => l.missed ?? 0), [0, 3, 0]);
});

test('the same run goes on after a lost line, another one begins anew', () => {
  const b = book(range(1, 5));
  assert.equal(b.welcome('run'), false);
  b.receive(range(3, 6));
  assert.deepEqual(seqs(b.lines), [6, 5, 4, 3, 2, 1]);
  assert.equal(b.welcome('another'), true);
  b.receive([line(1), line(2)]);
  assert.deepEqual(seqs(b.lines), [2, 1]);
});

test('the filter', () => {
  const lines = [line(1), line(2, { board: 2, kind: 'clock' }), line(3, { board: 0, kind: 'feedState' }), line(4, { kind: 'byHand' })];
  const left = (board, group) => seqs(lines.filter((l) => passes(l, { board, group })));
  assert.deepEqual(left(0, ''), [1, 2, 3, 4]);
  assert.deepEqual(left(2, ''), [2, 3], 'what concerns the whole show passes every board');
  assert.deepEqual(left(0, 'clocks'), [2]);
  assert.deepEqual(left(1, 'hand'), [4]);
  assert.deepEqual(left(2, 'hand'), []);
});

test('nothing moves while somebody reads, and what waits is counted', () => {
  const s = new Steady();
  const newest = (n) => range(1, n).reverse();
  assert.deepEqual(s.next(newest(3), false), { shown: newest(3), waiting: 0 });
  const held = s.next(newest(15), true);
  assert.deepEqual(seqs(held.shown), [3, 2, 1]);
  assert.equal(held.waiting, 12);
  assert.deepEqual(s.next(newest(16), false), { shown: newest(16), waiting: 0 });
});

test('an empty log can be scrolled as one likes', () => {
  assert.deepEqual(new Steady().next([line(1)], true), { shown: [line(1)], waiting: 0 });
});

test('every kind of relay/note.go has words and a group of the filter', () => {
  const source = readFileSync(new URL('../../relay/note.go', import.meta.url), 'utf8');
  const kinds = [...source.matchAll(/^\tNote\w+\s+NoteKind = "(\w+)"/gm)].map((m) => m[1]);
  assert.ok(kinds.length >= 20, `found ${kinds.length} kinds`);
  assert.deepEqual(Object.keys(KINDS).sort(), kinds.sort());
  const groups = GROUPS.map(([group]) => group);
  for (const kind of kinds) assert.ok(groups.includes(groupOf(kind)), kind);
});

/** Lines as relay/changes.go, attend.go, packet.go and show.go write them. */
const WORDS = [
  [{ kind: 'moves', is: '23.Rd1' }, '23.Rd1'],
  [{ kind: 'panel', was: 'Ada', is: 'said', text: 'Black leads on the clock.' }, 'Ada has said: Black leads on the clock.'],
  [{ kind: 'desk', was: 'Ada', is: 'play', text: 'Play a move Nc6' }, 'Desk, Ada: Play a move Nc6'],
  [{ kind: 'desk', is: 'ask', text: 'Ask the viewers' }, 'Desk: Ask the viewers'],
  [{ kind: 'moves', is: '13.Nxe5 13...Nxe5 14.dxe5 and 3 more' }, '13.Nxe5 Nxe5 14.dxe5 and 3 more'],
  [{ kind: 'moves', is: '12...Re8 13.Nxe5 13...Nxe5' }, '12...Re8 13.Nxe5 Nxe5'],
  [{ kind: 'replaced', was: '23...Rd8', is: '23...Re8' }, 'Replaced: was 23...Rd8, now 23...Re8'],
  [{ kind: 'takenBack', was: '23...Qd7' }, 'Taken back: 23...Qd7'],
  [{ kind: 'clock', was: '10:02', is: '9:58, and 3 more' }, 'Clock after 12...: was 10:02, now 9:58, and 3 more', '12...'],
  [{ kind: 'clock', was: '10:02', is: 'none' }, 'Clock: was 10:02, now none'],
  [{ kind: 'panel', was: 'Nadja', is: 'take', text: 'Black is in a long think.' }, 'Nadja takes: Black is in a long think.'],
  [{ kind: 'panel', was: 'Nadja', is: 'air', text: 'Hello.' }, 'Nadja puts on the air: Hello.'],
  [{ kind: 'result', was: '*', is: '1/2-1/2' }, 'Result: was not over, now ½–½'],
  [{ kind: 'uncounted', is: 'round 9', text: 'that round is not of the match as it is planned' }, 'Not counted for the match: round 9; that round is not of the match as it is planned'],
  [{ kind: 'uncounted', was: 'round 9' }, 'Counted for the match now; was round 9'],
  [{ kind: 'player', was: 'Adler, I', is: 'GM Alder, I (2500)' }, 'Player: was Adler, I, now GM Alder, I (2500)'],
  [{ kind: 'control', is: '10 min + 5 s' }, 'Time control: 10 min + 5 s'],
  [{ kind: 'control', was: '10 min + 5 s' }, 'Time control: was 10 min + 5 s, now none'],
  [{ kind: 'game', is: 'Cedar – Dogwood, *' }, 'New game: Cedar – Dogwood'],
  [{ kind: 'game', was: 'Alder – Birch, 1-0', is: 'Cedar – Dogwood, *' }, 'New game: Cedar – Dogwood; was Alder – Birch, 1-0'],
  [{ kind: 'fault', is: '"Bb9" is no move' }, 'Shown no further: "Bb9" is no move'],
  [{ kind: 'fault', was: '"Bb9" is no move' }, 'Shown on again'],
  [{ kind: 'vanished', was: '34 plies', text: 'hall' }, 'Feed hall no longer has the game (had 34 plies)'],
  [{ kind: 'returned', is: '36 plies', text: 'hall' }, 'Feed hall has the game again (36 plies)'],
  [{ kind: 'place', was: '2', is: '1', text: 'hall' }, 'Feed hall lists the game elsewhere: was number 2, now 1'],
  [{ kind: 'older', was: '34 plies', is: '28 plies', text: 'hall' }, 'Feed hall went back: was 34 plies, now 28 plies; not shown'],
  [{ kind: 'olderOver', was: '28 plies', is: '35 plies', text: 'hall' }, 'Feed hall goes on: was 28 plies, now 35 plies'],
  [{ kind: 'feed', was: 'arena', is: 'hall', text: 'arena: it is stale' }, 'Follows hall, was arena: it is stale'],
  [{ kind: 'feed', was: 'hall', is: 'arena', text: 'it is in order again' }, 'Follows arena, was hall; arena is in order again'],
  [{ kind: 'feed', was: 'hall', is: 'arena', text: 'pinned' }, 'Follows arena, was hall; pinned'],
  [{ kind: 'feedState', was: 'ok', is: 'stale', text: 'hall' }, 'Feed hall: was fine, now silent'],
  [{ kind: 'byHand', is: 'Nf3', text: '24.Nf3' }, 'By hand: 24.Nf3'],
  [{ kind: 'refused', is: 'Qx9', text: '"Qx9" cannot be played: it is no move' }, 'By hand, not done: "Qx9" cannot be played: it is no move'],
  [{ kind: 'refused', is: 'Nf3', text: 'there is no board 9' }, 'By hand, not done: Nf3, there is no board 9'],
  [{ kind: 'asked', was: '', is: 'a6', text: 'move' }, 'Who is right? The move by hand: taken back; the feed’s: a6'],
  [{ kind: 'agreed', was: 'b6', is: 'b6' }, 'The feed now says b6 too, and leads again'],
  [{ kind: 'raised', is: 'longThink', text: 'Alder thinks.' }, 'Alder thinks.'],
  [{ kind: 'cleared', is: 'longThink', text: 'Alder thinks.' }, 'Over: Alder thinks.'],
  [{ kind: 'tell', was: 'white in preparation', is: 'white thinking' }, 'White thinking, was in preparation'],
  [{ kind: 'new in a later relay', was: 'a', is: 'b', text: 'c' }, 'new in a later relay, was a, now b, c'],
];

test('lines in words', () => {
  for (const [over, want, place = ''] of WORDS) assert.equal(noteWords(line(1, over), place), want);
  const told = new Set(WORDS.map(([over]) => over.kind));
  for (const kind of Object.keys(KINDS)) assert.ok(told.has(kind), `no example of ${kind}`);
});

test('what should not be missed', () => {
  const loud = (over) => isLoud(line(1, over));
  for (const kind of ['replaced', 'takenBack', 'vanished', 'older', 'refused', 'asked', 'feed']) assert.ok(loud({ kind }), kind);
  for (const kind of ['moves', 'tell', 'byHand', 'agreed', 'returned', 'unheard of']) assert.ok(!loud({ kind }), kind);
  assert.ok(loud({ kind: 'fault', is: 'x' }) && !loud({ kind: 'fault', was: 'x' }));
  assert.ok(loud({ kind: 'uncounted', is: 'round 9' }) && !loud({ kind: 'uncounted', was: 'round 9' }));
  assert.ok(loud({ kind: 'feedState', is: 'stale' }) && !loud({ kind: 'feedState', is: 'ok' }));
});

test('time of day and place', () => {
  assert.equal(dayTime(new Date(2031, 4, 6, 7, 8, 9).getTime()), '07:08:09');
  const from = (number) => ({ plies: [{ number }] });
  assert.deepEqual([placeOf(0, from(1)), placeOf(1, from(1)), placeOf(24, from(1)), placeOf(1, from(80)), placeOf(3, undefined)], ['', '1.', '12...', '40...', '2.']);
});
