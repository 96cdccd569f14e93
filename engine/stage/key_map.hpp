// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "base/strings.hpp"
#include "stage/input.hpp"

namespace beforehand::stage {

/// What a key or a gamepad's button does in a drill, apart from the cards.
enum class Deed {
  go,
  break_off,
  pause,
  slower,
  quicker,
  mark_up,
  mark_down,
  view,
  sound,
  help,
  leave
};
inline constexpr std::size_t deed_count = 11;

/// The word of a deed in files and string keys: "break-off".
std::string_view word(Deed);

/// The keys a deed can be put on, with their words in files: every key but letters and digits,
/// which belong to the cards.
std::string_view word(Key);
/// Key::none for a word that is no key's.
Key key_called(std::string_view word);
/// What stands on a key's cap.
std::string cap_of(Key, const Strings&);

/// How the letters lie on the keyboard: the cards follow its rows.
enum class Letters { qwerty, qwertz, azerty, dvorak };
inline constexpr std::size_t letters_count = 4;
std::string_view word(Letters);
/// The four rows of keys for the four corners of the room, the digits first.
const std::array<std::string_view, 4>& rows_of(Letters);

/// Which key and which button does what. Each does one thing at most.
class KeyMap {
 public:
  /// The deed of a key or of a gamepad's button; nothing for any other key.
  const Deed* deed_of(Key) const;
  Key key(Deed deed) const { return keys_[static_cast<std::size_t>(deed)]; }
  Key button(Deed deed) const { return buttons_[static_cast<std::size_t>(deed)]; }
  /// Puts a deed on a key or button; the deed that was there takes the one this deed leaves.
  void put(Deed, Key);

  Letters letters = Letters::qwerty;

  bool operator==(const KeyMap&) const = default;

 private:
  std::array<Key, deed_count> keys_{Key::enter, Key::backspace, Key::space, Key::left,
                                    Key::right, Key::up,        Key::down,  Key::tab,
                                    Key::f4,    Key::help,      Key::escape};
  std::array<Key, deed_count> buttons_{
      Key::pad_south,          Key::pad_east,  Key::pad_start, Key::pad_left_shoulder,
      Key::pad_right_shoulder, Key::pad_up,    Key::pad_down,  Key::pad_west,
      Key::pad_left,           Key::pad_north, Key::pad_back};
};

/// A button of the gamepad as the key that does the same where no drill is played.
Key plain_key(Key);

/// How to handle a drill, one sentence a line, the keys as they are set.
std::vector<std::string> key_lines(const KeyMap&, bool may_pause, const Strings&);

}  // namespace beforehand::stage
