// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "picture/activity_chart.hpp"
#include "picture/study_charts.hpp"
#include "procedure/load.hpp"
#include "stage/beside.hpp"
#include "stage/flow.hpp"
#include "stage/input.hpp"
#include "stage/pen.hpp"
#include "stage/shelf.hpp"
#include "study/improve.hpp"

namespace beforehand::stage {

/// What can be compared: a scenario, or one with a preference card over it.
struct Protocol {
  std::string id;  ///< the scenario's
  std::string title;
  procedure::Files files;
};

/// Every scenario that can be played, each followed by its cards that can be laid over it, under
/// their titles in the language.
std::vector<Protocol> protocols_on(const std::vector<ShelfItem>&, const std::string& language);

/// The one most likely meant beside the one at `a`: a copy of it, one of its cards, else the next.
std::size_t other_than(const std::vector<Protocol>&, std::size_t a);

/// Two protocols beside each other: their plans, then both played with the same clinicians in a
/// thread beside the frames, until the difference in chair time is known or somebody stops it.
class CompareScreen {
 public:
  enum class Outcome { stay, home };

  /// `a` and `b` are the positions first chosen; steps are named in the language.
  CompareScreen(std::vector<Protocol>, std::size_t a, std::size_t b, std::string language);

  /// Begins with what is chosen.
  void begin();
  /// Materials are chosen, and not looked at here: the screen says so.
  void tell_materials(bool chosen) { materials_ = chosen; }

  Outcome handle(const Input&);
  /// Takes in what was found meanwhile.
  void pass();
  void draw(Pen&, const Box&);
  bool working() const { return work_.working(); }
  /// Waits for what is under way.
  void settle();

  const study::Comparison* found() const { return found_ ? &found_->comparison : nullptr; }
  const Protocol& chosen(std::size_t side) const { return protocols_[chosen_[side]]; }

 private:
  struct Side {
    procedure::Procedure procedure;
    timing::Plan plan;
    picture::ActivityChart chart;
  };
  struct Found {
    std::array<Side, 2> sides;
    study::Comparison comparison;
  };
  static Found compare(const std::array<procedure::Files, 2>&, const std::string& language,
                       const drill::Habit&, const study::Watch&);

  Outcome on_key(const Input&);
  Outcome on_press(int id);
  Outcome back();
  void move(int by);
  void draw_choice(Pen&, const Box&);
  void draw_list(Pen&, const Box&, std::size_t side);
  void write_progress(Pen&, Flow&) const;
  void write_found(Pen&, Flow&) const;
  void write_plans(Pen&, Flow&) const;
  void write_figures(Pen&, Flow&) const;
  void write_steps(Pen&, Flow&) const;
  void write_plans_in_words(Pen&, Flow&) const;

  std::vector<Protocol> protocols_;
  std::array<std::size_t, 2> chosen_;
  std::size_t side_ = 1, assistant_ = 0;
  std::array<Scroll, 2> lists_;
  Beside<Found> work_;
  std::optional<Found> found_;
  std::string language_, problem_;
  bool materials_ = false;
  Scroll scroll_;
  Hits hits_;
};

}  // namespace beforehand::stage
