// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <functional>
#include <map>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "drill/session.hpp"
#include "records/cohort.hpp"
#include "records/review.hpp"
#include "records/store.hpp"

// What a reviewer looks at, fetched from a store.

namespace beforehand::records {

/// The scenarios of a store as they were played, each version read once.
class Library {
 public:
  /// `spoken` gives a procedure in the language of whoever looks; without it each is as it was
  /// played.
  using Spoken = std::function<procedure::Procedure(procedure::Procedure)>;
  explicit Library(const Store& store, Spoken spoken = {})
      : store_(store), spoken_(std::move(spoken)) {}
  /// nullptr when this version's text can no longer be read by this program.
  const procedure::Procedure* version(const std::string& hash);

 private:
  const Store& store_;
  Spoken spoken_;
  std::map<std::string, std::unique_ptr<procedure::Procedure>> read_;
};

/// All there is of one trainee. `procedures` are the newest versions played, one a review.
struct TraineeFile {
  Person trainee;
  Moment now{};
  std::vector<ScenarioReview> scenarios;  ///< by title
  std::vector<const procedure::Procedure*> procedures;
  std::vector<SignOff> sign_offs;
  std::vector<Note> notes;
  std::vector<std::string> unread;  ///< scenarios whose text this program cannot read
};
TraineeFile trainee_file(const Store&, Library&, const Person& trainee);

/// One scenario over many trainees.
struct CohortScenario {
  std::string scenario, title;
  std::map<std::string, std::string> step_titles;
  std::vector<Summary> summaries;  ///< by name
  std::vector<Readiness> readiness;
};
struct CohortFile {
  Moment now{};
  std::vector<CohortScenario> scenarios;
};
/// `query.with_history` and the order by name are set here.
CohortFile cohort_file(const Store&, Library&, SummaryQuery query);

/// The rows of everybody's standing, as many as `query.limit`; `query.with_history` is set here.
std::vector<CohortRow> cohort_rows(const Store&, Library&, SummaryQuery query);

/// The newest version played of each scenario, by its id; nullptr where it cannot be read.
std::map<std::string, const procedure::Procedure*> newest_versions(const Store&, Library&);

/// One session with all that its debrief needs.
struct SessionFile {
  SessionRecord record;
  std::string trainee_name;
  std::vector<NeedRecord> needs;
  Around around{};
  const procedure::Procedure* procedure = nullptr;
  drill::Session session;
};
/// Throws StoreError for an unknown id, and drill::RecordingError when the recording cannot be
/// used.
SessionFile session_file(const Store&, Library&, const Id& session);

}  // namespace beforehand::records
