#!/usr/bin/env bash
# The same recordings and scores, byte for byte, from g++ -O2 and clang++ -O0 (needs clang).
set -euo pipefail

cmake --preset clang
cmake --build build/clang --target beforehand --parallel "$(nproc)"

one=build/test/bin/beforehand other=build/clang/bin/beforehand
out=$(mktemp -d)
trap 'rm -rf "$out"' EXIT
drills=0 differences=0

# play PROGRAM NAME ARGUMENT...: leaves NAME.jsonl and NAME.json in $out
play() {
  local program=$1 name=$2
  shift 2
  rm -f "$out/$name.jsonl"
  "$program" drill "$@" --recording "$out/$name.jsonl" --format json >"$out/$name.json"
  [ -s "$out/$name.jsonl" ] && [ -s "$out/$name.json" ]
}

for scenario in scenarios/*/scenario.yaml; do
  for bot in expert late:5 forgetful:30 shuffled:30 eager asked absent; do
    for seed in 1 2; do
      drills=$((drills + 1))
      play "$one" one "$scenario" --assistant "$bot" --seed "$seed"
      play "$other" other "$scenario" --assistant "$bot" --seed "$seed"
      for kind in jsonl json; do
        cmp "$out/one.$kind" "$out/other.$kind" && continue
        differences=$((differences + 1))
        echo "$scenario, $bot, seed $seed: the .$kind differs, first here:"
        diff "$out/one.$kind" "$out/other.$kind" | sed -n '1,6p' || true
      done
    done
  done
done
echo "$drills drills, $differences differences"
[ "$drills" -gt 0 ] && [ "$differences" = 0 ]
