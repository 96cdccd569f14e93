// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "drill/controller.hpp"
#include "timing/windows.hpp"

namespace beforehand::drill {

/// How a scripted assistant differs from a practised one.
struct Habit {
  enum class Kind : std::uint8_t { expert, late, forgetful, shuffled, eager, asked, absent };
  Kind kind = Kind::expert;
  Ms lateness{0};   ///< late: every action starts so long after the expert would start it
  int percent = 0;  ///< forgetful: of the steps that slip the mind; shuffled: of the wrong choices
};

/// Reads "expert", "late:2.5", "forgetful:20", "shuffled:30", "eager", "asked" or "absent";
/// nothing for anything else.
std::optional<Habit> habit_from(const std::string& text);

/// What habit_from() takes, for messages.
inline constexpr const char* habit_words =
    "expert, late:SECONDS, forgetful:PERCENT, shuffled:PERCENT, eager, asked, absent";

/// A scripted assistant. `expert` starts each prep as soon as it is useful, the most urgent first,
/// keeps its hands free for what comes next, and lets go of a cover when nothing needs it.
class Bot final : public Controller {
 public:
  /// `finder` lays out the procedure's step graph; several bots of one thread may share it.
  Bot(PersonIx me, Habit habit, std::uint64_t seed, std::shared_ptr<timing::WindowFinder> finder);
  bool decide(const Procedure&, const World&, Command& out) override;
  Ms wake(const Procedure&, const World& w) override { return wake_ > w.now ? wake_ : never; }

 private:
  void get_ready(const Procedure&);
  void look_ahead(const Procedure&, const World&);
  bool act_on(ActionIx, Command& out) const;

  bool minds(const Procedure&, const World&, StepIx) const;
  bool asked_for(const Procedure&, const World&, StepIx) const;
  bool useful_now(const Procedure&, const World&, StepIx);
  bool keeps_clear(const Procedure&, const World&, StepIx) const;

  bool let_go(const Procedure&, const World&, Command& out);
  bool choose(const Procedure&, const World&, Command& out);
  bool choose_wrongly(const Procedure&, const World&, Command& out);
  bool make_good(const Procedure&, const World&, Command& out) const;
  bool free_a_hand(const Procedure&, const World&, StepIx wanted, Command& out) const;

  PersonIx me_;
  Habit habit_;
  std::uint64_t seed_;
  std::shared_ptr<timing::WindowFinder> finder_;
  std::vector<StepIx> mine_;  // open steps I am preferred for, in the file's order
  std::vector<std::uint8_t> forgotten_;
  std::vector<timing::Window> plan_;  // as last looked ahead
  std::vector<timing::StepTime> progress_;
  std::vector<Ms> noticed_;  // by step: since when an expert would have begun it
  std::uint32_t moves_seen_ = ~std::uint32_t{0};
  std::uint64_t choices_ = 0;
  Ms wake_ = never;
};

}  // namespace beforehand::drill
