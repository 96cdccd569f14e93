# SPDX-License-Identifier: MIT
# Copyright (c) 2026 the Beforehand developers
"""Runs the benchmarks and the SimPy model, and prints a table of what they took and in which ratio."""
import json
import os
import pathlib
import random
import re
import subprocess
import sys
import tempfile
import time

import simpy_model

SECONDS = {"ns": 1e-9, "us": 1e-6, "ms": 1e-3, "s": 1.0}
TIMES = 9  # each is run so often, in turns; the least counts, since others may be using the processor


def measure(folder, scenario, only=".", times=TIMES):
    """CPU seconds of one turn, by benchmark."""
    with tempfile.NamedTemporaryFile(suffix=".json") as out:
        subprocess.run([f"{folder}/bench", scenario, f"--benchmark_filter={only}", "--benchmark_min_time=0.1",
                        f"--benchmark_repetitions={times}", "--benchmark_enable_random_interleaving=true",
                        f"--benchmark_out={out.name}", "--benchmark_out_format=json"],
                       check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        runs = json.load(out)["benchmarks"]
    least = {}
    for run in runs:
        if run["run_type"] == "iteration":
            seconds = run["cpu_time"] * SECONDS[run["time_unit"]]
            least[run["run_name"]] = min(seconds, least.get(run["run_name"], 1e9))
    return least


def beside_simpy(folder, path):
    """Drills a second of ours and of SimPy's, on a copy with usual durations and no signals."""
    scenario = simpy_model.with_usual_durations(simpy_model.load(path))
    with tempfile.TemporaryDirectory() as scratch:
        copy = f"{scratch}/usual.yaml"
        simpy_model.save(scenario, copy)
        theirs = simpy_model.drill_of_the_program(f"{folder}/beforehand", copy)
        model = simpy_model.Model(scenario)
        print(f"chair time with usual durations: {theirs} ms by the drill, {model.play()} ms by SimPy")
        if abs(theirs - model.play()) > 1:
            raise SystemExit("the model is not of the same drill, so its speed says nothing")
        rounds = [(1 / measure(folder, copy, "^drill_scored$", 1)["drill_scored"], simpy_model.drills_a_second(model))
                  for _ in range(TIMES)]
    return [max(speeds) for speeds in zip(*rounds)]


def simulated(folder, path, threads, runs=20000):
    """Seconds on the clock and of the processor for so many runs, the least of five."""
    def once():
        clock, before = time.monotonic(), os.times()
        subprocess.run([f"{folder}/beforehand", "simulate", path, "--assistant", "expert", "--runs", str(runs),
                        "--threads", str(threads), "--format", "json"], check=True, stdout=subprocess.DEVNULL)
        after = os.times()
        return (time.monotonic() - clock, after.children_user + after.children_system
                - before.children_user - before.children_system)
    return [min(seconds) / runs for seconds in zip(*[once() for _ in range(5)])]


def simulations_beside_simpy(folder, path):
    """Runs a second and core of ours and of SimPy's with drawn durations and no signals."""
    scenario = simpy_model.without_signals(simpy_model.load(path))
    with tempfile.TemporaryDirectory() as scratch:
        simpy_model.save(scenario, f"{scratch}/drawn.yaml")
        ours = 1 / simulated(folder, f"{scratch}/drawn.yaml", 1)[1]
    model, rng = simpy_model.Model(scenario), random.Random(1)
    return ours, max(simpy_model.drills_a_second(model, 0.5, rng) for _ in range(5))


def processor():
    found = re.search(r"^model name\s*:\s*(.*)$", pathlib.Path("/proc/cpuinfo").read_text(), re.MULTILINE)
    return found[1] if found else "unknown"


def main():
    folder, path = sys.argv[1:]
    t = measure(folder, path)
    print(f"processor: {processor()}; CPU time on one core, the least of {TIMES}\n{path}")
    ours, simpys = beside_simpy(folder, path)
    drill, yaml = t["drill_scored"], t["yaml_alone"]
    one, two = simulated(folder, path, 1), simulated(folder, path, 2)
    drawn, simpy_drawn = simulations_beside_simpy(folder, path)
    rows = [
        ("complete drills a second, scored", f"{1 / drill:.0f}", ""),
        ("  the same with usual durations, beside SimPy 3", f"{ours:.0f} : {simpys:.0f}", f"{ours / simpys:.1f}"),
        ("  of it the drill", f"{t['drill_alone'] * 1e6:.1f} us", f"{t['drill_alone'] / drill:.2f}"),
        ("  scoring alone", f"{t['scoring_alone'] * 1e6:.1f} us", f"{t['scoring_alone'] / drill:.2f}"),
        ("  windows, one call", f"{t['windows'] * 1e6:.2f} us", f"{t['windows'] / drill:.3f}"),
        ("recording to text, beside the scored drill", f"{t['recording_to_text'] * 1e6:.0f} us",
         f"{t['recording_to_text'] / drill:.1f}"),
        ("recording from text, beside the scored drill", f"{t['recording_from_text'] * 1e6:.0f} us",
         f"{t['recording_from_text'] / drill:.1f}"),
        ("scenario read and checked, beside yaml-cpp alone",
         f"{t['read_and_check'] * 1e3:.2f} : {yaml * 1e3:.2f} ms", f"{t['read_and_check'] / yaml:.2f}"),
        ("report of a trainee with 200 sessions, from the store", f"{t['report_of_200_sessions'] * 1e3:.0f} ms", ""),
        ("simulate, runs a second of processor time", f"{1 / one[1]:.0f}", ""),
        ("  with drawn durations and no signals, beside SimPy 3", f"{drawn:.0f} : {simpy_drawn:.0f}",
         f"{drawn / simpy_drawn:.1f}"),
        ("  on the clock, two threads beside one", f"{1 / two[0]:.0f} : {1 / one[0]:.0f}", f"{one[0] / two[0]:.2f}"),
    ]
    print(f"\n{'':56}{'measured':>18}{'ratio':>9}")
    for what, figure, ratio in rows:
        print(f"{what:56}{figure:>18}{ratio:>9}")


if __name__ == "__main__":
    main()
