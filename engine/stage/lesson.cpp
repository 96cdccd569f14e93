// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/lesson.hpp"

#include <algorithm>

namespace beforehand::stage {
namespace {

using drill::Reason;
using drill::What;

constexpr Ms long_enough{2000};  // to be broken off, or to line something up behind

const Ahead* open_now(const Sitting& sitting, bool cover) {
  for (const auto& prep : sitting.ahead()) {
    if (!prep.open(sitting.run().now())) continue;
    if (sitting.procedure().action(prep.action).cover != cover) continue;
    const auto now = card_now(sitting.procedure(), sitting.world(), sitting.trainee(), prep.action);
    if (now.reason == Reason::none && !now.held && !now.going_on) return &prep;
  }
  return nullptr;
}

// The work that keeps the trainee busy for a while yet, or nullptr.
const drill::Doing* long_work(const Sitting& sitting) {
  const auto* doing = sitting.world().person(sitting.trainee()).attention();
  if (doing == nullptr || !doing->action || doing->ends == never) return nullptr;
  return doing->ends - sitting.run().now() >= long_enough ? doing : nullptr;
}

// What comes next and can be lined up behind it.
ActionIx next_in_line(const Sitting& sitting, ActionIx doing) {
  for (const auto& prep : sitting.ahead()) {
    if (prep.action == doing || sitting.procedure().action(prep.action).cover) continue;
    const auto now = card_now(sitting.procedure(), sitting.world(), sitting.trainee(), prep.action);
    if (now.reason == Reason::busy) return prep.action;
  }
  return {};
}

}  // namespace

std::string_view word(Lesson lesson) {
  static constexpr std::string_view words[] = {"welcome", "mark",  "choose",  "break-off", "again",
                                               "line-up", "pause", "go-on",   "pace",      "hold",
                                               "let-go",  "help",  "farewell"};
  return words[static_cast<std::size_t>(lesson)];
}

void Teacher::note(const Sitting& sitting, const SeenByTeacher& seen) {
  const auto& events = sitting.run().session().events;
  for (; events_ < events.size(); ++events_) {
    const auto& e = events[events_];
    if (e.person != sitting.trainee()) continue;
    if (e.what == What::action_started || e.what == What::cover_started) ++chosen_;
    if (e.what == What::action_broken) broken_ = true, chosen_at_break_ = chosen_;
    lined_up_ |= e.what == What::lined_up;
    held_ |= e.what == What::cover_started;
    let_go_ |= e.what == What::cover_stopped;
  }
  unmarked_ |= marked_ && !seen.marked;
  marked_ |= seen.marked;
  const bool paused = sitting.clock().paused();
  gone_on_ |= paused_ && !paused;
  paused_ |= paused;
  const int pace = sitting.clock().pace().percent;
  if (!pace_) pace_ = pace;
  pace_changed_ |= *pace_ != pace;
  read_help_ |= helped_ && !seen.helping;
  helped_ |= seen.helping;
  welcomed_ |= seen.went_on && asked_ == Lesson::welcome;
  parted_ |= seen.went_on && asked_ == Lesson::farewell;
}

bool Teacher::is_done(Lesson lesson) const {
  switch (lesson) {
    case Lesson::welcome:
      return welcomed_;
    case Lesson::mark:
      return unmarked_;
    case Lesson::choose:
      return chosen_ > 0;
    case Lesson::break_off:
      return broken_;
    case Lesson::again:
      return broken_ && chosen_ > chosen_at_break_;
    case Lesson::line_up:
      return lined_up_;
    case Lesson::pause:
      return paused_;
    case Lesson::go_on:
      return gone_on_;
    case Lesson::pace:
      return pace_changed_;
    case Lesson::hold:
      return held_;
    case Lesson::let_go:
      return let_go_;
    case Lesson::help:
      return read_help_;
    case Lesson::farewell:
      return parted_;
  }
  return true;
}

bool Teacher::is_time_for(Lesson lesson, const Sitting& sitting) {
  about_ = {};
  const auto* prep = lesson == Lesson::choose || lesson == Lesson::again ? open_now(sitting, false)
                     : lesson == Lesson::hold                            ? open_now(sitting, true)
                                                                         : nullptr;
  const auto* work = long_work(sitting);
  switch (lesson) {
    case Lesson::choose:
    case Lesson::again:
    case Lesson::hold:
      if (prep != nullptr) about_ = prep->action;
      return prep != nullptr;
    case Lesson::break_off:
      return work != nullptr;
    case Lesson::line_up:
      if (work != nullptr) about_ = next_in_line(sitting, work->action);
      return static_cast<bool>(about_);
    case Lesson::let_go:
      about_ =
          held_in_vain(sitting.procedure(), sitting.world(), sitting.trainee(), sitting.ahead());
      return static_cast<bool>(about_);
    default:
      return true;
  }
}

void Teacher::look(const Sitting& sitting, const SeenByTeacher& seen) {
  note(sitting, seen);
  while (!over() && is_done(static_cast<Lesson>(done_))) {
    asked_.reset();
    ++done_;
  }
  if (over()) return;
  const auto next = static_cast<Lesson>(done_);
  if (!asked_ && is_time_for(next, sitting)) asked_ = next;
}

std::string Teacher::text(const Sitting& sitting, const KeyMap& keys, const Strings& t) const {
  const auto cap = [&](Deed deed) { return cap_of(keys.key(deed), t); };
  const auto pad = [&](Deed deed) { return cap_of(keys.button(deed), t); };
  std::string title, key;
  for (const auto& card : sitting.cards())
    if (card.action == about_) title = card.title, key = card.keys;
  for (char& c : key)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 32);
  const auto name = "lesson." + std::string(word(*asked_));
  switch (*asked_) {
    case Lesson::mark:
      return t(name,
               {cap(Deed::mark_down), pad(Deed::mark_down), cap(Deed::leave), pad(Deed::leave)});
    case Lesson::break_off:
      return t(name, {cap(Deed::break_off), pad(Deed::break_off)});
    case Lesson::pause:
    case Lesson::go_on:
      return t(name, {cap(Deed::pause), pad(Deed::pause)});
    case Lesson::pace:
      return t(name, {cap(Deed::slower), cap(Deed::quicker)});
    case Lesson::help:
      return t(name, {cap(Deed::help), pad(Deed::help)});
    default:
      return t(name, {title, key, cap(Deed::go), pad(Deed::go)});
  }
}

}  // namespace beforehand::stage
