// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "procedure/load.hpp"
#include "stage/beside.hpp"
#include "stage/flow.hpp"
#include "stage/input.hpp"
#include "stage/pen.hpp"
#include "study/improve.hpp"

namespace beforehand::stage {

/// Other ways of working, found beside the frames; what is taken goes into a copy of the scenario,
/// which is then offered to be compared with the scenario as it was.
class ImproveScreen {
 public:
  enum class Outcome { stay, home, compare };

  /// `files`: the scenario, with the card laid over it; its texts are shown in the language. In
  /// `folder` the copy gets a folder of its own.
  ImproveScreen(procedure::Files files, std::string folder, std::string language);

  /// Materials are chosen, and not looked at here: the screen says so.
  void tell_materials(bool chosen) { materials_ = chosen; }

  Outcome handle(const Input&);
  /// Takes in what was found meanwhile.
  void pass();
  void draw(Pen&, const Box&);
  bool working() const { return search_.working(); }
  /// Waits for what is under way.
  void settle();

  const study::Improvements* found() const { return found_ ? &found_->all : nullptr; }
  /// The scenario written, or empty.
  const std::string& copy() const { return copy_; }

 private:
  struct Found {
    study::Planned now;
    study::Improvements all;
  };
  void search();
  void change_assistant();
  void choose(std::size_t number);
  Outcome go_on();
  void write();
  void write_list(Pen&, Flow&);

  procedure::Files files_;
  std::string folder_, language_, copy_, problem_;
  std::size_t assistant_ = 0;
  Beside<Found> search_;
  std::optional<Found> found_;
  std::vector<bool> taken_;
  bool materials_ = false;
  Scroll scroll_;
  Hits hits_;
};

}  // namespace beforehand::stage
