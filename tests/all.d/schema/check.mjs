// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// node check.mjs MODULES: validates the scenarios against the JSON Schema that editors use. Run from the
// project's root; MODULES is the folder that holds node_modules.
import fs from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';

const require = createRequire(path.resolve(process.argv[2], 'package.json'));
const Ajv = require('ajv');
const YAML = require('yaml');

const draft07 = 'http://json-schema.org/draft-07/schema#';
const good = 'tests/scenarios/good';
const bad = 'tests/scenarios/bad';
let faults = 0;

function expect(holds, text) {
  console.log(`${holds ? 'ok' : 'FAULT'}: ${text}`);
  if (!holds) ++faults;
}

// What the schema says against a file, first thing first; empty when it is valid.
function objection(validate, file) {
  const document = YAML.parseDocument(fs.readFileSync(file, 'utf8'), { uniqueKeys: true });
  if (document.errors.length > 0) return `not YAML: ${document.errors[0].message.split('\n')[0]}`;
  let value;
  try {
    value = document.toJS();
  } catch (unresolved) {  // an alias of nothing shows only here
    return `not YAML: ${unresolved.message}`;
  }
  if (validate(value)) return '';
  const { instancePath, message, params } = validate.errors[0];
  return `${instancePath || '/'} ${message} ${JSON.stringify(params)}`;
}

function yaml_files(folder) {
  return fs.readdirSync(folder).filter((name) => name.endsWith('.yaml'));
}

function names_in(list) {
  return fs.readFileSync(list, 'utf8').split('\n').map((line) => line.trim())
    .filter((line) => line !== '' && !line.startsWith('#'));
}

function check_good(validate) {
  const shipped = fs.readdirSync('scenarios').map((id) => `scenarios/${id}/scenario.yaml`)
    .filter((file) => fs.existsSync(file));
  expect(shipped.length > 0, `${shipped.length} scenarios found`);
  const small = yaml_files(good).map((name) => `${good}/${name}`);
  for (const file of [...shipped, ...small]) {
    const why = objection(validate, file);
    expect(why === '', `${file} is valid${why && `, but: ${why}`}`);
  }
}

// The list and the schema must agree, so that neither a fault it stops seeing nor a new one goes unnoticed.
function check_bad(validate) {
  const listed = new Set(names_in(`${bad}/seen_by_schema.txt`));
  const files = yaml_files(bad);
  expect(listed.size > 0, `${listed.size} of ${files.length} bad files have a fault that a schema can see`);
  for (const name of listed) expect(files.includes(name), `${bad}/${name} is there`);
  for (const name of files) {
    const why = objection(validate, `${bad}/${name}`);
    if (listed.has(name)) expect(why !== '', `${bad}/${name} is refused: ${why}`);
    else if (why !== '') expect(false, `${bad}/${name} is refused, so seen_by_schema.txt must list it: ${why}`);
  }
}

const schema = JSON.parse(fs.readFileSync('engine/procedure/scenario.schema.json', 'utf8'));
expect(schema.$schema === draft07, 'the schema is draft-07');
const validate = new Ajv({ strict: true, allowUnionTypes: true, strictRequired: false }).compile(schema);
check_good(validate);
check_bad(validate);
process.exit(faults === 0 ? 0 : 1);
