// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <atomic>
#include <future>
#include <optional>
#include <string>
#include <vector>

#include "stage/flow.hpp"
#include "stage/input.hpp"
#include "stage/pen.hpp"
#include "study/improve.hpp"

namespace beforehand::stage {

/// Other ways of working, found beside the frames; what is taken goes into a copy of the scenario,
/// which is then planned and played beside the scenario as it was.
class ImproveScreen {
 public:
  enum class Outcome { stay, home };

  /// `file` is the scenario's; `folder` the one the shelf is read from, where the copy gets a
  /// folder of its own.
  ImproveScreen(std::string file, std::string folder);
  ~ImproveScreen();
  ImproveScreen(const ImproveScreen&) = delete;
  ImproveScreen& operator=(const ImproveScreen&) = delete;

  Outcome handle(const Input&);
  /// Takes in what was found meanwhile.
  void pass();
  void draw(Pen&, const Box&);
  bool working() const { return search_.valid() || trial_.valid(); }
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
  struct Trial {
    study::Planned then;
    study::Comparison comparison;
  };

  void choose(std::size_t number);
  void write();
  void try_out();
  void write_list(Pen&, Flow&);
  void write_trial(Pen&, Flow&) const;

  std::string file_, folder_, copy_, problem_;
  std::atomic<bool> stopped_ = false;
  std::atomic<std::size_t> done_ = 0, of_ = 0;
  std::future<Found> search_;
  std::future<Trial> trial_;
  std::optional<Found> found_;
  std::optional<Trial> tried_;
  std::vector<bool> taken_;
  Scroll scroll_;
  Hits hits_;
};

}  // namespace beforehand::stage
