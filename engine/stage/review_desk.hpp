// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "records/cohort.hpp"
#include "records/gather.hpp"
#include "records/sign_off.hpp"
#include "records/store.hpp"
#include "stage/played.hpp"

namespace beforehand::stage {

/// A reviewer's way to the records. What goes wrong is in problem(); what was read before stays
/// valid.
class ReviewDesk {
 public:
  /// Reports are written into the folder, which is made when it is needed. `spoken`: what puts a
  /// scenario into the language of whoever looks.
  ReviewDesk(std::string store_address, std::string reports, records::Clock,
             records::Library::Spoken spoken = {});

  /// Why the last thing asked for could not be done, or empty.
  const std::string& problem() const { return problem_; }

  std::vector<records::Person> trainers();
  /// Adds the first trainer of a store; nothing when there is one already.
  std::optional<records::Person> add_first_trainer(const std::string& name,
                                                   const std::string& passcode);
  records::Store::PasscodeAnswer try_passcode(const records::Id&, const std::string& passcode);

  /// What was played, by title.
  struct Scenario {
    std::string id, title;
  };
  std::vector<Scenario> scenarios();
  /// Everybody's standing, in one scenario or all; at most `most_rows`.
  records::CohortTable cohort(const std::string& scenario);
  static constexpr int most_rows = 20'000;

  /// What the report of the class is made of.
  records::CohortFile class_file(const std::string& scenario, const std::string& search);

  /// Some trainees' steps in a scenario, in the order of names; rows in the procedure's order.
  struct Heat {
    records::HeatMap map;
    std::vector<std::string> step_titles;
  };
  Heat heat(const std::string& scenario, const std::string& search, int from, int count);

  /// What a file points into lives as long as this.
  struct Trainee {
    std::shared_ptr<records::Library> library;
    records::TraineeFile file;
  };
  std::optional<Trainee> trainee(const records::Person&);
  /// One drill, played again and found to follow from its commands.
  std::optional<Played> played(const records::Id& session);

  std::vector<records::Criterion> criteria(const procedure::Procedure&, const records::Id& trainee);
  bool sign(records::SignOff);
  bool revoke(const records::Id& sign_off, const records::Id& trainer, const std::string& why);
  bool note(records::Note);

  /// Writes a page and gives its file, or nothing.
  std::string write_report(const std::string& page, const std::string& about);

 private:
  bool attempt(const std::function<void(records::Store&)>& work);

  std::string address_, reports_;
  records::Clock now_;
  records::Library::Spoken spoken_;
  std::unique_ptr<records::Store> store_;
  std::shared_ptr<records::Library> library_;
  std::string problem_;
};

}  // namespace beforehand::stage
