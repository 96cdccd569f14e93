// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "picture/activity_chart.hpp"
#include "stage/big_buttons.hpp"
#include "stage/flow.hpp"
#include "stage/input.hpp"
#include "stage/rehearsal.hpp"
#include "study/team_debrief.hpp"
#include "timing/plan.hpp"

namespace beforehand::stage {

/// A team's rehearsal: who plays whom, the run with each one's actions in a column and a row of
/// keys of their own, and what it tells the team.
class RehearseScreen {
 public:
  enum class Outcome { stay, home, improve };

  /// Procedure and texts must outlive the screen. `new_recording` gives the file for each run.
  RehearseScreen(const procedure::Procedure&, const Strings&, std::uint64_t seed,
                 std::function<std::string()> new_recording);

  Outcome handle(const Input&);
  void pass(std::chrono::microseconds real);
  void draw(Pen&, const Box&);
  bool moves() const;

  /// The plan to lay the run beside, once it is found.
  void refer_to(const timing::Plan&);
  /// The signals that came, when the debrief is there; nothing before.
  std::optional<std::vector<SignalIx>> debriefed() const;
  /// Whether a newer version of the procedure has been saved meanwhile.
  void tell_newer(bool newer) { newer_ = newer; }
  const Rehearsal* rehearsal() const { return rehearsal_.get(); }

 private:
  enum class Face { roles, playing, debrief };

  Outcome on_key(const Input&);
  Outcome on_playing(const Input&);
  void on_press(int id);
  void begin();
  void look_back();
  void choose(int button);
  void on_pad(const Input&);
  void aim(std::size_t column, int by);
  std::size_t aimed(std::size_t column) const;
  /// Whose a gamepad is: each has one person, the first the assistant.
  std::size_t person_of(unsigned pad) const {
    return (first_pad_ + human_.size() - pad % human_.size()) % human_.size();
  }
  bool has_pad(std::size_t column) const;
  std::string heading_of(const Pen&, std::size_t column) const;
  void raise(std::size_t number);
  std::vector<Rehearsal::Option> options(std::size_t column) const;

  void draw_roles(Pen&, const Box&);
  void write_roles(Pen&, Flow&) const;
  void draw_playing(Pen&, const Box&);
  double draw_top(Pen&, const Box&, bool with_said) const;
  void draw_columns(Pen&, const Box&, double gap);
  void draw_surprises(Pen&, const Box&) const;
  void write_surprises(Pen&, Flow&) const;
  struct Said {
    std::string text;
    picture::Colour colour;
    picture::Weight weight = picture::Weight::regular;
    std::string brief;  // where there is room for little; empty: the text
  };
  std::vector<Said> said(const Pen&) const;
  void draw_said(Pen&, const Box&) const;
  void draw_said_beside(Pen&, const Box&) const;
  void draw_debrief(Pen&, const Box&);
  void write_debrief(Pen&, Flow&) const;

  const procedure::Procedure& procedure_;
  const Strings& t_;
  std::uint64_t seed_;
  std::function<std::string()> new_recording_;
  Face face_ = Face::roles;
  std::vector<bool> human_;
  bool timed_ = true, newer_ = false;
  std::size_t ahead_ = 0, first_pad_ = 0;
  ButtonCounts rows_ = all_buttons;                  // by column, as last drawn
  bool compact_ = false, surprises_ = false;         // as last drawn; instead of the columns
  unsigned pads_ = 0;                                // seen so far
  std::vector<std::optional<drill::Command>> aims_;  // by column: what a gamepad's mark stands on
  std::unique_ptr<Rehearsal> rehearsal_;
  std::optional<study::TeamDebrief> told_;
  picture::ActivityChart chart_;
  Scroll scroll_;
  Hits hits_;
};

}  // namespace beforehand::stage
