#!/usr/bin/env bash
# The scenarios against the JSON Schema for editors, by ajv, an independent validator (needs Node.js).
set -euo pipefail

modules=build/node-schema
mkdir -p "$modules"
if ! cmp -s tests/all.d/schema/package.json "$modules/package.json" || [ ! -d "$modules/node_modules/ajv" ]; then
  cp tests/all.d/schema/package.json "$modules/"
  npm install --prefix "$modules" --no-package-lock --no-audit --no-fund --ignore-scripts
fi
exec node tests/all.d/schema/check.mjs "$modules"
