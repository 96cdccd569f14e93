// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/key_map.hpp"

#include <algorithm>

namespace beforehand::stage {
namespace {

constexpr std::array<std::string_view, deed_count> deed_words{
    "go",        "break-off", "pause", "slower", "quicker", "mark-up",
    "mark-down", "view",      "sound", "help",   "leave"};

struct KeyWord {
  Key key;
  std::string_view word;
};
constexpr KeyWord key_words[] = {
    {Key::up, "up"},
    {Key::down, "down"},
    {Key::left, "left"},
    {Key::right, "right"},
    {Key::enter, "enter"},
    {Key::escape, "escape"},
    {Key::tab, "tab"},
    {Key::back_tab, "back-tab"},
    {Key::space, "space"},
    {Key::backspace, "backspace"},
    {Key::page_up, "page-up"},
    {Key::page_down, "page-down"},
    {Key::home, "home"},
    {Key::end, "end"},
    {Key::insert, "insert"},
    {Key::del, "delete"},
    {Key::help, "f1"},
    {Key::settings, "f2"},
    {Key::f3, "f3"},
    {Key::f4, "f4"},
    {Key::f5, "f5"},
    {Key::f6, "f6"},
    {Key::f7, "f7"},
    {Key::f8, "f8"},
    {Key::pad_south, "pad-south"},
    {Key::pad_east, "pad-east"},
    {Key::pad_west, "pad-west"},
    {Key::pad_north, "pad-north"},
    {Key::pad_left_shoulder, "pad-left-shoulder"},
    {Key::pad_right_shoulder, "pad-right-shoulder"},
    {Key::pad_back, "pad-back"},
    {Key::pad_start, "pad-start"},
    {Key::pad_up, "pad-up"},
    {Key::pad_down, "pad-down"},
    {Key::pad_left, "pad-left"},
    {Key::pad_right, "pad-right"},
};

bool is_button(Key key) { return word(key).rfind("pad-", 0) == 0; }

}  // namespace

std::string_view word(Deed deed) { return deed_words[static_cast<std::size_t>(deed)]; }

std::string_view word(Key key) {
  for (const auto& entry : key_words)
    if (entry.key == key) return entry.word;
  return {};
}

Key key_called(std::string_view word) {
  for (const auto& entry : key_words)
    if (entry.word == word) return entry.key;
  return Key::none;
}

std::string cap_of(Key key, const Strings& t) {
  const auto name = word(key);
  if (name.empty()) return "?";
  if (key == Key::up) return "↑";
  if (key == Key::down) return "↓";
  if (key == Key::left) return "←";
  if (key == Key::right) return "→";
  const bool function = name.size() == 2 && name[0] == 'f' && name[1] >= '1' && name[1] <= '9';
  if (function) return "F" + std::string(1, name[1]);
  return t("key." + std::string(name));
}

std::string_view word(Letters letters) {
  static constexpr std::string_view words[] = {"qwerty", "qwertz", "azerty", "dvorak"};
  return words[static_cast<std::size_t>(letters)];
}

const std::array<std::string_view, 4>& rows_of(Letters letters) {
  static constexpr std::array<std::array<std::string_view, 4>, letters_count> rows{{
      {"1234567890", "qwertyuiop", "asdfghjkl", "zxcvbnm"},
      {"1234567890", "qwertzuiop", "asdfghjkl", "yxcvbnm"},
      {"1234567890", "azertyuiop", "qsdfghjkl", "wxcvbnm"},
      {"1234567890", "pyfgcrl", "aoeuidhtns", "qjkxbmwvz"},
  }};
  return rows[static_cast<std::size_t>(letters)];
}

const Deed* KeyMap::deed_of(Key key) const {
  static constexpr std::array<Deed, deed_count> deeds{
      Deed::go,        Deed::break_off, Deed::pause, Deed::slower, Deed::quicker, Deed::mark_up,
      Deed::mark_down, Deed::view,      Deed::sound, Deed::help,   Deed::leave};
  if (key == Key::none) return nullptr;
  for (std::size_t i = 0; i < deed_count; ++i)
    if (keys_[i] == key || buttons_[i] == key) return &deeds[i];
  return nullptr;
}

void KeyMap::put(Deed deed, Key key) {
  if (word(key).empty()) return;
  auto& where = is_button(key) ? buttons_ : keys_;
  auto& own = where[static_cast<std::size_t>(deed)];
  std::replace(where.begin(), where.end(), key, own);
  own = key;
}

Key plain_key(Key key) {
  switch (key) {
    case Key::pad_up:
      return Key::up;
    case Key::pad_down:
      return Key::down;
    case Key::pad_left:
      return Key::left;
    case Key::pad_right:
      return Key::right;
    case Key::pad_south:
    case Key::pad_start:
      return Key::enter;
    case Key::pad_east:
    case Key::pad_back:
      return Key::escape;
    case Key::pad_north:
      return Key::help;
    case Key::pad_west:
    case Key::pad_right_shoulder:
      return Key::tab;
    case Key::pad_left_shoulder:
      return Key::back_tab;
    default:
      return key;
  }
}

std::vector<std::string> key_lines(const KeyMap& keys, bool may_pause, const Strings& t) {
  const auto cap = [&](Deed deed) { return cap_of(keys.key(deed), t); };
  std::vector<std::string> lines{
      t("briefing.keys.cards"),
      t("briefing.keys.mark", {cap(Deed::mark_up), cap(Deed::mark_down), cap(Deed::go)}),
      t("briefing.keys.hold"),
      t("briefing.keys.line-up"),
      t("briefing.keys.break-off", {cap(Deed::break_off)}),
      t("briefing.keys.skip", {cap(Deed::go)})};
  if (may_pause)
    lines.push_back(
        t("briefing.keys.pause", {cap(Deed::pause), cap(Deed::slower), cap(Deed::quicker)}));
  else
    lines.push_back(t("briefing.keys.assessed"));
  lines.push_back(t("briefing.keys.leave", {cap(Deed::leave)}));
  lines.push_back(t("briefing.keys.sound", {cap(Deed::sound)}));
  lines.push_back(t("briefing.keys.scale"));
  return lines;
}

}  // namespace beforehand::stage
