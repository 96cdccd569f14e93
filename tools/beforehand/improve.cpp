// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/improve.hpp"

#include <fmt/format.h>

#include <cstdio>
#include <nlohmann/json.hpp>

#include "commands.hpp"
#include "language.hpp"
#include "picture/report_study.hpp"
#include "picture/study_charts.hpp"
#include "planned.hpp"
#include "procedure/with_card.hpp"
#include "study_json.hpp"
#include "watching.hpp"

namespace beforehand::command {
namespace {

using nlohmann::ordered_json;
using study::Improvement;
using study::Improvements;
using study::Planned;

/// What was taken of the list, and what it saves together.
struct Taken {
  Planned planned;
  study::Comparison comparison;
};

study::Runs runs_of(const ImproveOptions& o, const std::string& what) {
  return {o.runs, o.seed, o.threads, watch(what)};
}

timing::PlanRequest plan_request(const ImproveOptions& o) {
  timing::PlanRequest request;
  limit(request, o.time_limit_s);
  return request;
}

Planned load_planned(const ImproveOptions& o) {
  const auto files = files_of(o.file);
  load_scenario(o.file);  // says what is wrong, with its place
  try {
    return study::planned(procedure::load_as_one(files), plan_request(o));
  } catch (const std::runtime_error& e) {
    throw Failure(input_at_fault, fmt::format("{}: {}", o.file, e.what()));
  }
}

Taken take(const Planned& now, const Improvements& all, const ImproveOptions& o) {
  std::vector<study::Change> changes;
  for (const auto number : o.accept) {
    if (number > all.found.size())
      throw Failure(wrong_usage, fmt::format("there is no number {}; the list has {}", number,
                                             all.found.size()));
    changes.push_back(all.found[number - 1].change);
  }
  try {
    Taken taken{study::planned(study::applied(now.yaml, changes), plan_request(o)), {}};
    study::CompareRequest request;
    request.runs = runs_of(o, "pairs of runs");
    taken.comparison = study::compare(now.procedure, taken.planned.procedure,
                                      required_habit(o.assistant), request);
    return taken;
  } catch (const std::runtime_error& e) {
    throw Failure(input_at_fault, fmt::format("these do not go together: {}", e.what()));
  }
}

ordered_json figures(const study::Difference& d) {
  return {
      {"saves_s", -d.b_less_a.mean},
      {"saves_95_s", ordered_json::array({-d.b_less_a.mean_sure.high, -d.b_less_a.mean_sure.low})},
      {"better", d.b_better}};
}

ordered_json as_json(const Planned& now, const Improvements& all, const ImproveOptions& o) {
  ordered_json j{
      {"scenario", now.procedure.id},
      {"assistant", o.assistant},
      {"seed", o.seed},
      {"runs", o.runs},
      {"plan", {{"chair_time_s", to_seconds(now.plan.chair_time)}, {"proven", now.plan.proven()}}},
      {"possible", all.possible},
      {"looked_at", all.looked_at},
      {"unsound", all.unsound},
      {"improvements", ordered_json::array()}};
  for (const auto& i : all.found) {
    auto edits = ordered_json::array();
    for (const auto& e : i.change.edits) {
      ordered_json value;
      if (!e.value.empty()) value = e.value;
      edits.push_back({{"path", e.path}, {"value", value}});
    }
    j["improvements"].push_back({{"kind", word(i.change.kind)},
                                 {"words", i.change.words},
                                 {"caution", i.change.caution},
                                 {"plan_saves_s", to_seconds(i.plan_gain)},
                                 {"plan_proven", i.plan_proven},
                                 {"plan_wait_saves_s", to_seconds(i.plan_wait_gain)},
                                 {"chair_time", figures(i.chair_time)},
                                 {"clinician_wait", figures(i.clinician_wait)},
                                 {"edits", edits}});
  }
  return j;
}

void print_text(const Planned& now, const Improvements& all, const ImproveOptions& o) {
  fmt::print("{}\nplan: {}\n", now.procedure.title, headline(now.plan));
  fmt::print("{} of {} changes looked at; {} leave no sound scenario{}\n\n", all.looked_at,
             all.possible, all.unsound, all.looked_at < all.possible ? " (stopped)" : "");
  if (all.found.empty()) fmt::print("None of them saves chair time.\n");
  if (!all.found.empty())
    fmt::print("     in the plan   played by {} ({} runs each, 95 % sure)\n", o.assistant, o.runs);
  int n = 0;
  for (const auto& i : all.found) {
    const auto& d = i.chair_time.b_less_a;
    fmt::print("{:>3}  {:>8.1f} s{}  {:>8.2f} -+ {:.2f} s   {}\n", ++n, to_seconds(i.plan_gain),
               i.plan_proven ? " " : "?", i.gain_s(), d.mean_sure.half_width(), i.change.words);
    fmt::print("{:38}{}\n", "", i.change.caution);
  }
  fmt::print(
      "\nEach is looked at alone, its plan verified. Try it out before it meets a patient; "
      "materials' own\ninstructions, the law and the clinician's direction come first.\n");
}

void print_taken(const Planned& now, const Taken& taken, const ImproveOptions& o) {
  const auto& d = taken.comparison[study::Measure::chair_time];
  fmt::print(
      "\nWritten to {}\n  plan: {}\n  together they save {:.1f} s in the plan and "
      "{:.2f} -+ {:.2f} s played by {}\n",
      o.write, headline(taken.planned.plan),
      to_seconds(now.plan.chair_time - taken.planned.plan.chair_time), -d.b_less_a.mean,
      d.b_less_a.mean_sure.half_width(), o.assistant);
}

}  // namespace

int improve(const ImproveOptions& o) {
  study::ImproveRequest request;
  request.habit = required_habit(o.assistant);
  const auto now = load_planned(o);
  request.runs = runs_of(o, "changes");
  request.plan_request = [&] { return plan_request(o); };
  const auto all = study::improve(now, request);
  clear_progress();
  std::optional<Taken> taken;
  if (!o.accept.empty()) {
    taken = take(now, all, o);
    clear_progress();
    write_new(o.write, taken->planned.yaml);
  }
  if (o.format == "html" || o.format == "svg") {
    fmt::print("{}", o.format == "svg" ? picture::gains_svg(all, now.procedure.title)
                                       : picture::improvement_report(now, all, o.assistant,
                                                                     texts_in(o.language)));
    return done;
  }
  if (o.format == "text") {
    print_text(now, all, o);
    if (taken) print_taken(now, *taken, o);
    return done;
  }
  auto j = as_json(now, all, o);
  if (taken)
    j["taken"] = {
        {"numbers", o.accept},
        {"file", o.write},
        {"plan_saves_s", to_seconds(now.plan.chair_time - taken->planned.plan.chair_time)},
        {"chair_time", figures(taken->comparison[study::Measure::chair_time])}};
  fmt::print("{}\n", j.dump(2));
  return done;
}

}  // namespace beforehand::command
