#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
# Copyright (c) 2026 the Beforehand developers
"""The same drill by other means: a SimPy 3 model of a scenario's step graph, which it reads by itself.

Clinician and assistant work with usual durations, or with durations drawn by Python's own generator from the
triangular distribution over least, usual and most; no signal comes. The clinician takes the own steps in the
file's order. Every step of the assistant is a process of its own, which waits for what must come before it, then for
the assistant's attention (the first in the file goes first) and hands; what is handed over or kept up begins at most
the offer time before its moment in a timetable without people. The chair time must be the expert's in the drill; the
mean of many with drawn durations must be the simulation's, within what chance leaves open; of long procedures, whose
moments no timetable foretells, only the first is compared.
"""
import argparse
import json
import math
import pathlib
import random
import re
import statistics
import subprocess
import sys
import tempfile
import time

import simpy
import yaml

UNITS = {"ms": 1, "s": 1000, "min": 60_000}
REACH = {"I": 0, "II": 0, "III": 500, "IV": 1500, "V": 3000}  # by motion class, as docs/scenario.md gives it
KNOWN = {"set-out", "open", "mix", "load", "pass", "place", "remove", "use", "check", "suction", "dry", "light",
         "hold", "wipe", "put-away", "work"}


def milliseconds(text):
    return round(sum(float(n) * UNITS[unit] for n, unit in re.findall(r"([\d.]+)\s*(ms|s|min)\b", text)))


def without_signals(scenario):
    """A copy in which no signal comes."""
    copy = json.loads(json.dumps(scenario))
    for signal in copy.get("signals", {}).values():
        signal["likely"] = "0 %"
    return copy


def with_usual_durations(scenario):
    """A copy in which every step takes as long as usual and no signal comes."""
    copy = without_signals(scenario)
    for step in copy["steps"]:
        if isinstance(step.get("takes"), dict):
            step["takes"] = step["takes"]["usual"]
    return copy


class NotModelled(Exception):
    """A scenario with something that this model does not know."""


class Step:
    """What takes place, with its predecessors as (step, from its start, at least so much later)."""

    def __init__(self, index, written, scenario):
        self.index, self.id = index, written["id"]
        if len(scenario["people"]) > 2:
            raise NotModelled(f"{self.id}: this model knows two people")
        first = written["by"] if isinstance(written["by"], str) else written["by"][0]
        self.clinicians = scenario["people"][first]["role"] == "clinician"
        self.verb, self.supply = written.get("does", "work"), written.get("supply")
        self.needs, self.covers = written.get("needs", []), written.get("covers", [])
        self.taker = written.get("for") if self.verb == "pass" else None
        self.hands, self.attention = written.get("hands", 1), written.get("attention", not self.covers)
        self.reach = 0 if self.covers else self.reach_to(scenario)
        takes = written.get("takes", "0 s")
        three = [takes[k] for k in ("least", "usual", "most")] if isinstance(takes, dict) else [takes] * 3
        self.least, self.usual, self.most = map(milliseconds, three)
        self.takes = self.usual + self.reach
        self.after = []
        if self.verb not in KNOWN or written.get("devices") or written.get("unless"):
            raise NotModelled(f"{self.id}: this model knows no take-back, device or 'unless'")

    def reach_to(self, scenario):
        if self.clinicians or not self.supply or self.verb == "remove":
            return 0
        supply = scenario["supplies"][self.supply]
        place = {"set-out": "stored", "put-away": "ends"}.get(self.verb, "at")
        return REACH[scenario["places"][supply[place]]["motion"]]


class Model:
    def __init__(self, scenario):
        written = [s for s in scenario["steps"] if not s.get("when")]
        self.steps = [Step(i, s, scenario) for i, s in enumerate(written)]
        self.by_id = {s.id: s for s in self.steps}
        self.offer = milliseconds(scenario.get("pacing", {}).get("offer", "10 s"))
        for step, s in zip(self.steps, written):
            self.link_as_written(step, s)
        self.link_what_is_implied()
        self.timetable = {}
        for step in self.steps:
            self.earliest(step)

    def link_as_written(self, step, written):
        for link in written.get("after", []):
            link = {"step": link} if isinstance(link, str) else link
            if link["step"] in self.by_id:  # what hangs on a signal does not take place
                step.after.append((self.by_id[link["step"]], link.get("from") == "start",
                                   milliseconds(link.get("at-least", "0 s"))))
        if written.get("for"):
            self.by_id[written["for"]].after.append((step, False, 0))
        for covered in step.covers:
            if covered in self.by_id:
                self.by_id[covered].after.append((step, True, 0))
        step.covers = [self.by_id[c] for c in step.covers if c in self.by_id]
        step.taker = self.by_id.get(step.taker)

    def link_what_is_implied(self):
        """What is done with one supply is done one after the other, in the file's order."""
        last = {}
        for step in self.steps:
            for supply in {step.supply, *step.needs} - {None}:
                if supply in last:
                    step.after.append((last[supply], False, 0))
                last[supply] = step

    def earliest(self, step):
        """Without people and hands: the longest way to this step."""
        if step.id not in self.timetable:
            ways = [self.earliest(before) + (0 if start else before.takes) + lag for before, start, lag in step.after]
            ways += [self.earliest(c) + c.takes for b, start, _ in step.after if not start for c in b.covers]
            self.timetable[step.id] = max(ways, default=0)
        return self.timetable[step.id]

    def play(self, rng=None):
        """The chair time of one drill, in milliseconds; with usual durations unless drawn."""
        return Drill(self, rng).chair_time()


class Drill:
    def __init__(self, model, rng=None):
        self.model, self.env = model, simpy.Environment()
        self.takes = [s.takes if rng is None or s.least == s.most else
                      round(rng.triangular(s.least, s.most, s.usual)) + s.reach for s in model.steps]
        self.attention = simpy.PriorityResource(self.env, capacity=1)
        self.hands = simpy.Container(self.env, capacity=2, init=2)
        self.started = [self.env.event() for _ in model.steps]
        self.ended = [self.env.event() for _ in model.steps]
        self.env.process(self.clinician())
        for step in model.steps:
            if not step.clinicians:
                self.env.process(self.cover(step) if step.covers else self.prep(step))

    def chair_time(self):
        self.env.run()
        stuck = [s.id for s, end in zip(self.model.steps, self.ended) if not end.processed]
        if stuck:
            raise SystemExit(f"the model stands still before {', '.join(stuck)}")
        return max(end.value for end in self.ended)

    def begin(self, step):
        self.started[step.index].succeed(self.env.now)

    def end(self, step):
        self.ended[step.index].succeed(self.env.now)

    def may_begin(self, step):
        links = [((self.started if start else self.ended)[before.index], lag) for before, start, lag in step.after]
        if links:
            yield simpy.AllOf(self.env, [event for event, _ in links])
        begins = max([event.value + lag for event, lag in links if lag], default=0)
        held_for = step.covers or [step.taker]
        if held_for[0]:
            begins = max(begins, min(self.model.timetable[s.id] for s in held_for) - self.model.offer - step.takes)
        if begins > self.env.now:
            yield self.env.timeout(begins - self.env.now)

    def clinician(self):
        for step in self.model.steps:
            if step.clinicians:
                yield from self.may_begin(step)
                self.begin(step)
                yield self.env.timeout(self.takes[step.index])
                self.end(step)

    def prep(self, step):
        yield from self.may_begin(step)
        turn = self.attention.request(priority=step.index) if step.attention else None
        if turn:
            yield turn
        if step.hands:
            yield self.hands.get(step.hands)
        self.begin(step)
        yield self.env.timeout(self.takes[step.index])
        self.end(step)
        if turn:
            self.attention.release(turn)
        held = 1 if step.taker else 0  # one hand holds it out, however many brought it there
        if step.hands > held:
            yield self.hands.put(step.hands - held)
        if step.taker:
            yield self.started[step.taker.index]
            yield self.hands.put(held)

    def cover(self, step):
        yield from self.may_begin(step)
        yield self.hands.get(step.hands)
        self.begin(step)
        yield simpy.AllOf(self.env, [self.ended[c.index] for c in step.covers])
        self.end(step)
        yield self.hands.put(step.hands)


def load(path):
    return yaml.safe_load(pathlib.Path(path).read_text(encoding="utf-8"))


def save(scenario, path):
    text = yaml.safe_dump(scenario, allow_unicode=True, sort_keys=False, width=1000)
    pathlib.Path(path).write_text(text, encoding="utf-8")


def drill_of_the_program(program, path):
    """The expert's chair time by the program, in milliseconds."""
    out = subprocess.run([program, "drill", path, "--assistant", "expert", "--format", "json"], check=True,
                         stdout=subprocess.PIPE)
    return round(json.loads(out.stdout)["chair_time_s"] * 1000)


def simulation_of_the_program(program, path, runs):
    """Mean chair time with the expert and its standard error, in milliseconds."""
    out = subprocess.run([program, "simulate", path, "--assistant", "expert", "--runs", str(runs), "--seed", "1000",
                          "--format", "json"], check=True, stdout=subprocess.PIPE)
    chair_time = json.loads(out.stdout)["assistants"][0]["chair_time_s"]
    return chair_time["mean"] * 1000, chair_time["deviation"] * 1000 / math.sqrt(runs)


def drills_a_second(model, seconds=0.5, rng=None):
    """By CPU time."""
    drills, start = 0, time.process_time()
    while (spent := time.process_time() - start) < seconds:
        model.play(rng)
        drills += 1
    return drills / spent


def compare_usual(program, scenario):
    """Whether both give the same chair time with usual durations."""
    usual = with_usual_durations(scenario)
    with tempfile.TemporaryDirectory() as folder:
        save(usual, f"{folder}/usual.yaml")
        theirs = drill_of_the_program(program, f"{folder}/usual.yaml")
    ours = Model(usual).play()
    print(f"{scenario['id']}: chair time {theirs} ms by the drill, {ours} ms by SimPy {simpy.__version__}")
    return abs(ours - theirs) <= 1


def compare_means(program, scenario, runs):
    """Whether the difference of the mean chair times lies within what chance leaves 99 times of 100."""
    drawn = without_signals(scenario)
    with tempfile.TemporaryDirectory() as folder:
        save(drawn, f"{folder}/drawn.yaml")
        theirs, their_error = simulation_of_the_program(program, f"{folder}/drawn.yaml", runs)
    model, rng = Model(drawn), random.Random(20)
    try:
        times = [model.play(rng) for _ in range(runs)]
    except SystemExit as standstill:  # hands held by its timetable may block each other; the program's do not
        print(f"{scenario['id']}: means not compared; {standstill}")
        return True
    ours, deviation = statistics.fmean(times), statistics.stdev(times)
    if deviation > 0.75 * model.offer:  # this model holds things out by a timetable made beforehand
        print(f"{scenario['id']}: means not compared; chair times deviate by {deviation:.0f} ms, too much for a "
              "timetable")
        return True
    our_error = deviation / math.sqrt(runs)
    allowed = 2.576 * math.hypot(their_error, our_error)
    print(f"{scenario['id']}: mean chair time of {runs} {theirs:.0f} ms by the simulation, {ours:.0f} ms by SimPy; "
          f"difference {theirs - ours:.0f} ms, allowed {allowed:.0f} ms")
    return abs(theirs - ours) <= allowed


def main():
    parser = argparse.ArgumentParser(description="Compares chair times: this model, and the program's expert.")
    parser.add_argument("scenario", nargs="+")
    parser.add_argument("--program", required=True)
    parser.add_argument("--runs", type=int, default=4000)
    options = parser.parse_args()
    same = []
    for scenario in map(load, options.scenario):
        try:
            Model(scenario)
        except NotModelled as why:
            print(f"{scenario['id']}: not compared; {why}")
            continue
        same += [compare_usual(options.program, scenario), compare_means(options.program, scenario, options.runs)]
    return 0 if same and all(same) else 1


if __name__ == "__main__":
    sys.exit(main())
