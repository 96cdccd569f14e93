// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "score_json.hpp"

#include <nlohmann/json.hpp>

#include "scoring/debrief.hpp"
#include "team.hpp"

namespace beforehand::command {
namespace {

using nlohmann::ordered_json;
using procedure::Procedure;
using scoring::Score;

ordered_json seconds_or_null(Ms t) {
  return t == never ? ordered_json() : ordered_json(to_seconds(t));
}

ordered_json id_or_null(const std::string& id) {
  return id.empty() ? ordered_json() : ordered_json(id);
}

ordered_json step_id(const Procedure& p, StepIx s) {
  return s ? ordered_json(p.step(s).id) : ordered_json();
}

ordered_json step_ids(const Procedure& p, const std::vector<StepIx>& steps) {
  auto ids = ordered_json::array();
  for (const auto s : steps) ids.push_back(p.step(s).id);
  return ids;
}

std::string need_id(const Procedure& p, const scoring::NeedScore& n) {
  const auto& need = p.step(n.step).needs[n.need];
  return p.step(n.step).id + "/" + (need.supply ? p.supply(need.supply).id : p.step(need.from).id);
}

ordered_json needs(const Procedure& p, const Score& s) {
  auto list = ordered_json::array();
  for (const auto& n : s.needs) {
    list.push_back({{"id", need_id(p, n)},
                    {"step", p.step(n.step).id},
                    {"need_s", to_seconds(n.due_at)},
                    {"ready_s", seconds_or_null(n.ready_at)},
                    {"lead_s", to_seconds(n.lead())},
                    {"wait_s", to_seconds(n.wait)},
                    {"requested", n.requested},
                    {"helped", n.helped},
                    {"credit", n.credit}});
  }
  return list;
}

ordered_json time(const Procedure& p, const Score& s) {
  auto all = ordered_json::object();
  for (std::size_t i = 0; i < s.time.size(); ++i) {
    const auto& t = s.time[i];
    all[p.people[i].id] = {{"work_s", to_seconds(t.work)},
                           {"cover_s", to_seconds(t.cover)},
                           {"waiting_s", to_seconds(t.waiting)},
                           {"standby_s", to_seconds(t.standby)},
                           {"avoidable_idle_s", to_seconds(t.avoidable)},
                           {"utilisation", t.utilisation()}};
  }
  return all;
}

ordered_json errors(const Procedure& p, const Score& s) {
  auto list = ordered_json::array();
  for (const auto& e : s.errors) {
    list.push_back({{"kind", scoring::word(e.kind)},
                    {"step", step_id(p, e.step)},
                    {"at_s", to_seconds(e.at)},
                    {"severity", procedure::word(e.severity)},
                    {"what", e.what},
                    {"why", e.why},
                    {"instead", e.instead},
                    {"followed_by", step_ids(p, e.followed_by)}});
  }
  return list;
}

ordered_json quantiles(const scoring::Quantiles& q) {
  return {{"p10", to_seconds(q.p10)}, {"median", to_seconds(q.median)}, {"p90", to_seconds(q.p90)}};
}

ordered_json signals(const Procedure& p, const drill::Session& session) {
  auto ids = ordered_json::array();
  for (const auto s : scoring::signals_shown(session)) ids.push_back(p.signal(s).id);
  return ids;
}

ordered_json debrief(const Procedure& p, const scoring::Debrief& d) {
  auto change = ordered_json::array();
  for (const auto& c : d.change) {
    change.push_back({{"change", c.change},
                      {"kind", scoring::word(c.kind)},
                      {"times", c.times},
                      {"points", c.points},
                      {"first_s", to_seconds(c.first)},
                      {"step", step_id(p, c.step)},
                      {"example", c.example},
                      {"why", c.why},
                      {"instead", c.instead}});
  }
  return {{"well", d.well}, {"change", std::move(change)}};
}

}  // namespace

std::string score_json(const Procedure& p, const drill::Session& session, const Score& s) {
  ordered_json j{
      {"scenario", session.scenario},
      {"card", id_or_null(p.card)},
      {"materials", id_or_null(p.materials)},
      {"seed", session.setup.seed},
      {"level", drill::word(session.setup.level)},
      {"assistant", session.setup.assistant},
      {"complete", session.complete()},
      {"signals", signals(p, session)},
      {"chair_time_s", to_seconds(s.chair_time)},
      {"reference",
       {{"chair_time_s", to_seconds(s.reference_chair_time)}, {"proven", s.reference_proven}}},
      {"score",
       {{"total", s.total},
        {"anticipation", s.anticipation},
        {"idle", s.idle},
        {"sequence", s.sequence},
        {"verdict", scoring::word(s.verdict)}}},
      {"anticipation_ratio", s.anticipation_ratio},
      {"inconvenience", s.inconvenience},
      {"requests", s.requests},
      {"request_time_s", to_seconds(scoring::request_time(s))},
      {"lead_s", quantiles(scoring::leads(s))},
      {"wait_s", quantiles(scoring::waits(s))},
      {"clinician_wait_s", to_seconds(s.clinician_wait)},
      {"both_idle_s", to_seconds(s.both_idle)},
      {"needs", needs(p, s)},
      {"time", time(p, s)},
      {"order",
       {{"actions", s.order.actions},
        {"steps", s.order.steps},
        {"kept", s.order.kept},
        {"cost", s.order.cost},
        {"fitness", s.order.fitness}}},
      {"errors", errors(p, s)},
      {"debrief", debrief(p, scoring::debrief(p, s))}};
  if (study::is_rehearsal(session)) j["team"] = team_json(p, study::team_debrief(p, session));
  return j.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n";
}

}  // namespace beforehand::command
