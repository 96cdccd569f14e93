// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// What a file that was saved changes on the screen that is shown.
#include "procedure/bundle.hpp"
#include "stage/program.hpp"

namespace beforehand::stage {

// What is offered is always what was saved last; what is being played stays.
void Program::take_saved() {
  fresh_ = true;
  if (stand_ == Stand::start) choice_ = start_->choice();
  read_shelf_again();
  if (stand_ == Stand::start) start_->shelf_changed(choice_.item);
  if (stand_ == Stand::briefing) {
    read_chosen();
    brief();
  }
  if (stand_ != Stand::drill) return;
  const auto now = read_item({played_.file, choice_.card, choice_.materials}, settings_.language);
  drill_->tell_newer(procedure::bundle(now.sources) != procedure::bundle(played_.sources));
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

}  // namespace beforehand::stage
