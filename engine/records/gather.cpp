// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/gather.hpp"

#include <algorithm>

#include "drill/recording.hpp"
#include "procedure/bundle.hpp"

namespace beforehand::records {
namespace {

constexpr int all = 1'000'000;

bool stands_for(const std::vector<SignOff>& sign_offs, const std::string& scenario) {
  return std::any_of(sign_offs.begin(), sign_offs.end(),
                     [&](const SignOff& s) { return s.scenario == scenario && s.stands(); });
}

}  // namespace

const procedure::Procedure* Library::version(const std::string& hash) {
  const auto known = read_.find(hash);
  if (known != read_.end()) return known->second.get();
  auto reading = procedure::read_bundle(store_.scenario(hash).text);
  auto& place = read_[hash];
  if (reading.procedure) {
    auto& p = *reading.procedure;
    place = std::make_unique<procedure::Procedure>(spoken_ ? spoken_(std::move(p)) : std::move(p));
  }
  return place.get();
}

TraineeFile trainee_file(const Store& store, Library& library, const Person& trainee) {
  TraineeFile file;
  file.trainee = trainee;
  file.now = store.now();
  file.sign_offs = store.sign_offs(trainee.id);
  file.notes = store.notes(trainee.id);
  SessionQuery query;
  query.trainee = trainee.id;
  query.oldest_first = true;
  query.limit = all;
  std::map<std::string, std::vector<SessionRecord>> by_scenario;
  for (auto& s : store.sessions(query)) by_scenario[s.scenario].push_back(std::move(s));
  for (auto& [scenario, sessions] : by_scenario) {
    const auto* p = library.version(sessions.back().scenario_hash);
    if (p == nullptr) {
      file.unread.push_back(scenario);
      continue;
    }
    file.scenarios.push_back(
        review(*p, std::move(sessions), stands_for(file.sign_offs, scenario), file.now));
    file.procedures.push_back(p);
  }
  return file;
}

std::map<std::string, const procedure::Procedure*> newest_versions(const Store& store,
                                                                   Library& library) {
  std::map<std::string, const procedure::Procedure*> newest;
  for (const auto& v : store.scenarios()) {
    if (newest.contains(v.id)) continue;
    SessionQuery last;
    last.scenario = v.id;
    last.limit = 1;
    const auto found = store.sessions(last);
    newest[v.id] = found.empty() ? nullptr : library.version(found.front().scenario_hash);
  }
  return newest;
}

CohortFile cohort_file(const Store& store, Library& library, SummaryQuery query) {
  query.with_history = true;
  query.order = SummaryQuery::Order::name;
  CohortFile file;
  file.now = store.now();
  std::map<std::string, CohortScenario> by_id;
  std::map<std::string, std::vector<std::string>> critical;
  for (const auto& v : store.scenarios()) {
    by_id[v.id].scenario = v.id;
    by_id[v.id].title = v.title;
  }
  for (const auto& [id, p] : newest_versions(store, library)) {
    auto& s = by_id[id];
    if (p == nullptr) continue;
    s.title = p->title;
    critical[id] = critical_steps(*p);
    for (const auto& step : p->steps) s.step_titles[step.id] = step.title;
  }
  for (auto& summary : store.summaries(query)) {
    auto& s = by_id[summary.scenario];
    s.readiness.push_back(readiness(summary, critical[summary.scenario]));
    s.summaries.push_back(std::move(summary));
  }
  for (auto& [id, s] : by_id)
    if (!s.summaries.empty()) file.scenarios.push_back(std::move(s));
  return file;
}

std::vector<CohortRow> cohort_rows(const Store& store, Library& library, SummaryQuery query) {
  query.with_history = true;
  const auto newest = newest_versions(store, library);
  std::map<std::string, std::vector<std::string>> critical;
  for (const auto& [id, p] : newest)
    if (p != nullptr) critical[id] = critical_steps(*p);
  std::vector<CohortRow> rows;
  for (auto& s : store.summaries(query)) {
    CohortRow row;
    const auto at = newest.find(s.scenario);
    row.title = at != newest.end() && at->second != nullptr ? at->second->title : s.scenario;
    row.readiness = readiness(s, critical[s.scenario]);
    row.due = due(s, row.readiness);
    s.history.clear();
    row.summary = std::move(s);
    rows.push_back(std::move(row));
  }
  return rows;
}

SessionFile session_file(const Store& store, Library& library, const Id& id) {
  const auto record = store.session(id);
  if (!record)
    throw StoreError(StoreError::Kind::refused,
                     "There is no session " + id + " in " + store.address() + ".");
  SessionFile file;
  file.record = *record;
  file.trainee_name = store.person(Person::Part::trainee, record->trainee).name;
  auto evidence = store.evidence(id);
  file.needs = std::move(evidence.needs);
  file.around = std::move(evidence.around);
  file.procedure = library.version(record->scenario_hash);
  if (file.procedure == nullptr)
    throw drill::RecordingError("session " + id +
                                ": its scenario's text can no longer be read by this version");
  file.session = drill::from_text(evidence.recording, *file.procedure, "session " + id);
  return file;
}

}  // namespace beforehand::records
