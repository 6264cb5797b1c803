// Prints the outlines of the pages' pieces, and what their marks draw: node dump.mjs <marks.json
import { readFileSync } from 'node:fs';
import '../../../static/test/fakedom.mjs';
import { shapeOf } from '../../../static/lib/pointing.js';
import { OUTLINES } from '../../../static/pieces/pieces.js';

const marks = JSON.parse(readFileSync(0, 'utf8')).map(({ Kind, From, To, turned, manned }) => shapeOf({ kind: Kind, from: From, to: To }, turned, manned));
console.log(JSON.stringify({ outlines: OUTLINES, marks }));
