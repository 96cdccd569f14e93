// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/lag_checks.hpp"

#include <algorithm>
#include <string>

#include "procedure/relations.hpp"

namespace beforehand::procedure {
namespace {

using Event = EventGraph::Event;

// The steps that take place in every case in which both of these do.
std::vector<bool> taking_place(const Procedure& p, const Step& a, const Step& b) {
  Step both;
  for (const Step* step : {&a, &b}) {
    both.when.insert(both.when.end(), step->when.begin(), step->when.end());
    both.unless.insert(both.unless.end(), step->unless.begin(), step->unless.end());
  }
  std::vector<bool> counts(p.steps.size());
  for (std::size_t i = 0; i < counts.size(); ++i) counts[i] = applies_whenever(p.steps[i], both);
  return counts;
}

// "blot (10 s, line 40) and 15 s after etch (line 38)": what takes time on the way to an event.
Said way_in_words(const Procedure& p, const EventGraph::Ways& ways, Event to) {
  std::vector<Said> parts;
  for (const auto* edge = ways.last[to]; edge; edge = ways.last[edge->from]) {
    if (edge->lag == Ms{0}) continue;
    const Step& step = p.step(EventGraph::step(edge->from));
    parts.push_back(
        edge->link ? say("{} from {}", duration_text(edge->lag), named(p, step))
                   : say("{} ({}, line {})", step.id, duration_text(edge->lag), step.mark.line));
  }
  std::reverse(parts.begin(), parts.end());
  return listed(parts);
}

void check_link(const Procedure& p, const EventGraph& graph, StepIx ix, const Link& link,
                std::vector<Problem>& problems) {
  if (link.at_most == never) return;
  const Step &step = p.step(ix), &other = p.step(link.step);
  const auto ways =
      graph.longest_from(EventGraph::event(link.step, link.from), taking_place(p, step, other));
  const Event to = EventGraph::start(ix);
  if (!ways.reaches(to) || ways.length[to] <= link.at_most) return;
  problems.push_back(
      {Problem::Kind::error, link.mark,
       say("{} should start within {} of the {} of {}, but what must come between takes at "
           "least {}: {}",
           step.id, duration_text(link.at_most), word(link.from), named(p, other),
           duration_text(ways.length[to]), way_in_words(p, ways, to))});
}

bool uses(const Step& step, SupplyIx supply) {
  if (needs_supply(step, supply)) return true;
  switch (step.verb) {
    case Verb::place:
    case Verb::use:
    case Verb::dry:
    case Verb::light:
    case Verb::hold:
      return true;
    default:
      return false;
  }
}

void check_use(const Procedure& p, const EventGraph& graph, const Supply& supply, StepIx prepared,
               StepIx used, std::vector<Problem>& problems) {
  const Step &first = p.step(prepared), &last = p.step(used);
  const auto ways = graph.longest_from(EventGraph::end(prepared), taking_place(p, first, last));
  const Event to = EventGraph::end(used);
  if (!ways.reaches(to) || ways.length[to] <= supply.working_time) return;
  problems.push_back(
      {Problem::Kind::error, last.mark,
       say("{} has {} {} after {}, but {} cannot end sooner than {} after it: {}; where it only "
           "has to "
           "be in its place by then, let what follows be a step of its own",
           supply.id, supply.sets_as, duration_text(supply.working_time), named(p, first), last.id,
           duration_text(ways.length[to]), way_in_words(p, ways, to))});
}

void check_working_time(const Procedure& p, const EventGraph& graph, SupplyIx supply,
                        const std::vector<StepIx>& life, std::vector<Problem>& problems) {
  if (p.supply(supply).working_time == never) return;
  StepIx prepared;
  for (const StepIx ix : life) {
    const Step& step = p.step(ix);
    if (prepares(step.verb) && step.supply == supply)
      prepared = ix;
    else if (prepared && uses(step, supply) && can_both_apply(step, p.step(prepared)))
      check_use(p, graph, p.supply(supply), prepared, ix, problems);
  }
}

}  // namespace

void check_lags(const Procedure& p, const EventGraph& graph, std::vector<Problem>& problems) {
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    for (const Link& link : p.steps[i].after) check_link(p, graph, StepIx{i}, link, problems);
  }
  const auto all_lives = lives(p);
  for (std::size_t i = 0; i < all_lives.size(); ++i)
    check_working_time(p, graph, SupplyIx{i}, all_lives[i], problems);
}

}  // namespace beforehand::procedure
