// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "stage/flow.hpp"
#include "stage/pen.hpp"
#include "stage/record_desk.hpp"

namespace beforehand::stage {

/// Who practises: one line to type in, and the people it fits below it. Typing a name nobody has
/// offers to add it.
class PeopleScreen {
 public:
  enum class Outcome { stay, chosen, nobody, review, close };

  /// The desk must outlive the screen.
  explicit PeopleScreen(RecordDesk& desk);

  /// Says why one is here again.
  void tell(std::string words) { told_ = std::move(words); }

  Outcome handle(const Input&);
  void draw(Pen&, const Box&);

  const std::string& typed() const { return typed_; }
  /// What can be chosen now: positions in the desk's people, and perhaps the new name.
  std::size_t rows() const { return fitting_.size() + (offers_new() ? 1 : 0); }
  bool asks_passcode() const { return asking_; }

 private:
  void find_fitting();
  bool offers_new() const;
  Outcome on_key(const Input&);
  Outcome on_press(Point);
  Outcome take(std::size_t row);
  Outcome try_passcode();
  Outcome go_on();
  void move(int by);
  void write_problem(Flow&, const Pen&) const;
  void draw_list(Pen&, const Box&);
  std::string row_text(const Pen&, std::size_t row) const;
  void draw_passcode(Pen&, const Box&);

  RecordDesk& desk_;
  std::string typed_, passcode_;
  std::string told_;  ///< a key of the texts, or what the store says
  std::vector<std::size_t> fitting_;
  std::size_t row_ = 0;
  bool asking_ = false, on_nobody_ = false;
  Scroll scroll_;
  Hits hits_;
};

}  // namespace beforehand::stage
