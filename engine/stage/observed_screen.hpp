// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "procedure/load.hpp"
#include "stage/flow.hpp"
#include "stage/input.hpp"
#include "stage/pen.hpp"
#include "study/observed_durations.hpp"

namespace beforehand::stage {

/// What all timed cases of a scenario say of its steps' durations, and a copy of the scenario with
/// these, remarks kept.
class ObservedScreen {
 public:
  enum class Outcome { stay, home, compare };

  /// The protocol, read from the files `from`, must outlive the screen. The cases are the tables in
  /// the folder `cases` that bear its id, in any of its languages; the copy goes into `own`.
  ObservedScreen(const procedure::Procedure&, procedure::Files from, const std::string& cases,
                 std::string own);

  Outcome handle(const Input&);
  void draw(Pen&, const Box&);

  const std::vector<study::ObservedStep>& steps() const { return steps_; }
  std::size_t cases() const { return names_.size(); }
  /// The scenario written, or empty.
  const std::string& copy() const { return copy_; }

 private:
  void read(const std::string& file);
  Outcome go_on();
  void write();
  void write_table(Pen&, Flow&) const;

  const procedure::Procedure& procedure_;
  procedure::Files from_;
  std::vector<procedure::Procedure> in_other_words_;
  std::string own_, copy_;
  std::vector<std::string> names_, problems_;
  std::vector<study::CaseFigures> figures_;
  std::vector<study::ObservedStep> steps_;
  Scroll scroll_;
  Hits hits_;
};

}  // namespace beforehand::stage
