// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/derive.hpp"

#include <algorithm>
#include <string>
#include <utility>

#include "procedure/event_graph.hpp"
#include "procedure/hands.hpp"
#include "procedure/needs.hpp"
#include "procedure/relations.hpp"

namespace beforehand::procedure {
namespace {

constexpr std::size_t most_cycles_named = 20;

// So that deriving twice gives the same as once.
void forget_what_was_derived(Procedure& p) {
  for (Supply& supply : p.supplies) supply.needs_preparing = false;
  for (Step& step : p.steps) {
    std::erase_if(step.after, [](const Link& link) { return link.implied; });
    const auto derived = std::exchange(step.needs, {});
    for (const Need& need : derived) {
      if (need.kind != Need::Kind::supply || needs_supply(step, need.supply)) continue;
      step.needs.push_back(need);
      step.needs.back().from = step.needs.back().prepared_by = {};
    }
    step.covered_by.clear();
  }
  p.actions.clear();
}

// Where the hand must reach to begin: to where the thing is kept, goes, or lies ready. What is in
// somebody's hand or on the patient is near.
PlaceIx reached_place(const Step& step, const Supply& supply) {
  switch (step.verb) {
    case Verb::set_out:
      return supply.stored;
    case Verb::put_away:
      return supply.ends;
    case Verb::take_back:
    case Verb::remove:
      return {};
    default:
      return supply.at;
  }
}

void add_reach(const Procedure& p, Step& step) {
  step.reach = Ms{0};
  const bool from_the_assistants_seat = p.person(doer(step)).role != Role::clinician;
  if (!step.supply || step.is_cover() || !from_the_assistants_seat) return;
  if (const PlaceIx place = reached_place(step, p.supply(step.supply)))
    step.reach = reach_time(p.place(place).motion);
}

void add_actions(Procedure& p) {
  p.action_of.assign(p.steps.size(), {});
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    const Step& step = p.steps[i];
    if (step.verb == Verb::work) continue;
    auto kind = std::find_if(p.actions.begin(), p.actions.end(), [&](const ActionKind& a) {
      return a.verb == step.verb && a.supply == step.supply && a.cover == step.is_cover();
    });
    if (kind == p.actions.end())
      kind = p.actions.insert(kind, {step.verb, step.supply, step.is_cover(), {}});
    kind->steps.push_back(StepIx{i});
    p.action_of[i] = ActionIx{static_cast<std::size_t>(kind - p.actions.begin())};
  }
}

bool has_link(const Step& step, StepIx to, Anchor from) {
  return std::any_of(step.after.begin(), step.after.end(), [&](const Link& link) {
    return link.step == to && (link.from == from || link.from == Anchor::end);
  });
}

void imply(Procedure& p, StepIx first, StepIx second, Anchor from) {
  Step& step = p.steps[second.at()];
  if (first == second || has_link(step, first, from)) return;
  Link link;
  link.step = first;
  link.from = from;
  link.implied = true;
  link.mark = p.step(first).mark;
  step.after.push_back(std::move(link));
}

// A step links back over those that may not apply to the first that surely does.
void imply_supply_lives(Procedure& p) {
  for (const auto& life : lives(p)) {
    for (std::size_t i = 1; i < life.size(); ++i) {
      for (std::size_t j = i; j-- > 0;) {
        imply(p, life[j], life[i], Anchor::end);
        if (applies_whenever(p.step(life[j]), p.step(life[i]))) break;
      }
    }
  }
}

// What is stored inside another supply is taken out of it once that has been set out. Over one that
// may not take place it links back to the one before.
void imply_what_is_inside_comes_out(Procedure& p) {
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    const SupplyIx outer = comes_out_of(p, p.steps[i]);
    for (std::size_t j = i; outer && j-- > 0;) {
      if (p.steps[j].verb != Verb::set_out || p.steps[j].supply != outer) continue;
      imply(p, StepIx{j}, StepIx{i}, Anchor::end);
      if (applies_whenever(p.steps[j], p.steps[i])) break;
    }
  }
}

void imply_what_is_written_elsewhere(Procedure& p) {
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    const StepIx ix{i};
    const Step& step = p.steps[i];
    if (step.serves) imply(p, ix, step.serves, Anchor::end);
    if (prepares(step.verb) && step.supply) p.supplies[step.supply.at()].needs_preparing = true;
    for (const StepIx covered : step.covers) {
      p.steps[covered.at()].covered_by.push_back(ix);
      imply(p, ix, covered, Anchor::start);
    }
  }
}

// Where a predecessor may not apply, what had to come before it still has to: the order must not
// hang on a step that is skipped. Needs the topological order.
void imply_order_over_skipped_steps(Procedure& p) {
  std::vector<bool> linked;  // by event
  for (const StepIx ix : p.topological) {
    const std::size_t links = p.step(ix).after.size();
    linked.assign(2 * p.steps.size(), false);
    for (const Link& link : p.step(ix).after)
      linked[EventGraph::event(link.step, link.from)] = true;
    for (std::size_t i = 0; i < links; ++i) {
      const Step& skipped = p.step(p.step(ix).after[i].step);
      if (applies_whenever(skipped, p.step(ix))) continue;
      for (const Link& earlier : skipped.after) {
        const auto event = EventGraph::event(earlier.step, earlier.from);
        if (linked[event] || applies_whenever(skipped, p.step(earlier.step))) continue;
        linked[event] = true;
        imply(p, earlier.step, ix, earlier.from);
      }
    }
  }
}

bool covers(const Step& step, StepIx other) {
  return std::find(step.covers.begin(), step.covers.end(), other) != step.covers.end();
}

bool brings(const Step& first, const Procedure& p, const Step& second) {
  const SupplyIx outer = comes_out_of(p, second);
  return outer && first.verb == Verb::set_out && first.supply == outer;
}

bool is_of_a_supply_life(const Procedure& p, const EventGraph::Edge& edge) {
  const StepIx to = EventGraph::step(edge.to);
  const Step& first = p.step(EventGraph::step(edge.from));
  return edge.link && edge.link->implied && !covers(first, to) && first.serves != to &&
         !brings(first, p, p.step(to));
}

// "etch comes after rinse (line 40)", for one edge of a cycle; empty for a step's own duration.
Said in_words(const Procedure& p, const EventGraph::Edge& edge) {
  const StepIx from = EventGraph::step(edge.from), to = EventGraph::step(edge.to);
  if (from == to) return {};
  const Step &first = p.step(from), &second = p.step(to);
  if (!edge.link)
    return say("{} lasts until {} ends ({})", second.id, first.id, line_in(p, second.mark));
  const char* reason = "";
  if (is_of_a_supply_life(p, edge))
    reason = ", which handles the same supply earlier in the file";
  else if (edge.link->implied)
    reason = covers(first, to)          ? ", which covers it"
             : brings(first, p, second) ? ", which brings what it lies in"
                                        : ", which is for it";
  return say("{} comes after {}{} ({})", second.id, first.id, reason, line_in(p, edge.link->mark));
}

Problem cycle_problem(const Procedure& p, const std::vector<EventGraph::Edge>& cycle) {
  std::vector<Said> words;
  Mark mark = p.step(EventGraph::step(cycle.front().to)).mark;
  bool place_is_written = false, hangs_on_file_order = false;
  for (auto edge = cycle.rbegin(); edge != cycle.rend(); ++edge) {
    auto text = in_words(p, *edge);
    if (!text.empty()) words.push_back(std::move(text));
    hangs_on_file_order = hangs_on_file_order || is_of_a_supply_life(p, *edge);
    if (!place_is_written && edge->link && !edge->link->implied) {
      mark = edge->link->mark;
      place_is_written = true;
    }
  }
  return {Problem::Kind::error, mark,
          say("these steps wait for each other: {}; {}", listed(words),
              hangs_on_file_order ? "move one of them in the file, or take a link away"
                                  : "take one of these away")};
}

// Gives the cycles, or fills in the order relation when there is none.
std::vector<Problem> put_in_order(Procedure& p) {
  p.topological.clear();
  p.before.clear();
  EventGraph graph(p);
  std::vector<Problem> problems;
  while (graph.has_cycle() && problems.size() < most_cycles_named)
    problems.push_back(cycle_problem(p, graph.take_cycle()));
  if (!problems.empty()) return problems;
  p.topological = graph.topological();
  p.before = graph.before();
  return problems;
}

}  // namespace

std::vector<Problem> derive(Procedure& p) {
  forget_what_was_derived(p);
  for (Step& step : p.steps) add_reach(p, step);
  imply_what_is_written_elsewhere(p);
  imply_supply_lives(p);
  imply_what_is_inside_comes_out(p);
  add_actions(p);
  auto problems = put_in_order(p);
  if (!problems.empty()) return problems;

  std::vector<Waiting> waiting = find_who_waits_for_a_take_back(p, problems);
  for (const auto& [take_back, step] : waiting) imply(p, take_back, step, Anchor::end);
  if (!waiting.empty()) {
    auto cycles = put_in_order(p);
    if (!cycles.empty()) return cycles;
  }
  imply_order_over_skipped_steps(p);
  fill_in_needs(p, problems);
  check_hands_at_once(p, problems);
  sort_by_place(problems);
  return problems;
}

}  // namespace beforehand::procedure
