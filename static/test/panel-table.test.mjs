// What the panel says of what the co-hosts do. The limits of names and texts are those of relay/atpanel.go.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import './fakedom.mjs';
import { conflictWords, lifeWords, lineWords, sayingWords, stateWords } from '../panel/cardwords.js';
import { KINDS } from '../panel/kinds.js';
import { TEXT_MOST, room } from '../panel/notes.js';
import { airNews } from '../panel/onair.js';
import { NAME_MOST, clean, others } from '../surface/people.js';
import { folds } from '../panel/shelf.js';
import { refusedWords } from '../panel/trouble.js';

const use = (state, by = '', more = {}) => ({ state, by, since: 1000, pinned: '', own: false, waits: false, ...more });
const card = (u, more = {}) => ({ use: u, mine: u.by === 'Nadja', end: '', prompt: { ends: 'when the move comes' }, ...more });

test('the limits are the relay’s', () => {
  const source = readFileSync(new URL('../../relay/atpanel.go', import.meta.url), 'utf8');
  assert.equal(NAME_MOST, Number(source.match(/WhoMost\s+= (\d+)/)?.[1]));
  assert.equal(TEXT_MOST, Number(source.match(/PanelTextMost\s+= (\d+)/)?.[1]));
});

test('every kind that the relay makes has a button', () => {
  const source = readFileSync(new URL('../../relay/prompt/prompt.go', import.meta.url), 'utf8');
  const kinds = [...source.matchAll(/^\tKind\w+\s+Kind = "(\w+)"/gm)].map((m) => m[1]);
  assert.ok(kinds.length >= 4, `found ${kinds.length} kinds`);
  for (const kind of kinds) assert.ok(KINDS.some(([k]) => k === kind), kind);
});

test('who has a sentence, and who had it', () => {
  assert.equal(stateWords(card(use('open')), 'Nadja', 9000), '');
  assert.equal(stateWords(card(use('taken', 'Nadja')), 'Nadja', 9000), 'you have it');
  assert.equal(stateWords(card(use('taken', 'Ilja')), 'Nadja', 9000), 'Ilja has it');
  assert.equal(stateWords(card(use('said', 'Ilja')), 'Nadja', 13_000), 'said by Ilja, 0:12 ago');
  assert.equal(sayingWords(card(use('taken', 'Ilja')), 'Nadja'), 'Ilja is saying this');
  assert.equal(sayingWords(card(use('open')), 'Nadja'), 'Free again');
  assert.equal(lineWords(card(use('said', 'Nadja')), 'Nadja', 131_000), 'Said by you, 2:10 ago.');
  assert.equal(lineWords(card(use('dropped', 'Ilja')), 'Nadja', 1000), 'Dropped by Ilja, just now.');
  assert.equal(lineWords(card(use('said', 'Nadja', { waits: true })), 'Nadja', 1000), 'Said by you, not sent yet.');
  assert.equal(lineWords(card(use('open'), { end: 'withdrawn' }), 'Nadja', 1000), 'no longer true');
});

test('how long a sentence lives', () => {
  assert.equal(lifeWords(card(use('open'))), 'goes when the move comes');
  assert.equal(lifeWords(card(use('open', '', { pinned: 'Ilja' }))), 'still true');
  assert.equal(lifeWords(card(use('open', '', { pinned: 'Ilja' }), { end: 'withdrawn' })), 'no longer true');
});

test('why something did not count: who was first, where somebody was', () => {
  assert.equal(conflictWords(use('taken', 'Ilja'), 'Ilja has it.', 'Nadja', 13_000), 'Ilja was first, and has had it for 0:12.');
  assert.equal(conflictWords(use('taken', 'Ilja'), 'Ilja has it.', 'Nadja', 0), 'Ilja was first, and has had it for 0:00.', 'clocks that differ');
  assert.equal(conflictWords(use('said', 'Ilja'), 'Ilja has said it.', 'Nadja', 13_000), 'Ilja was first, and said it 0:12 ago.');
  assert.equal(conflictWords(use('open'), 'That sentence is no longer true.', 'Nadja', 0), 'Not done. That sentence is no longer true.');
  assert.equal(refusedWords({ act: 'air', text: 'Hello.' }, 'Hello.', 'The relay was not reached in time.'),
    'Not done: putting on the air “Hello”. The relay was not reached in time.');
});

test('who sits at the table', () => {
  assert.deepEqual(others(['Ilja', 'Nadja', 'Suri'], 'Nadja'), ['Ilja', 'Suri']);
  const many = ['a', 'b', 'c', 'd', 'e', 'f', 'g'];
  assert.deepEqual(others(many, 'Nadja'), many, 'one more is told rather than counted');
  assert.deepEqual(others([...many, 'h'], 'Nadja'), ['a', 'b', 'c', 'd', 'e', 'f', 'and 2 more']);
  assert.equal(clean('  Na\tdja\u0007 '), 'Na dja');
  assert.equal([...clean('ő'.repeat(50))].length, NAME_MOST);
});

test('the room for a text is told when it is near', () => {
  assert.deepEqual(room('  '), { fits: false, over: false, words: '' });
  assert.deepEqual(room('x'.repeat(159)), { fits: true, over: false, words: '' });
  assert.deepEqual(room('♞'.repeat(199)), { fits: true, over: false, words: '1 character left' });
  assert.deepEqual(room('x'.repeat(200)), { fits: true, over: false, words: '0 characters left' });
  assert.deepEqual(room('x'.repeat(203)), { fits: false, over: true, words: '3 characters too many' });
});

test('changes on the air are heard, each once', () => {
  const caption = { key: 'a', text: 'A.', by: 'Ilja', at: 1 };
  assert.equal(airNews(null, caption, 'Nadja'), 'On the air, by Ilja: A.');
  assert.equal(airNews(null, caption, 'Ilja'), 'On the air, by you: A.');
  assert.equal(airNews(caption, { ...caption }, 'Nadja'), '');
  assert.equal(airNews(caption, null, 'Nadja'), 'Off the air.');
  assert.equal(airNews(null, null, 'Nadja'), '');
});

test('the shelf makes room for what is urgent, unless it was opened by hand', () => {
  const rest = { urgent: 600, dock: 460, height: 330, screen: 1194 };
  assert.equal(folds(rest, null), false);
  assert.equal(folds({ ...rest, urgent: 800 }, null), true);
  assert.equal(folds({ ...rest, height: 500 }, null), true);
  assert.equal(folds({ ...rest, urgent: 800 }, false), false);
  assert.equal(folds(rest, true), true);
});
