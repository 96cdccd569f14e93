// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// What a person at the keyboard or mouse did, as plain data. Screens see nothing else, so a test
// can play them.
#pragma once

namespace beforehand::stage {

enum class Key {
  none,
  up,
  down,
  left,
  right,
  enter,
  escape,
  tab,
  back_tab,
  space,
  backspace,
  page_up,
  page_down,
  home,
  end,
  insert,
  del,
  help,      ///< F1
  settings,  ///< F2
  f3,
  f4,
  f5,
  f6,
  f7,
  f8,
  pad_up,  ///< from here on the gamepad's, by where they lie on it
  pad_down,
  pad_left,
  pad_right,
  pad_south,
  pad_east,
  pad_west,
  pad_north,
  pad_left_shoulder,
  pad_right_shoulder,
  pad_back,
  pad_start,
  scale_up,
  scale_down,
  symbol  ///< a letter or digit key; which one is in Input::symbol, lower case
};

struct Input {
  enum class Kind {
    key,
    text,
    pointer,
    press,
    release,
    wheel,
    focus_lost,
    pad_lost,  ///< a gamepad was unplugged
    close
  };
  Kind kind = Kind::key;
  Key key = Key::none;
  char32_t symbol = 0;  ///< for Key::symbol and Kind::text, a Unicode code point
  double x = 0, y = 0;  ///< pointer, in canvas units
  double wheel = 0;     ///< notches, positive away from the person
  unsigned pad = 0;     ///< for a gamepad's keys: which one of several

  static Input of_key(Key k) { return {Kind::key, k, 0, 0, 0, 0, 0}; }
  static Input of_pad(Key k, unsigned which) {
    Input input = of_key(k);
    input.pad = which;
    return input;
  }
  static Input of_symbol(char32_t c) { return {Kind::key, Key::symbol, c, 0, 0, 0, 0}; }
  static Input of_text(char32_t c) { return {Kind::text, Key::none, c, 0, 0, 0, 0}; }
  static Input of_press(double x, double y) { return {Kind::press, Key::none, 0, x, y, 0, 0}; }
  static Input of_release(double x, double y) { return {Kind::release, Key::none, 0, x, y, 0, 0}; }
  static Input of_pointer(double x, double y) { return {Kind::pointer, Key::none, 0, x, y, 0, 0}; }
  static Input of_wheel(double x, double y, double w) {
    return {Kind::wheel, Key::none, 0, x, y, w, 0};
  }
};

}  // namespace beforehand::stage
