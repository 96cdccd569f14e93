// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/improve.hpp"

#include <algorithm>
#include <optional>
#include <stdexcept>

#include "procedure/edit.hpp"
#include "procedure/reader.hpp"
#include "timing/feasible.hpp"

namespace beforehand::study {
namespace {

/// One change tried out: nothing when the scenario does not allow it.
std::optional<Improvement> tried(const Planned& now, const Change& change,
                                 const ImproveRequest& request) {
  std::optional<Planned> then;
  try {
    then = planned(applied(now.yaml, change), request.plan_request());
  } catch (const std::runtime_error&) {  // an EditError too: it cannot be written down
    return std::nullopt;
  }
  CompareRequest compare_request;
  compare_request.runs = request.runs;
  compare_request.runs.threads = 1;
  compare_request.runs.watch = {};
  const auto c = compare(now.procedure, then->procedure, request.habit, compare_request);
  return Improvement{change,
                     now.plan.chair_time - then->plan.chair_time,
                     now.plan.proven() && then->plan.proven(),
                     now.plan.clinician_wait - then->plan.clinician_wait,
                     c[Measure::chair_time],
                     c[Measure::clinician_wait]};
}

bool gains(const Improvement& i) {
  const bool calmer = i.plan_gain >= Ms{0} && i.plan_wait_gain > Ms{0};
  return i.plan_gain > Ms{0} || i.chair_time.b_less_a.mean_sure.high < 0 || calmer;
}

}  // namespace

Planned planned(std::string yaml, const timing::PlanRequest& request) {
  auto reading = procedure::read(yaml);
  if (!reading.procedure)
    throw std::runtime_error(reading.problems.empty() ? "cannot be read"
                                                      : reading.problems.front().message.english());
  Planned out{std::move(yaml), std::move(*reading.procedure), {}};
  out.plan = timing::plan(out.procedure, request);
  if (!out.plan.found()) throw std::runtime_error("no plan was found");
  const auto faults = timing::violations(out.procedure, request.happened, out.plan);
  if (!faults.empty()) throw std::runtime_error(faults.front());
  return out;
}

std::string applied(std::string yaml, const std::vector<Change>& changes) {
  for (const auto& change : changes) yaml = applied(std::move(yaml), change);
  return yaml;
}

Improvements improve(const Planned& now, const ImproveRequest& request) {
  const auto changes = possible_changes(now.procedure);
  std::vector<std::optional<Improvement>> results(changes.size());
  const auto hire = [&]() -> Work {
    return [&](std::size_t i) { results[i] = tried(now, changes[i], request); };
  };
  Improvements out;
  out.possible = changes.size();
  out.looked_at = share_out(changes.size(), request.runs.threads, hire, request.runs.watch);
  for (std::size_t i = 0; i < out.looked_at; ++i) {
    if (!results[i])
      ++out.unsound;
    else if (gains(*results[i]))
      out.found.push_back(std::move(*results[i]));
  }
  std::stable_sort(
      out.found.begin(), out.found.end(), [](const Improvement& a, const Improvement& b) {
        return a.gain_s() != b.gain_s() ? a.gain_s() > b.gain_s() : a.plan_gain > b.plan_gain;
      });
  return out;
}

}  // namespace beforehand::study
