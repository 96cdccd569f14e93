// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "stage/key_map.hpp"
#include "stage/sitting.hpp"

namespace beforehand::stage {

/// What the lesson asks a newcomer to do, in this order, each at a moment at which it makes sense.
enum class Lesson : std::uint8_t {
  welcome,
  mark,
  choose,
  break_off,
  again,
  line_up,
  pause,
  go_on,
  pace,
  hold,
  let_go,
  help,
  farewell
};
inline constexpr std::size_t lesson_count = 13;
std::string_view word(Lesson);

/// What of the screen the lesson has to know, apart from the sitting.
struct SeenByTeacher {
  bool marked = false;   ///< a card is marked, or the mouse rests on one
  bool helping = false;  ///< the help is open
  bool went_on = false;  ///< the key or button to go on was used
};

/// Teaches the controls of the drill by doing them: time waits while something is asked for, and a
/// thing that was done unasked is not asked for again. Knows no screen.
class Teacher {
 public:
  /// Looks at what has been done. To be called after every input and every passing of time.
  void look(const Sitting&, const SeenByTeacher&);

  /// What is asked for now; nothing while the drill goes on by itself.
  std::optional<Lesson> asks() const { return asked_; }
  /// The action that it is about, if it is about one.
  ActionIx about() const { return about_; }
  std::size_t done() const { return done_; }
  bool over() const { return done_ == lesson_count; }

  /// What is asked for, in words, with the keys as they are set. Only while it asks().
  std::string text(const Sitting&, const KeyMap&, const Strings&) const;

 private:
  void note(const Sitting&, const SeenByTeacher&);
  bool is_done(Lesson) const;
  bool is_time_for(Lesson, const Sitting&);

  std::optional<Lesson> asked_;
  ActionIx about_;
  std::size_t done_ = 0;
  // What was seen so far.
  std::size_t events_ = 0;
  int chosen_ = 0, chosen_at_break_ = -1;
  bool marked_ = false, unmarked_ = false, broken_ = false, lined_up_ = false, paused_ = false,
       gone_on_ = false, held_ = false, let_go_ = false, helped_ = false, read_help_ = false,
       welcomed_ = false, parted_ = false;
  std::optional<int> pace_;
  bool pace_changed_ = false;
};

}  // namespace beforehand::stage
