// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

#include "base/text.hpp"
#include "commands.hpp"
#include "plan_output.hpp"
#include "planned.hpp"
#include "watching.hpp"

namespace beforehand::command {
namespace {

using procedure::Procedure;
using timing::Plan;
using timing::PlanRequest;

std::vector<SignalIx> signals_from(const Procedure& p, const std::vector<std::string>& ids) {
  std::vector<SignalIx> signals;
  for (const auto& id : ids) {
    const auto found =
        std::find_if(p.signals.begin(), p.signals.end(), [&](const auto& s) { return s.id == id; });
    if (found == p.signals.end()) {
      std::vector<std::string> known;
      for (const auto& s : p.signals) known.push_back(s.id);
      throw Failure(wrong_usage, known.empty() ? fmt::format("{} has no signals", p.id)
                                               : fmt::format("no signal '{}' in {}; it has {}", id,
                                                             p.id, list_text(known)));
    }
    signals.emplace_back(static_cast<std::size_t>(found - p.signals.begin()));
  }
  return signals;
}

// One line on a terminal that shows how far the search is; nothing elsewhere.
void show_progress(PlanRequest& request) {
  if (!on_terminal()) return;
  request.progress = [](Ms bound, std::optional<Ms> best) {
    fmt::print(stderr, "\r\033[Kchair time: not less than {}, {} (Ctrl-C keeps the best so far)",
               duration_text(bound),
               best ? fmt::format("best so far {}", duration_text(*best)) : "none found yet");
    std::fflush(stderr);
  };
}

// From the windows that this plan's order leaves to those of all best plans.
void widen(PlanOutput& out) {
  const auto windows = timing::exact_windows(out.procedure, out.request, out.plan);
  if (!windows) return;
  out.exact_windows = true;
  for (std::size_t i = 0; i < windows->size(); ++i) {
    out.plan.steps[i].earliest = (*windows)[i].earliest;
    out.plan.steps[i].latest = (*windows)[i].latest;
  }
}

}  // namespace

int plan(const PlanOptions& o) {
  const auto p = load_scenario(o.file, o.layers);
  PlanRequest request;
  request.happened = signals_from(p, o.signals);
  if (!o.phase.empty()) request.phase = find_phase(p, o.phase);
  limit(request, o.time_limit_s);
  show_progress(request);
  const auto found = timing::plan(p, request);
  clear_progress();
  require_plan(p, request, found);
  PlanOutput out{p, request, found, timing::explain(p, request, found), false};
  widen(out);
  fmt::print("{}", o.format == "json"  ? plan_json(out)
                   : o.format == "svg" ? plan_svg(out)
                                       : plan_text(out));
  return done;
}

}  // namespace beforehand::command
