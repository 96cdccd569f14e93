// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// node check.mjs MODULES: validates scenarios, cards, materials and texts against the JSON Schemas that editors use. Run from the
// project's root; MODULES is the folder that holds node_modules.
import fs from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';

const require = createRequire(path.resolve(process.argv[2], 'package.json'));
const Ajv = require('ajv');
const YAML = require('yaml');

const draft07 = 'http://json-schema.org/draft-07/schema#';
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

function exists(file) {
  return fs.existsSync(file);
}

// The texts of a scenario stand beside it in its language's two letters; those of its cards in a folder a language.
function texts_of(folder) {
  const own = yaml_files(folder).filter((name) => name.length === 7).map((name) => `${folder}/${name}`);
  const cards = `${folder}/cards`;
  const languages = exists(cards) ? fs.readdirSync(cards).filter((name) => name.length === 2) : [];
  return [...own, ...languages.flatMap((language) =>
    yaml_files(`${cards}/${language}`).map((name) => `${cards}/${language}/${name}`))];
}

// Where the good files of each kind lie: with the scenarios that come with the program, and among the tests.
const ids = fs.readdirSync('scenarios');
const in_scenarios = (pick) => ids.flatMap((id) => exists(`scenarios/${id}/scenario.yaml`) ? pick(`scenarios/${id}`) : []);
const kinds = {
  scenario: {
    good: [...in_scenarios((folder) => [`${folder}/scenario.yaml`]),
      ...yaml_files('tests/scenarios/good').map((name) => `tests/scenarios/good/${name}`),
      ...yaml_files('tests/scenarios/doubtful').map((name) => `tests/scenarios/doubtful/${name}`)],
    bad: 'tests/scenarios/bad',
  },
  card: {
    good: in_scenarios((folder) => exists(`${folder}/cards`)
      ? yaml_files(`${folder}/cards`).map((name) => `${folder}/cards/${name}`) : []),
    bad: 'tests/scenarios/bad_cards',
  },
  materials: {
    good: yaml_files('scenarios/materials').map((name) => `scenarios/materials/${name}`),
    bad: 'tests/scenarios/bad_materials',
  },
  texts: {
    good: [...in_scenarios(texts_of), 'tests/scenarios/good/tiny_texts/es.yaml'],
    bad: 'tests/scenarios/bad_texts',
  },
};

function check_good(validate, files) {
  expect(files.length > 0, `${files.length} good files found`);
  for (const file of files) {
    const why = objection(validate, file);
    expect(why === '', `${file} is valid${why && `, but: ${why}`}`);
  }
}

// The list and the schema must agree, so that neither a fault it stops seeing nor a new one goes unnoticed.
function check_bad(validate, bad) {
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

const ajv = new Ajv({ strict: true, allowUnionTypes: true, strictRequired: false });
for (const kind of Object.keys(kinds)) {
  const schema = JSON.parse(fs.readFileSync(`engine/procedure/${kind}.schema.json`, 'utf8'));
  expect(schema.$schema === draft07, `the schema of a ${kind} is draft-07`);
  ajv.addSchema(schema);
}
for (const [kind, { good, bad }] of Object.entries(kinds)) {
  const validate = ajv.getSchema(`${kind}.schema.json`);
  check_good(validate, good);
  check_bad(validate, bad);
}
process.exit(faults === 0 ? 0 : 1);
