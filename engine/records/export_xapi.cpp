// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "records/export.hpp"
#include "records/review.hpp"

namespace beforehand::records {
namespace {

using nlohmann::ordered_json;

struct Verb {
  const char *id, *display;
};

// The verbs of the vocabulary that came with the specification.
Verb verb_of(const SessionRecord& r) {
  if (!r.complete) return {"http://adlnet.gov/expapi/verbs/attempted", "attempted"};
  if (r.level != drill::Level::assessed || !r.phase.empty())
    return {"http://adlnet.gov/expapi/verbs/completed", "completed"};
  if (r.verdict == scoring::Verdict::ready)
    return {"http://adlnet.gov/expapi/verbs/passed", "passed"};
  return {"http://adlnet.gov/expapi/verbs/failed", "failed"};
}

ordered_json actor(const ExportSession& s, const std::string& home, bool names) {
  ordered_json a{{"objectType", "Agent"}};
  if (names) a["name"] = s.trainee_name;
  a["account"] = {{"homePage", home + "/trainees"}, {"name", s.record.trainee}};
  return a;
}

// The activity's name, in the language its scenario is written in.
ordered_json activity(const ExportSession& s, const std::string& home) {
  const std::string language = s.procedure ? s.procedure->language : "en";
  std::string id = home + "/scenarios/" + s.record.scenario;
  if (!s.record.phase.empty()) id += "/phases/" + s.record.phase;
  return {{"objectType", "Activity"},
          {"id", id},
          {"definition",
           {{"name", {{language, s.procedure ? s.procedure->title : s.record.scenario}}},
            {"type", "http://adlnet.gov/expapi/activities/simulation"}}}};
}

ordered_json result(const SessionRecord& r, const std::string& home) {
  const std::string x = home + "/extensions/";
  ordered_json j{{"score", {{"scaled", r.total / 100}, {"raw", r.total}, {"min", 0}, {"max", 100}}},
                 {"completion", r.complete},
                 {"duration", fmt::format("PT{:.2f}S", to_seconds(r.chair_time))}};
  if (r.complete && r.level == drill::Level::assessed && r.phase.empty())
    j["success"] = r.verdict == scoring::Verdict::ready;
  j["extensions"] = {{x + "anticipation", r.anticipation},
                     {x + "idle", r.idle},
                     {x + "sequence", r.sequence},
                     {x + "verdict", scoring::word(r.verdict)},
                     {x + "clinician-wait-s", to_seconds(r.clinician_wait)},
                     {x + "requests", r.requests},
                     {x + "errors", r.errors},
                     {x + "unsafe", r.unsafe}};
  return j;
}

ordered_json context(const SessionRecord& r, const std::string& home) {
  const std::string x = home + "/extensions/";
  return {{"platform", "beforehand " + r.program},
          {"extensions",
           {{x + "level", drill::word(r.level)},
            {x + "scenario-hash", r.scenario_hash},
            {x + "seed", std::to_string(r.seed)}}}};
}

}  // namespace

std::string to_xapi(const std::vector<ExportSession>& sessions, const std::string& home,
                    bool names) {
  auto list = ordered_json::array();
  for (const auto& s : sessions) {
    const auto verb = verb_of(s.record);
    list.push_back({{"id", s.record.id},
                    {"actor", actor(s, home, names)},
                    {"verb", {{"id", verb.id}, {"display", {{"en", verb.display}}}}},
                    {"object", activity(s, home)},
                    {"result", result(s.record, home)},
                    {"context", context(s.record, home)},
                    {"timestamp", iso_text(s.record.ended)},
                    {"version", "1.0.3"}});
  }
  return list.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n";
}

}  // namespace beforehand::records
