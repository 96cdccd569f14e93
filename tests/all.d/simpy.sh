#!/usr/bin/env bash
# The expert's chair time, and the mean of many, against a SimPy 3 model of the same step graphs (needs Python with SimPy and PyYAML).
set -euo pipefail

exec /usr/bin/python3 tools/bench/simpy_model.py --program build/test/bin/beforehand scenarios/*/scenario.yaml
