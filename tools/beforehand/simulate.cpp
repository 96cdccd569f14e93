// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/simulation.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <nlohmann/json.hpp>

#include "commands.hpp"
#include "language.hpp"
#include "picture/report_study.hpp"
#include "picture/study_charts.hpp"
#include "picture/svg_canvas.hpp"
#include "study_json.hpp"
#include "watching.hpp"

namespace beforehand::command {
namespace {

using nlohmann::ordered_json;
using procedure::Procedure;
using study::Measure;
using study::Simulation;

using Played = picture::Simulated;

// What is likely to go wrong, step by step worse; each kind at two strengths.
const std::vector<std::string> ladder{"expert",       "late:1",       "late:3",      "late:6",
                                      "forgetful:10", "forgetful:30", "shuffled:10", "shuffled:30",
                                      "eager",        "asked",        "absent"};

ordered_json waiting(const Procedure& p, const Simulation& s) {
  auto list = ordered_json::array();
  const auto runs = static_cast<double>(s.outcomes.size());
  for (const auto& w : s.waiting)
    list.push_back({{"step", p.step(w.step).id},
                    {"waits_for", p.step(w.from).id},
                    {"of", p.person(p.step(w.from).by.front()).id},
                    {"arose", static_cast<double>(w.arose) / runs},
                    {"waited", static_cast<double>(w.waited) / runs},
                    {"asked", static_cast<double>(w.asked) / runs},
                    {"mean_wait_s", to_seconds(w.wait) / runs}});
  return list;
}

ordered_json as_json(const Procedure& p, const Played& played) {
  const auto& s = played.simulation;
  ordered_json j{
      {"assistant", played.assistant}, {"runs", s.outcomes.size()}, {"runs_wanted", s.wanted}};
  for (const auto m : study::measures) j[std::string(key(m))] = summary_json(s.summary(m));
  j["waiting"] = waiting(p, s);
  return j;
}

std::string figures(const Simulation& s) {
  std::string out = fmt::format("  {:<17} {:>18} {:>9} {:>9} {:>9} {:>9} {:>9}\n", "",
                                "mean (95 % sure)", "least", "5 %", "median", "95 %", "most");
  for (const auto m : study::measures) {
    const auto v = s.summary(m);
    const auto mean = fmt::format("{:.2f} -+ {:.2f}", v.mean, v.mean_sure.half_width());
    out += fmt::format("  {:<17} {:>18} {:>9.1f} {:>9.1f} {:>9.1f} {:>9.1f} {:>9.1f}{}\n", word(m),
                       mean, v.least, v.quantiles.front().value, v.median().value,
                       v.quantiles.back().value, v.most, unit(m));
  }
  return out;
}

std::string who_waits(const Procedure& p, Simulation s) {
  std::stable_sort(s.waiting.begin(), s.waiting.end(),
                   [](const auto& a, const auto& b) { return a.wait > b.wait; });
  const auto runs = static_cast<double>(s.outcomes.size());
  std::string out;
  for (const auto& w : s.waiting) {
    if (w.waited == 0) break;
    out += fmt::format(
        "  {:>6.2f} s  in {:>3.0f} % of the runs, asked in {:>3.0f} %   \"{}\" for \"{}\"\n",
        to_seconds(w.wait) / runs, 100 * static_cast<double>(w.waited) / runs,
        100 * static_cast<double>(w.asked) / runs, p.step(w.step).title, p.step(w.from).title);
  }
  return out.empty() ? "The clinician waits for nothing.\n"
                     : "Where the clinician waits (mean of all runs)\n" + out;
}

std::string as_text(const Procedure& p, const Played& played, std::uint64_t seed) {
  const auto& s = played.simulation;
  auto out = fmt::format(
      "\nAssisted by {}: {} runs, seeds {} to {}{}\n", played.assistant, s.outcomes.size(), seed,
      seed + s.outcomes.size() - 1,
      s.outcomes.size() < s.wanted ? fmt::format(" (stopped; {} were asked for)", s.wanted) : "");
  return out + figures(s) + who_waits(p, s);
}

std::string ladder_text(const std::vector<Played>& all) {
  auto out = fmt::format(
      "\nWith the same clinicians, mean of the runs\n  {:<14}{:>8}{:>12}{:>10}{:>10}{:>10}\n",
      "assistant", "total", "chair time", "waits", "idle", "requests");
  for (const auto& played : all) {
    const auto mean = [&](Measure m) { return played.simulation.summary(m).mean; };
    out += fmt::format("  {:<14}{:>8.1f}{:>10.1f} s{:>8.1f} s{:>8.1f} s{:>10.2f}\n",
                       played.assistant, mean(Measure::total), mean(Measure::chair_time),
                       mean(Measure::clinician_wait), mean(Measure::idle), mean(Measure::requests));
  }
  return out;
}

// The chair time of every assistant, on one scale.
std::string as_svg(const Procedure& p, const std::vector<Played>& all) {
  const picture::Theme theme;
  picture::SpreadChart chart;
  for (const auto& played : all)
    chart.rows.push_back(picture::spread_row(played.assistant,
                                             played.simulation.summary(Measure::chair_time), " s"));
  const double width = 1120,
               height = picture::spread_height(picture::SvgCanvas(1, 1, ""), chart, theme, width);
  picture::SvgCanvas canvas(
      width, height, "Chair time: " + p.title,
      "Least to most, middle nine tenths, middle half and median of the runs");
  picture::draw_spread(canvas, chart, theme, {0, 0, width, height});
  return canvas.str();
}

// The best total first; those stopped before their first run stay away.
std::vector<Played> in_order(std::vector<Played> all) {
  std::stable_sort(all.begin(), all.end(), [](const Played& a, const Played& b) {
    return a.simulation.summary(Measure::total).mean > b.simulation.summary(Measure::total).mean;
  });
  return all;
}

std::vector<Played> play(const Procedure& p, const SimulateOptions& o) {
  std::vector<Played> all;
  for (const auto& assistant : o.ladder ? ladder : o.assistants) {
    const auto habit = required_habit(assistant);
    if (interrupted()) continue;
    const study::Runs runs{o.runs, o.seed, o.threads, watch("runs by " + assistant)};
    all.push_back({assistant, study::simulate(p, habit, runs)});
    clear_progress();
    if (all.back().simulation.outcomes.empty()) all.pop_back();
  }
  if (all.empty()) throw Failure(environment_at_fault, "stopped before the first runs were done");
  return all;
}

}  // namespace

int simulate(const SimulateOptions& o) {
  for (const auto& assistant : o.assistants) required_habit(assistant);
  const auto p = load_scenario(o.file, o.layers);
  const auto all = play(p, o);
  if (o.format == "json") {
    ordered_json j{{"scenario", p.id},
                   {"card", p.card},
                   {"seed", o.seed},
                   {"assistants", ordered_json::array()}};
    for (const auto& played : all) j["assistants"].push_back(as_json(p, played));
    fmt::print("{}\n", j.dump(2));
    return done;
  }
  if (o.format == "svg" || o.format == "html") {
    fmt::print("{}", o.format == "svg"
                         ? as_svg(p, all)
                         : picture::simulation_report(told_in(o.language, p, o.file, o.layers), all,
                                                      o.seed, texts_in(o.language)));
    return done;
  }
  fmt::print("{}", title_lines(p));
  if (all.size() > 1) fmt::print("{}", ladder_text(in_order(all)));
  if (!o.ladder)
    for (const auto& played : all) fmt::print("{}", as_text(p, played, o.seed));
  return done;
}

}  // namespace beforehand::command
