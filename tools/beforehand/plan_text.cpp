// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "commands.hpp"
#include "picture/plan_chart.hpp"
#include "plan_output.hpp"
#include "planned.hpp"
#include "procedure/title.hpp"

namespace beforehand::command {
namespace {

std::string section(const char* title, const std::vector<std::string>& lines) {
  if (lines.empty()) return {};
  auto out = fmt::format("\n{}\n", title);
  for (const auto& line : lines) out += fmt::format("  {}\n", line);
  return out;
}

std::string what_happens(const PlanOutput& o) {
  std::vector<std::string> signals;
  for (const auto s : o.request.happened) signals.push_back(o.procedure.signal(s).title);
  auto out = procedure::full_title(o.procedure);
  if (o.request.phase) out += fmt::format(", {}", o.procedure.phases[o.request.phase.at()].title);
  if (!signals.empty()) out += fmt::format("; if this happens: {}", list_text(signals));
  return out;
}

std::vector<std::string> steps_of(const PlanOutput& o) {
  std::size_t wide = 0;
  for (const auto& person : o.procedure.people) wide = std::max(wide, person.name.size());
  std::vector<std::string> lines;
  for (const auto i : timing::in_order(o.plan)) {
    const auto& s = o.plan.steps[i.at()];
    lines.push_back(fmt::format("{:>6} {:>6}  {:>6} .. {:>6}  {:<{}}  {}", clock_text(s.start),
                                clock_text(s.end), clock_text(s.earliest), clock_text(s.latest),
                                o.procedure.person(s.by).name, wide, o.procedure.step(i).title));
  }
  return lines;
}

std::vector<std::string> shares_of(const PlanOutput& o) {
  std::vector<std::string> lines;
  const auto chart = picture::plan_chart(o.procedure, o.plan, o.explanation);
  for (const auto& lane : chart.lanes) {
    const auto& s = lane.shares;
    if (s.sum() <= 0) continue;
    lines.push_back(
        fmt::format("{}: {:.0f} % work, {:.0f} % cover, {:.0f} % waiting, {:.0f} % "
                    "standing by",
                    lane.name, s.work, s.cover, s.waiting, std::abs(s.standby)));
  }
  return lines;
}

}  // namespace

std::string plan_text(const PlanOutput& o) {
  const auto& p = o.procedure;
  auto out = fmt::format("{}\n{}\n", what_happens(o), headline(o.plan));
  out += section(o.exact_windows
                     ? "The plan (start, end; may start from .. to in one of the best plans)"
                     : "The plan (start, end; may start from .. to in this order of steps)",
                 steps_of(o));
  out += section("What the chair time hangs on", timing::chain_in_words(p, o.plan, o.explanation));
  out += section("How the time of each is used", shares_of(o));
  out += section("Who has time, and who waits", timing::gaps_in_words(p, o.explanation));
  out += section("What would change it", timing::advice_in_words(p, o.explanation));
  return out;
}

}  // namespace beforehand::command
