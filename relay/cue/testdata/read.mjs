// Reads what package cue writes, with readers that others wrote, and tells what they see
// as JSON: node read.mjs vtt|csv FILE, or node read.mjs labels, which takes lines of a rate,
// a frame number and 1 for drop-frame, and gives each its timecode.
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';
const require = createRequire(new URL('../../../static/lint/package.json', import.meta.url));

const readers = {
  vtt(text) {
    const { WebVTTParser } = require('webvtt-parser');
    const { cues, errors } = new WebVTTParser().parse(text, 'chapters');
    return { errors: errors.map((e) => `line ${e.line}: ${e.message}`), cues: cues.map((c) => ({ id: c.id, start: c.startTime, end: c.endTime, text: c.text })) };
  },
  csv(text) {
    const { parse } = require('csv-parse/sync');
    return parse(text, { record_delimiter: '\r\n', relax_quotes: false });
  },
  labels(text) {
    const Timecode = require('smpte-timecode');
    return text.trim().split('\n').map((line) => {
      const [rate, frame, drop] = line.split(' ');
      return new Timecode(Number(frame), Number(rate), drop === '1').toString();
    });
  },
};

const [kind, file] = process.argv.slice(2);
console.log(JSON.stringify(readers[kind](readFileSync(file ?? 0, 'utf8'))));
