// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The ways of a team: watching and rehearsing a procedure, changing and comparing it.
#include <algorithm>
#include <filesystem>
#include <utility>

#include "procedure/texts.hpp"
#include "stage/program.hpp"

namespace beforehand::stage {

// Free: what is seen is typed as it comes, and laid beside no protocol.
void Program::to_observe(bool free) {
  take_chosen();
  const auto& procedure = *played_.procedure;
  observe_ = std::make_unique<ObserveScreen>(
      free ? nullptr : &procedure,
      outside_.observation ? outside_.observation(free ? "free" : procedure.id) : std::string(),
      free ? std::vector<procedure::Procedure>() : procedure::in_every_language(chosen_files()));
  stand_ = Stand::observe;
}

void Program::on_observe(ObserveScreen::Outcome outcome) {
  if (outcome == ObserveScreen::Outcome::home) to_start();
  if (outcome == ObserveScreen::Outcome::free) to_observe(true);
  if (outcome != ObserveScreen::Outcome::durations) return;
  const auto log = std::filesystem::path(outside_.observation(played_.procedure->id));
  observed_ = std::make_unique<ObservedScreen>(*played_.procedure, chosen_files(),
                                               log.parent_path().string(), shelf_.own_folder());
  stand_ = Stand::observed;
}

void Program::on_observed(ObservedScreen::Outcome outcome) {
  if (outcome == ObservedScreen::Outcome::stay) return;
  const auto before = chosen_files();
  const auto copy = observed_->copy();
  observed_.reset();
  from_copy(copy);
  if (outcome == ObservedScreen::Outcome::compare) to_compare(before, copy);
}

void Program::to_rehearse() {
  take_chosen();
  const auto& procedure = *played_.procedure;
  const auto seed = chosen_seed();
  rehearse_ = std::make_unique<RehearseScreen>(procedure, strings_, seed, [this, &procedure, seed] {
    return outside_.new_recording(procedure.id, seed);
  });
  rehearse_plan_asked_ = false;
  stand_ = Stand::rehearse;
}

void Program::to_improve() {
  desk_.stop();
  improve_ =
      std::make_unique<ImproveScreen>(chosen_files(), shelf_.own_folder(), settings_.language);
  improve_->tell_materials(!choice_.materials.empty());
  stand_ = Stand::improve;
}

void Program::on_improve(ImproveScreen::Outcome outcome) {
  if (outcome == ImproveScreen::Outcome::stay) return;
  const auto before = chosen_files();
  const auto copy = improve_->copy();
  improve_.reset();
  from_copy(copy);
  if (outcome == ImproveScreen::Outcome::compare) to_compare(before, copy);
}

// A copy that was written stands on the shelf from now on, and is the one chosen.
void Program::from_copy(const std::string& copy) {
  if (!copy.empty()) {
    shelf_.read_again(settings_.language);
    const auto at = shelf_.position_of(copy);
    choice_.item = at < shelf_.items().size() ? at : 0;
    choice_.part = 0;
    choice_.card.clear();
  }
  to_start();
}

// Without a b one is proposed, and nothing begins yet.
void Program::to_compare(const procedure::Files& a, const std::string& b) {
  desk_.stop();
  auto all = protocols_on(shelf_.items(), settings_.language);
  const auto at = [&](const procedure::Files& files) {
    const auto found = std::find_if(all.begin(), all.end(), [&](const Protocol& p) {
      return p.files.scenario == files.scenario && p.files.card == files.card;
    });
    return std::min(static_cast<std::size_t>(found - all.begin()), all.size() - 1);
  };
  auto first = at(a), second = b.empty() ? other_than(all, first) : at({b, "", ""});
  if (b.empty() && all[first].id.starts_with(all[second].id + "-"))
    std::swap(first, second);  // a copy is the other way
  compare_ = std::make_unique<CompareScreen>(std::move(all), first, second, settings_.language);
  compare_->tell_materials(!choice_.materials.empty());
  if (!b.empty()) compare_->begin();
  stand_ = Stand::compare;
}

void Program::on_rehearse(RehearseScreen::Outcome outcome) {
  if (outcome == RehearseScreen::Outcome::home) return to_start();
  if (outcome == RehearseScreen::Outcome::improve) return to_improve();
  ask_for_rehearsed_plan();
}

// The plan is looked for once a debrief is there to lie beside it.
void Program::ask_for_rehearsed_plan() {
  const auto signals = rehearse_->debriefed();
  if (signals && !rehearse_plan_asked_)
    desk_.ask(*played_.procedure, {*signals, {}, nullptr, nullptr});
  rehearse_plan_asked_ = signals.has_value();
}

}  // namespace beforehand::stage
