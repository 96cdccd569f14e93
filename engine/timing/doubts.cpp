// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/doubts.hpp"

#include <algorithm>
#include <set>

#include "base/text.hpp"
#include "procedure/relations.hpp"
#include "timing/unfolded.hpp"

namespace beforehand::timing {

namespace {

using Says = Unfolded::Says;

std::string quoted(const Procedure& p, StepIx i) { return "\"" + p.step(i).title + "\""; }

Said at_line(const Procedure& p, StepIx i) {
  return say("({})", procedure::line_in(p, p.step(i).mark));
}

// The rules of a circle as clauses of a sentence; what only says that time does not run backwards
// is left out.
Said clause(const Procedure& p, const Says& s) {
  const auto from = quoted(p, s.from), to = quoted(p, s.to);
  const auto* anchor = s.from_start ? "start" : "end";
  switch (s.kind) {
    case Says::Kind::duration:
      return p.step(s.to).is_cover()
                 ? Said()
                 : say("{} takes at least {} {}", to, duration_text(s.bound), at_line(p, s.to));
    case Says::Kind::link:
      return s.bound == Ms{0}
                 ? say("{} comes after the {} of {} {}", to, anchor, from, at_line(p, s.to))
                 : say("{} comes at least {} after the {} of {} {}", to, duration_text(s.bound),
                       anchor, from, at_line(p, s.to));
    case Says::Kind::within:
      return say("{} must start within {} after the {} of {} {}", to, duration_text(s.bound),
                 anchor, from, at_line(p, s.to));
    case Says::Kind::need:
      return say("{} needs {} {}", to, from, at_line(p, s.to));
    case Says::Kind::working_time:
      return say(
          "what {} makes ready keeps for {} only and must be used up by the end of "
          "{} {}",
          from, duration_text(s.bound), to, at_line(p, s.to));
    case Says::Kind::cover:
      return say("{} goes on until {} ends {}", from, to, at_line(p, s.from));
    default:
      return "";
  }
}

std::vector<Said> clauses(const Procedure& p, const Unfolded& u,
                          const std::vector<std::size_t>& constraints) {
  std::vector<Said> all;
  for (const auto number : constraints) {
    auto text = clause(p, u.says[number]);
    const bool known = std::find(all.begin(), all.end(), text) != all.end();
    if (!text.empty() && !known) all.push_back(std::move(text));
  }
  return all;
}

std::optional<Problem> contradiction(const Procedure& p, const std::vector<SignalIx>& happened) {
  const Unfolded u(p, happened, Unfolded::Durations::free);
  TemporalNetwork network(u.network.points);
  for (const auto& c : u.network.constraints) network.add(c);
  const auto circle = network.conflict();
  if (!circle) return std::nullopt;
  const auto bounds = [&](std::size_t number) {
    const auto kind = u.says[number].kind;
    return kind == Says::Kind::within || kind == Says::Kind::working_time;
  };
  // The circle runs against time, from what may take so long at most back to where it began.
  auto in_time = *circle;
  std::reverse(in_time.begin(), in_time.end());
  std::rotate(in_time.begin(), std::find_if(in_time.begin(), in_time.end(), bounds), in_time.end());
  std::vector<std::size_t> most, least;
  for (const auto number : in_time) (bounds(number) ? most : least).push_back(number);
  Problem problem;
  problem.mark = p.step(u.says[most.empty() ? least.front() : most.front()].to).mark;
  const auto rules = listed(clauses(p, u, most)), times = listed(clauses(p, u, least));
  problem.message =
      rules.empty() ? say("cannot be kept together: {}", times) : say("{}, but {}", rules, times);
  return problem;
}

// What the clinician's varying durations can break: the first rule of the circle that may be broken
// without any other becoming impossible.
std::size_t breakable(const Unfolded& u, const std::vector<std::size_t>& constraints) {
  for (const auto wanted : {Says::Kind::at_once, Says::Kind::working_time, Says::Kind::within}) {
    for (const auto number : constraints) {
      if (u.says[number].kind == wanted) return number;
    }
  }
  return u.says.size();
}

Said varying(const Procedure& p, const Unfolded& u, const std::vector<std::size_t>& contingent) {
  std::vector<Said> all;
  for (const auto number : contingent) {
    const auto& takes = p.step(u.contingent[number]).takes;
    all.push_back(say("{} may take {} to {}", quoted(p, u.contingent[number]),
                      duration_text(takes.least), duration_text(takes.most)));
  }
  return listed(all);
}

Problem lateness(const Procedure& p, const Unfolded& u, const Controllability& found,
                 const Says& broken) {
  Problem problem;
  problem.kind = Problem::Kind::warning;
  problem.mark = p.step(broken.to).mark;
  const auto because = varying(p, u, found.contingent);
  switch (broken.kind) {
    case Says::Kind::at_once:
      problem.message = say("{} can have to wait though the assistant does everything right: {}",
                            quoted(p, broken.to), because);
      break;
    case Says::Kind::working_time:
      problem.message =
          say("what {} makes ready can have set before the end of {} though "
              "the assistant does everything right: {}",
              quoted(p, broken.from), quoted(p, broken.to), because);
      break;
    default:
      problem.message =
          say("{} can come more than {} after the {} of {} though everybody "
              "does everything right: {}",
              quoted(p, broken.to), duration_text(broken.bound),
              broken.from_start ? "start" : "end", quoted(p, broken.from), because);
  }
  const auto rules = clauses(p, u, found.constraints);
  if (!rules.empty()) problem.message = say("{}; {}", problem.message, listed(rules));
  return problem;
}

// One warning a broken rule; the rule is then dropped, to see the next.
void add_lateness(const Procedure& p, const std::vector<SignalIx>& happened,
                  std::vector<Problem>& problems) {
  Unfolded u(p, happened, Unfolded::Durations::contingent);
  for (;;) {
    const auto found = dynamic_controllability(u.network);
    const auto broken = breakable(u, found.constraints);
    if (found.controllable || broken == u.says.size() || found.contingent.empty()) return;
    problems.push_back(lateness(p, u, found, u.says[broken]));
    u.network.constraints[broken] = {0, 0, -never, never};
  }
}

std::vector<std::vector<SignalIx>> cases(const Procedure& p) {
  std::vector<std::vector<SignalIx>> all{{}};
  std::vector<SignalIx> every;
  for (std::size_t i = 0; i < p.signals.size(); ++i) {
    all.push_back({SignalIx{i}});
    every.push_back(SignalIx{i});
  }
  if (every.size() > 1) all.push_back(every);
  return all;
}

}  // namespace

std::vector<Problem> doubts(const Procedure& p) {
  std::vector<Problem> problems;
  for (const auto& happened : cases(p)) {
    if (auto problem = contradiction(p, happened)) {
      problems.push_back(std::move(*problem));
    } else {
      add_lateness(p, happened, problems);
    }
  }
  // The same in several cases is said once.
  std::set<std::pair<Mark, std::string>> known;
  std::erase_if(problems, [&](const Problem& x) {
    return !known.insert({x.mark, x.message.english()}).second;
  });
  sort_by_place(problems);
  return problems;
}

}  // namespace beforehand::timing
