// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <cstdio>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <optional>

#include "base/text.hpp"
#include "chart_svg.hpp"
#include "commands.hpp"
#include "language.hpp"
#include "picture/case_chart.hpp"
#include "picture/report_study.hpp"
#include "procedure/edit.hpp"
#include "procedure/texts.hpp"
#include "study/case_log.hpp"
#include "study/observed_durations.hpp"
#include "study_json.hpp"
#include "timing/pert.hpp"

namespace beforehand::command {
namespace {

using nlohmann::ordered_json;
using procedure::Procedure;
using study::CaseFigures;

/// What was timed, and the protocol beside it.
struct Study {
  std::optional<Procedure> protocol;
  std::vector<Procedure> in_other_words;  // the protocol in every language
  std::vector<std::string> names;
  std::vector<CaseFigures> cases;
  std::vector<study::ObservedStep> steps;
};

// A table, or the log that the window writes while a case is timed.
study::CaseReading read_any(const std::string& text, const std::string& name) {
  if (!study::is_case_log(text)) return study::read_case(text, name);
  study::CaseReading reading;
  const auto log = study::CaseLog::parse(text, reading.problems);
  reading.timed = log.timed(log.last(), name);
  return reading;
}

study::TimedCase load_case(const std::string& path) {
  const auto text = load_file(path);
  auto reading = read_any(text, std::filesystem::path(path).stem().string());
  if (!reading.problems.empty()) fmt::print(stderr, "{}", print(reading.problems, path, text));
  if (has_errors(reading.problems))
    throw Failure(input_at_fault, path + " has errors and is not read; see above");
  return std::move(reading.timed);
}

// Names that the protocol does not know are most often slips of the pen.
void tell_unknown(const std::string& path, const CaseFigures& c, const Study& study) {
  const auto& p = *study.protocol;
  std::vector<std::string> titles;
  for (const auto& in : study.in_other_words)
    for (const auto& s : in.steps) titles.push_back(s.title);
  for (std::size_t i = 0; i < p.steps.size(); ++i) titles.push_back(p.steps[i].id);
  for (const auto i : c.extra) {
    const auto near = nearest(c.work[i].label, titles);
    fmt::print(stderr, "{}: \"{}\" is no step of {}{}\n", path, c.work[i].label, p.id,
               near ? fmt::format("; did you mean \"{}\"?", *near) : "");
  }
  for (std::size_t i = c.people_known; i < c.lanes.size(); ++i)
    fmt::print(stderr, "{}: \"{}\" is no person of {}\n", path, c.lanes[i], p.id);
}

Study load(const ObserveOptions& o) {
  Study s;
  if (!o.scenario.empty()) {
    s.protocol = load_scenario(o.scenario);
    s.in_other_words = procedure::in_every_language(files_of(o.scenario));
  }
  const Procedure* p = s.protocol ? &*s.protocol : nullptr;
  for (const auto& path : o.cases) {
    const auto timed = load_case(path);
    s.names.push_back(timed.name);
    s.cases.push_back(study::figures(timed, p, s.in_other_words));
    if (p != nullptr) tell_unknown(path, s.cases.back(), s);
  }
  if (p != nullptr) s.steps = study::observed(s.cases, s.names, *p);
  return s;
}

ordered_json time_json(const CaseFigures& c) {
  auto all = ordered_json::object();
  for (std::size_t i = 0; i < c.lanes.size(); ++i) {
    const auto& t = c.time[i];
    all[c.lanes[i]] = {{"work_s", to_seconds(t.work)},
                       {"cover_s", to_seconds(t.cover)},
                       {"waiting_s", to_seconds(t.waiting)},
                       {"standby_s", to_seconds(t.standby)},
                       {"utilisation", t.utilisation()}};
  }
  return all;
}

ordered_json labels(const CaseFigures& c, const std::vector<std::size_t>& which) {
  auto list = ordered_json::array();
  for (const auto i : which)
    list.push_back({{"step", c.work[i].label}, {"at_s", to_seconds(c.work[i].start)}});
  return list;
}

ordered_json order_json(const CaseFigures& c, const Procedure& p) {
  ordered_json omitted = ordered_json::array(), lags = ordered_json::array();
  for (const auto s : c.omitted) omitted.push_back(p.step(s).id);
  for (const auto& l : c.lags)
    lags.push_back({{"step", p.step(l.step).id},
                    {"after", p.step(l.before).id},
                    {"off_s", to_seconds(l.off)}});
  return {{"actions", c.order.actions},
          {"steps", c.order.steps},
          {"kept", c.order.kept},
          {"cost", c.order.cost},
          {"fitness", c.order.fitness},
          {"out_of_order", labels(c, c.out_of_order)},
          {"repeated", labels(c, c.repeated)},
          {"extra", labels(c, c.extra)},
          {"omitted", omitted},
          {"lags", lags}};
}

ordered_json waits_json(const CaseFigures& c) {
  auto list = ordered_json::array();
  for (const auto& a : c.apart)
    if (a.waiting)
      list.push_back({{"who", c.lanes[a.lane]},
                      {"from_s", to_seconds(a.from)},
                      {"to_s", to_seconds(a.to)},
                      {"for", a.for_what}});
  return list;
}

ordered_json step_json(const study::ObservedStep& o, const Procedure& p) {
  auto seen = ordered_json::array();
  for (const auto& d : o.seen)
    seen.push_back({{"case", d.in_case}, {"takes_s", to_seconds(d.takes)}, {"outlier", d.outlier}});
  const auto spread = timing::spread_of(o.estimate);
  return {{"step", p.step(o.step).id},
          {"least_s", to_seconds(o.estimate.least)},
          {"usual_s", to_seconds(o.estimate.usual)},
          {"most_s", to_seconds(o.estimate.most)},
          {"usual_between_s", interval_json(o.usual_sure_s)},
          {"confidence", o.usual_confidence},
          {"next_within", o.next_within},
          {"three_point_mean_s", to_seconds(spread.mean)},
          {"seen", seen}};
}

ordered_json as_json(const Study& s) {
  ordered_json j{{"cases", ordered_json::array()}};
  if (s.protocol) j["scenario"] = s.protocol->id;
  for (std::size_t i = 0; i < s.cases.size(); ++i) {
    const auto& c = s.cases[i];
    ordered_json one{{"case", s.names[i]},
                     {"chair_time_s", to_seconds(c.chair_time)},
                     {"both_idle_s", to_seconds(c.both_idle)},
                     {"time", time_json(c)},
                     {"waits", waits_json(c)}};
    if (c.checked) one["order"] = order_json(c, *s.protocol);
    j["cases"].push_back(one);
  }
  if (s.protocol) {
    j["steps"] = ordered_json::array();
    for (const auto& o : s.steps) j["steps"].push_back(step_json(o, *s.protocol));
  }
  return j;
}

void print_order(const CaseFigures& c, const Procedure& p) {
  fmt::print("  {} of {} in an order the protocol allows, of {} steps ({:.0f} %)\n", c.order.kept,
             c.order.actions, c.order.steps, 100 * c.order.fitness);
  const auto tell = [&](const char* what, const std::vector<std::size_t>& which) {
    for (const auto i : which)
      fmt::print("    {:>6}  {}: {}\n", clock_text(c.work[i].start), what, c.work[i].label);
  };
  tell("out of order", c.out_of_order);
  tell("repeated", c.repeated);
  tell("not in the protocol", c.extra);
  for (const auto s : c.omitted) fmt::print("            omitted: {}\n", p.step(s).title);
  for (const auto& l : c.lags)
    fmt::print("            {} too {} after \"{}\": {}\n",
               duration_text(l.off < Ms{0} ? -l.off : l.off), l.off < Ms{0} ? "soon" : "late",
               p.step(l.before).title, p.step(l.step).title);
}

void print_case(const Study& s, std::size_t index) {
  const auto& c = s.cases[index];
  fmt::print("{}: chair time {}, nobody at work for {}\n", s.names[index], clock_text(c.chair_time),
             duration_text(c.both_idle));
  for (std::size_t i = 0; i < c.lanes.size(); ++i) {
    const auto& t = c.time[i];
    fmt::print(
        "  {:<20} work {:>7.1f} s  cover {:>6.1f} s  waiting {:>6.1f} s  standing by {:>6.1f} s"
        "  busy {:>3.0f} %\n",
        c.lanes[i], to_seconds(t.work), to_seconds(t.cover), to_seconds(t.waiting),
        to_seconds(t.standby), 100 * t.utilisation());
  }
  for (const auto& a : c.apart)
    if (a.waiting)
      fmt::print("    {:>6}  {} waited {} for \"{}\"\n", clock_text(a.from), c.lanes[a.lane],
                 duration_text(a.to - a.from), a.for_what);
  if (c.checked) print_order(c, *s.protocol);
  fmt::print("\n");
}

void print_steps(const Study& s) {
  fmt::print("How long the steps took (s)\n  {:>7}{:>8}{:>8}{:>6}   {:<26}{}\n", "least", "usual",
             "most", "seen", "usual lies between", "next within least..most");
  for (const auto& o : s.steps) {
    const auto sure = o.seen.size() < 2
                          ? std::string("?")
                          : fmt::format("{:.1f} and {:.1f} ({:.0f} %)", o.usual_sure_s.low,
                                        o.usual_sure_s.high, 100 * o.usual_confidence);
    fmt::print("  {:>7.1f}{:>8.1f}{:>8.1f}{:>6}   {:<26}{:>3.0f} %   {}\n",
               to_seconds(o.estimate.least), to_seconds(o.estimate.usual),
               to_seconds(o.estimate.most), o.seen.size(), sure, 100 * o.next_within,
               s.protocol->step(o.step).title);
    for (const auto& d : o.seen)
      if (d.outlier)
        fmt::print("{:>31}   far out: {:.1f} s in {}\n", "", to_seconds(d.takes), d.in_case);
  }
}

void print_svg(const Study& s) {
  std::vector<picture::ActivityChart> charts;
  for (std::size_t i = 0; i < s.cases.size(); ++i)
    charts.push_back(picture::case_chart(s.cases[i], s.names[i]));
  fmt::print("{}", charts_svg(charts, "Timed cases",
                              fmt::format("Multiple-activity charts of {}", list_text(s.names))));
}

std::string page(const Study& s, const ObserveOptions& o) {
  const auto protocol =
      s.protocol ? std::optional(told_in(o.language, *s.protocol, o.scenario)) : std::nullopt;
  return picture::observation_report(s.cases, s.names, protocol ? &*protocol : nullptr, s.steps,
                                     texts_in(o.language));
}

}  // namespace

int observe(const ObserveOptions& o) {
  const auto s = load(o);
  if (!o.write.empty()) try {
      const auto origin =
          s.cases.size() == 1 ? "1 case timed" : fmt::format("{} cases timed", s.cases.size());
      write_new(o.write, study::with_observed(load_file(o.scenario), *s.protocol, s.steps, origin));
    } catch (const procedure::EditError& e) {
      throw Failure(input_at_fault, fmt::format("{}: {}", o.scenario, e.what()));
    }
  if (o.format == "json") {
    fmt::print("{}\n", as_json(s).dump(2));
  } else if (o.format == "svg") {
    print_svg(s);
  } else if (o.format == "html") {
    fmt::print("{}", page(s, o));
  } else {
    for (std::size_t i = 0; i < s.cases.size(); ++i) print_case(s, i);
    if (!s.steps.empty()) print_steps(s);
    if (!o.write.empty()) fmt::print("\nWritten to {}\n", o.write);
  }
  return done;
}

}  // namespace beforehand::command
