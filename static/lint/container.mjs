// Lints a container file: node container.mjs FILE prints what dockerfile-utils finds, a
// line each, and then every instruction it read.
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';
const require = createRequire(import.meta.url);
const { validate } = require('dockerfile-utils');
const { DockerfileParser } = require('dockerfile-ast');

const text = readFileSync(process.argv[2], 'utf8');
for (const p of validate(text)) console.log(`fault: line ${p.range.start.line + 1}: ${p.message}`);
for (const i of DockerfileParser.parse(text).getInstructions()) console.log(`${i.getKeyword()} ${i.getArgumentsContent() ?? ''}`);
