// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// node statements.mjs MODULES FILE: each xAPI statement of the file, by a validator of another's.
import fs from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';

const require = createRequire(path.resolve(process.argv[2], 'package.json'));
const { default: validate } = require('@learninglocker/xapi-validation');
const statements = JSON.parse(fs.readFileSync(process.argv[3], 'utf8'));
let faults = 0;

function expect(holds, text) {
  if (!holds) ++faults;
  if (!holds || !text.startsWith('statement')) console.log(`${holds ? 'ok' : 'FAULT'}: ${text}`);
}

expect(statements.length > 0, `${statements.length} statements`);
for (const [i, statement] of statements.entries()) {
  const warnings = validate(statement);
  expect(warnings.length === 0, `statement ${i}: ${warnings.map((w) => JSON.stringify(w)).join(', ')}`);
}
const { actor, ...headless } = statements[0];
expect(validate(headless).length > 0, 'a statement without an actor is refused');
expect(validate({ ...statements[0], id: 'no-uuid' }).length > 0, 'one with a bad id is refused');
process.exit(faults === 0 ? 0 : 1);
