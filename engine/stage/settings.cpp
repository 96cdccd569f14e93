// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/settings.hpp"

#include <charconv>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>

#include "base/strings.hpp"

namespace beforehand::stage {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t largest_file = 65'536;  // bytes

bool take_yes_or_no(std::string_view value, bool& out) {
  if (value != "yes" && value != "no") return false;
  out = value == "yes";
  return true;
}

bool take_scale(std::string_view value, int& out) {
  int percent = 0;
  const auto [end, error] = std::from_chars(value.data(), value.data() + value.size(), percent);
  if (error != std::errc() || end != value.data() + value.size()) return false;
  if (percent < 100 || percent > 200) return false;
  out = percent;
  return true;
}

// A language is a file's name: nothing that could lead elsewhere.
bool take_language(std::string_view value, std::string& out) {
  if (value.size() != 2) return false;
  for (const char c : value)
    if (c < 'a' || c > 'z') return false;
  out = value;
  return true;
}

bool take_letters(std::string_view value, Letters& out) {
  for (std::size_t i = 0; i < letters_count; ++i)
    if (word(static_cast<Letters>(i)) == value) {
      out = static_cast<Letters>(i);
      return true;
    }
  return false;
}

// "key.pause" or "button.pause".
bool take_key(std::string_view name, std::string_view value, KeyMap& keys) {
  const bool button = name.rfind("button.", 0) == 0;
  const auto deed = name.substr(name.find('.') + 1);
  const Key key = key_called(value);
  if (key == Key::none || (value.rfind("pad-", 0) == 0) != button) return false;
  for (std::size_t i = 0; i < deed_count; ++i)
    if (word(static_cast<Deed>(i)) == deed) {
      keys.put(static_cast<Deed>(i), key);
      return true;
    }
  return false;
}

constexpr std::string_view nothing_laid = "-";

// The name of a file: nothing that could lead elsewhere.
bool take_laid(std::string_view value, std::string& out) {
  if (value.empty() || value.size() > 200 || value.find('/') != std::string_view::npos)
    return false;
  out = value == nothing_laid ? std::string_view() : value;
  return true;
}

bool take(std::string_view name, std::string_view value, Settings& s) {
  if (name == "scale") return take_scale(value, s.scale_percent);
  if (name == "high-contrast") return take_yes_or_no(value, s.high_contrast);
  if (name == "reduced-motion") return take_yes_or_no(value, s.reduced_motion);
  if (name == "sound") return take_yes_or_no(value, s.sound);
  if (name == "language") return take_language(value, s.language);
  if (name == "left-handed") return take_yes_or_no(value, s.left_handed);
  if (name == "set-up") return take_yes_or_no(value, s.set_up);
  if (name == "lesson-known") return take_yes_or_no(value, s.lesson_known);
  if (name == "letters") return take_letters(value, s.keys.letters);
  if (name.rfind("key.", 0) == 0 || name.rfind("button.", 0) == 0)
    return take_key(name, value, s.keys);
  const auto scenario = std::string(name.substr(name.find('.') + 1));
  if (name.rfind("card.", 0) == 0) return take_laid(value, s.laid[scenario].card);
  if (name.rfind("materials.", 0) == 0) return take_laid(value, s.laid[scenario].materials);
  return false;
}

}  // namespace

picture::Theme theme_for(const Settings& settings, double scale) {
  picture::Theme theme;
  if (settings.high_contrast) theme.palette = picture::high_contrast();
  theme.scale = scale;
  theme.reduced_motion = settings.reduced_motion;
  theme.left_handed = settings.left_handed;
  return theme;
}

SettingsReading settings_from(std::string_view text, const std::string& name) {
  SettingsReading reading;
  Strings lines;
  try {
    lines = Strings::parse(text.substr(0, largest_file), name);
  } catch (const BadStrings& bad) {
    std::istringstream each(bad.what());
    for (std::string line; std::getline(each, line);) reading.problems.push_back(line);
    return reading;
  }
  for (const auto& [key, value] : lines.all())
    if (!take(key, value, reading.settings))
      reading.problems.push_back(name + ": \"" + key + " = " + value +
                                 "\" cannot be used; its default is");
  return reading;
}

std::string to_text(const Settings& s) {
  std::ostringstream out;
  const auto yes_or_no = [](bool yes) { return yes ? "yes" : "no"; };
  out << "scale = " << s.scale_percent << "\nhigh-contrast = " << yes_or_no(s.high_contrast)
      << "\nreduced-motion = " << yes_or_no(s.reduced_motion) << "\nsound = " << yes_or_no(s.sound)
      << "\nlanguage = " << s.language << "\nleft-handed = " << yes_or_no(s.left_handed)
      << "\nset-up = " << yes_or_no(s.set_up) << "\nlesson-known = " << yes_or_no(s.lesson_known)
      << "\nletters = " << word(s.keys.letters) << '\n';
  for (std::size_t i = 0; i < deed_count; ++i) {
    const auto deed = static_cast<Deed>(i);
    out << "key." << word(deed) << " = " << word(s.keys.key(deed)) << "\nbutton." << word(deed)
        << " = " << word(s.keys.button(deed)) << '\n';
  }
  const auto name_of = [](const std::string& file) {
    return file.empty() ? nothing_laid : std::string_view(file);
  };
  for (const auto& [scenario, laid] : s.laid)
    out << "card." << scenario << " = " << name_of(laid.card) << "\nmaterials." << scenario << " = "
        << name_of(laid.materials) << '\n';
  return out.str();
}

std::string settings_file() {
  const char* config = std::getenv("XDG_CONFIG_HOME");
  if (config != nullptr && fs::path(config).is_absolute())
    return (fs::path(config) / "beforehand/settings").string();
  const char* home = std::getenv("HOME");
  if (home != nullptr && *home != '\0')
    return (fs::path(home) / ".config/beforehand/settings").string();
  return "beforehand-settings";
}

SettingsReading load_settings(const std::string& file) {
  std::error_code failed;
  if (!fs::exists(file, failed)) return {};
  std::ifstream in(file, std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  if (!in && text.empty()) return {{}, {file + ": the settings cannot be read"}};
  return settings_from(text, file);
}

std::string save_settings(const Settings& settings, const std::string& file) {
  std::error_code failed;
  const fs::path path(file);
  if (path.has_parent_path()) fs::create_directories(path.parent_path(), failed);
  const std::string fresh = file + ".new";
  {
    std::ofstream out(fresh, std::ios::binary | std::ios::trunc);
    out << to_text(settings);
    out.flush();
    if (!out) {
      fs::remove(fresh, failed);
      return file + ": the settings cannot be written";
    }
  }
  fs::rename(fresh, path, failed);
  return failed ? file + ": " + failed.message() : std::string();
}

}  // namespace beforehand::stage
