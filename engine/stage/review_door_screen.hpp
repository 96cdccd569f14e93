// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "stage/input.hpp"
#include "stage/pen.hpp"
#include "stage/review_desk.hpp"

namespace beforehand::stage {

/// Everybody's records are behind a trainer's passcode. A store without trainers is set up here:
/// whoever does that is the first.
class ReviewDoor {
 public:
  enum class Outcome { stay, leave, open };

  explicit ReviewDoor(ReviewDesk&);

  /// It fell shut behind this trainer after so many minutes without an input: says so, and asks for
  /// their passcode.
  void fell_shut(const records::Person& behind, int minutes);

  Outcome handle(const Input&);
  void draw(Pen&, const Box&);
  /// Who came in.
  const records::Person& trainer() const { return trainer_; }

 private:
  enum class Field { name, passcode, again };
  bool setting_up() const { return trainers_.empty(); }
  Outcome on_key(Key);
  Outcome on_press(Point);
  Outcome enter();
  Outcome set_up();
  std::string& text();
  void move(int by);
  void next_field(int by);
  double draw_trainers(Pen&, const Box&);
  double draw_field(Pen&, const Box&, double y, Field, const char* hint);

  ReviewDesk& desk_;
  std::vector<records::Person> trainers_;
  records::Person trainer_;
  std::size_t row_ = 0;
  int shut_after_ = 0;  // minutes; 0: it did not fall shut
  Field field_ = Field::name;
  std::string name_, passcode_, again_, told_;
  Hits hits_;
};

/// As many dots as the text has letters.
std::string dots_for(const std::string& secret);

/// What to say of a passcode that did not open; empty when it did.
std::string passcode_words(const records::Store::PasscodeAnswer&, const Strings&);

}  // namespace beforehand::stage
