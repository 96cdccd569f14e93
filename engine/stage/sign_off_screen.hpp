// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "stage/flow.hpp"
#include "stage/input.hpp"
#include "stage/pen.hpp"
#include "stage/review_desk.hpp"

namespace beforehand::stage {

/// A trainer's word on a trainee: signing off, taking a sign-off back, or a note. What is signed
/// takes the trainer's passcode once more, as a signature.
class SignOffDialog {
 public:
  enum class Outcome { stay, leave, done };
  enum class Kind { sign, revoke, note };

  /// What it is about. `criteria` are those of the scenario, for signing.
  struct Subject {
    Kind kind = Kind::sign;
    records::Person trainer;
    const records::TraineeFile* file = nullptr;
    const records::ScenarioReview* review = nullptr;  ///< none for a note on nobody's drills
    const procedure::Procedure* procedure = nullptr;
    std::string scenario_hash;
    records::Id sign_off;  ///< to be revoked
    std::vector<records::Criterion> criteria;
  };

  SignOffDialog(ReviewDesk&, Subject);

  Outcome handle(const Input&);
  void draw(Pen&, const Box&);
  Kind kind() const { return subject_.kind; }

 private:
  enum class Field { words, passcode };
  bool signs() const { return subject_.kind != Kind::note; }
  bool needs_words() const;
  std::string& text() { return field_ == Field::words ? words_ : passcode_; }
  Outcome on_key(Key);
  Outcome on_press(Point);
  Outcome enter();
  bool carry_out();
  void write_subject(Flow&, Pen&) const;
  double draw_fields(Pen&, const Box&);

  ReviewDesk& desk_;
  Subject subject_;
  Field field_ = Field::words;
  std::string words_, passcode_;
  records::Store::PasscodeAnswer answer_{true, {}};
  std::string told_;  // a key of the strings, or the store's own words
  Scroll scroll_;
  Hits hits_;
};

}  // namespace beforehand::stage
