// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// What a file that was saved changes on the screen that is shown.
#include <algorithm>
#include <utility>

#include "stage/program.hpp"

namespace beforehand::stage {

// What is offered is always what was saved last; what is being played stays, and says so.
void Program::take_saved() {
  fresh_ = true;
  if (stand_ == Stand::start) choice_ = start_->choice();
  read_shelf_again();
  switch (stand_) {
    case Stand::start:
      start_->show_laid(laid_titles());
      return start_->shelf_changed(choice_.item);
    case Stand::briefing:
      read_chosen();
      return brief();
    case Stand::set_up:
      return lay_newer_tray();
    case Stand::drill:
      return drill_->tell_newer(newer_is_saved());
    case Stand::turnover:
      return turnover_->tell_newer(newer_is_saved());
    case Stand::debrief:
      return debrief_->tell_newer(newer_is_saved());
    case Stand::observe:
      return observe_->tell_newer(newer_is_saved());
    case Stand::rehearse:
      return rehearse_->tell_newer(newer_is_saved());
    default:
      break;
  }
}

// The chosen scenario stays chosen, wherever it stands now.
void Program::read_shelf_again() {
  shelf_is_old_ = false;
  const auto& items = shelf_.items();
  const auto file = choice_.item < items.size() ? items[choice_.item].file : std::string();
  shelf_.read_again(settings_.language);
  const auto at = shelf_.position_of(file);
  choice_.item = at < items.size() ? at : 0;
}

// What was played out of the records is held to no file.
bool Program::newer_is_saved() const {
  if (played_.sources.size() < 3) return false;
  const auto now = read_item({played_.file, choice_.card, choice_.materials}, settings_.language);
  const auto same = [](const Source& a, const Source& b) { return a.text == b.text; };
  return !now.sources.empty() && !std::equal(now.sources.begin(), now.sources.end(),
                                             played_.sources.begin(), played_.sources.end(), same);
}

// The drill has not begun: its tray is that of the newer version, and what lies on it stays there.
// A version that cannot be played, or has no tray, leads back to the briefing.
void Program::lay_newer_tray() {
  if (!newer_is_saved()) return;
  read_chosen();
  const auto before = std::move(set_up_);
  if (chosen_.procedure) {
    if (choice_.part > chosen_.procedure->phases.size()) choice_.part = 0;
    take_chosen();
    lay_tray();
  }
  if (set_up_) return set_up_->go_on_from(*before);
  briefing_.reset();
  brief();
  stand_ = Stand::briefing;
}

// The next drill is of the version saved last, if that can be played.
void Program::take_newer() {
  if (!newer_is_saved()) return;
  auto now = read_item({played_.file, choice_.card, choice_.materials}, settings_.language);
  if (!now.procedure) return;
  if (choice_.part > now.procedure->phases.size()) choice_.part = 0;
  chosen_ = std::move(now);
  take_chosen();
}

}  // namespace beforehand::stage
