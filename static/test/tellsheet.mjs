// A sheet of the tell line for tests and for people who look: every state in
// every size. ?sizes=air,wall&states=3,10&width=320&grey=on&moves=on
import { joints } from '/static/lib/telljoints.js';
import { said } from '/static/lib/tellsay.js';
import { SIZES } from '/static/lib/tellsizes.js';
import { TellLine } from '/static/lib/tellline.js';
import { costs, measure } from './tellmeasure.mjs';
import { STATES } from './tellstates.mjs';

/** Width of the lanes where each size is used. */
const WIDTHS = { air: 976, third: 976, lifted: 560, wall: 444, desk: 1280, deskSmall: 320, recap: 1096, panel: 760, phone: 320, card: 760, filter: 150 };

const asked = new URLSearchParams(location.search);
const sizes = asked.get('sizes')?.split(',') ?? Object.keys(SIZES);
const states = asked.get('states')?.split(',').map(Number) ?? STATES.map((_, i) => i);
document.body.toggleAttribute('data-grey', asked.has('grey'));

const drawn = [];
for (const i of states) {
  for (const size of sizes) {
    const [name, board, now, lostAt] = STATES[i];
    const box = document.createElement('section');
    const title = document.createElement('h2');
    const place = document.createElement('div');
    title.textContent = `${name}, ${size}`;
    box.append(title, place);
    document.body.append(box);
    box.id = `${size}-${i}`;
    const width = Number(asked.get('width')) || WIDTHS[size];
    const line = new TellLine(place, { size, width, motion: false, says: said, moves: asked.has('moves') ? joints : null });
    line.draw(board, now, lostAt);
    drawn.push({ size, name, line, root: place.firstElementChild, now });
  }
}
await document.fonts.ready;
window.measures = drawn.map(({ size, name, line, root, now }) => ({
  of: `${name}, ${size}`,
  ...measure(root, SIZES[size]),
  costs: costs(root, line, now),
  says: root.getAttribute('aria-label') ?? '',
}));
document.body.dataset.drawn = 'true';
