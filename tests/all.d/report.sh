#!/usr/bin/env bash
# A demo class's reports in a headless browser under axe-core, and its xAPI statements by a validator of another's
# (needs Node.js and Chromium). Pictures and prints are left in build/reports to be looked at.
set -euo pipefail

program=build/test/bin/beforehand
modules=build/node-report
mkdir -p "$modules"
if ! cmp -s tests/all.d/report/package.json "$modules/package.json" || [ ! -d "$modules/node_modules/axe-core" ]; then
  cp tests/all.d/report/package.json "$modules/"
  npm install --prefix "$modules" --no-package-lock --no-audit --no-fund --ignore-scripts
fi
out=build/reports
rm -rf "$out"
mkdir -p "$out"
export BEFOREHAND_STORE=$PWD/$out/demo.db BEFOREHAND_PASSCODE=demo-class XDG_DATA_HOME=$PWD/$out
"$program" records demo --store "$BEFOREHAND_STORE" > "$out/demo.txt"
trainer=(--trainer "Robin Demo")
"$program" report "${trainer[@]}" --output "$out/class.html"
who=$("$program" records list "${trainer[@]}" --format json | node -pe 'JSON.parse(fs.readFileSync(0)).trainees[0].trainee')
"$program" report "${trainer[@]}" --trainee "$who" --output "$out/trainee.html"
session=$("$program" records list "${trainer[@]}" --trainee "$who" --format json |
  node -pe 'JSON.parse(fs.readFileSync(0)).sessions[0].id')
"$program" report "${trainer[@]}" --session "$session" --output "$out/session.html"
"$program" report "${trainer[@]}" --trainee "$who" --language es --output "$out/alumno.html"
"$program" export --to xapi "${trainer[@]}" --names --output "$out/statements.json"
node tests/all.d/report/statements.mjs "$modules" "$out/statements.json"
# Studies are pages of the same kind.
core=scenarios/core-build-up/scenario.yaml
"$program" simulate "$core" --assistant expert --assistant late:3 --runs 200 --format html > "$out/simulate.html"
"$program" compare scenarios/class-ii-composite/scenario.yaml scenarios/class-ii-composite/scenario.yaml+one-bottle \
  --runs 200 --format html > "$out/compare.html"
"$program" improve "$core" --runs 100 --format html > "$out/improve.html"
printf 'person,step,start,end\nclinician,read-radiograph,0,24\nassistant,rub-hands,2,23\nclinician,announce,30,44\n' > "$out/case.csv"
"$program" observe --import "$out/case.csv" --scenario "$core" --format html > "$out/observe.html"
exec node tests/all.d/report/page.mjs "$modules" "$(command -v chromium)" "$out" \
  "$out"/{class,trainee,session,alumno,simulate,compare,improve,observe}.html
