// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records_json.hpp"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <cstdio>
#include <nlohmann/json.hpp>

namespace beforehand::command {

using nlohmann::ordered_json;

std::string moment_text(records::Moment t) {
  if (t == records::Moment{}) return {};
  return fmt::format("{:%Y-%m-%dT%H:%M:%SZ}", fmt::gmtime(std::chrono::system_clock::to_time_t(t)));
}

ordered_json to_json(const records::SessionRecord& s) {
  auto outcomes = ordered_json::array();
  for (const auto& o : s.outcomes) outcomes.push_back({{"step", o.step}, {"passed", o.passed}});
  return {{"id", s.id},
          {"trainee", s.trainee},
          {"scenario", s.scenario},
          {"scenario_hash", s.scenario_hash},
          {"program", s.program},
          {"level", drill::word(s.level)},
          {"phase", s.phase.empty() ? ordered_json() : ordered_json(s.phase)},
          {"assistant", s.assistant},
          {"seed", s.seed},
          {"started", moment_text(s.started)},
          {"ended", moment_text(s.ended)},
          {"complete", s.complete},
          {"score",
           {{"total", s.total},
            {"anticipation", s.anticipation},
            {"idle", s.idle},
            {"sequence", s.sequence},
            {"verdict", scoring::word(s.verdict)}}},
          {"chair_time_s", to_seconds(s.chair_time)},
          {"reference",
           {{"chair_time_s", to_seconds(s.reference.chair_time)}, {"proven", s.reference.proven}}},
          {"clinician_wait_s", to_seconds(s.clinician_wait)},
          {"requests", s.requests},
          {"errors", s.errors},
          {"unsafe", s.unsafe},
          {"outcomes", outcomes}};
}

static ordered_json json_of(const records::TaskRecord& task) {
  auto faults = ordered_json::array();
  for (const auto& f : task.faults) faults.push_back({{"kind", f.kind}, {"about", f.about}});
  return {{"right", task.right},
          {"of", task.of},
          {"took_s", to_seconds(task.took)},
          {"to_change", faults}};
}

ordered_json to_json(const records::Evidence& e) {
  auto needs = ordered_json::array();
  for (const auto& n : e.needs)
    needs.push_back(
        {{"step", n.step},
         {"from", n.from},
         {"need", n.need},
         {"need_s", to_seconds(n.due_at)},
         {"ready_s", n.ready_at == never ? ordered_json() : ordered_json(to_seconds(n.ready_at))},
         {"lead_s", to_seconds(n.lead())},
         {"wait_s", to_seconds(n.wait)},
         {"requested", n.requested},
         {"helped", n.helped},
         {"credit", n.credit}});
  ordered_json j{{"needs", needs}, {"recording", e.recording}};
  if (e.around.set_up) j["set_up"] = json_of(*e.around.set_up);
  if (e.around.turnover) j["turnover"] = json_of(*e.around.turnover);
  return j;
}

ordered_json to_json(const records::Summary& s) {
  auto history = ordered_json::object();
  for (const auto& h : s.history) history[h.step] = h.outcomes;
  ordered_json j{{"trainee", s.trainee},
                 {"name", s.trainee_name},
                 {"scenario", s.scenario},
                 {"sessions", s.sessions},
                 {"completed", s.completed},
                 {"assessed_passes", s.assessed_passes},
                 {"unsafe_acts", s.unsafe_acts},
                 {"last_at", moment_text(s.last_at)},
                 {"first", s.first},
                 {"last", s.last},
                 {"best", s.best},
                 {"trend_per_session", s.trend},
                 {"last_verdict", scoring::word(s.last_verdict)},
                 {"signed_off", s.signed_off}};
  if (!s.history.empty()) j["outcomes"] = history;
  return j;
}

ordered_json to_json(const records::SignOff& s) {
  ordered_json j{{"id", s.id},
                 {"trainee", s.trainee},
                 {"trainer", s.trainer},
                 {"trainer_name", s.trainer_name},
                 {"scenario", s.scenario},
                 {"scenario_hash", s.scenario_hash},
                 {"at", moment_text(s.at)},
                 {"criteria", s.criteria},
                 {"note", s.note},
                 {"stands", s.stands()}};
  if (!s.stands())
    j["revoked"] = {
        {"at", moment_text(s.revoked_at)}, {"by", s.revoked_by}, {"why", s.revoked_why}};
  return j;
}

ordered_json to_json(const records::Note& n) {
  return {{"id", n.id},
          {"trainee", n.trainee},
          {"trainer", n.trainer},
          {"session", n.session.empty() ? ordered_json() : ordered_json(n.session)},
          {"at", moment_text(n.at)},
          {"text", n.text}};
}

ordered_json to_json(const records::Person& p) {
  return {{"id", p.id},
          {"name", p.name},
          {"part", word(p.part)},
          {"added", moment_text(p.added)},
          {"has_passcode", p.locked}};
}

void print_json(const ordered_json& j) {
  fmt::print("{}\n", j.dump(2, ' ', false, ordered_json::error_handler_t::replace));
}

}  // namespace beforehand::command
