// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "picture/palette.hpp"
#include "stage/key_map.hpp"

namespace beforehand::stage {

/// What was laid over a scenario when it was practised last: the names of files, without ".yaml";
/// empty: nothing.
struct Laid {
  std::string card, materials;
  bool operator==(const Laid&) const = default;
};

/// How a person wants to see, hear and handle the program.
struct Settings {
  int scale_percent = 100;  ///< 100 to 200
  bool high_contrast = false;
  bool reduced_motion = false;
  bool sound = true;
  std::string language = "en";  ///< the name of a file of strings
  bool left_handed = false;     ///< the operator; the room is mirrored
  bool set_up = true;           ///< lay the tray before a drill and clear up after it
  bool lesson_known = false;    ///< the lesson in the controls was taken or declined
  KeyMap keys;
  std::map<std::string, Laid> laid;  ///< by the scenario's id

  bool operator==(const Settings&) const = default;
};

/// The theme that the settings ask for, its scale cut down to `scale`.
picture::Theme theme_for(const Settings&, double scale);

/// Settings from lines "name = value". What cannot be used keeps its default, and `problems` says
/// so, one a line: "name:line: ...".
struct SettingsReading {
  Settings settings;
  std::vector<std::string> problems;
};
SettingsReading settings_from(std::string_view text, const std::string& name);
std::string to_text(const Settings&);

/// XDG_CONFIG_HOME/beforehand/settings, else ~/.config/beforehand/settings, else a file in the
/// current folder (XDG Base Directory Specification 0.8).
std::string settings_file();

/// Reads the file; one that is not there gives the defaults.
SettingsReading load_settings(const std::string& file);
/// Writes a new file and puts it in the old one's place, so that the file is whole at every moment.
/// Gives what went wrong, or nothing.
std::string save_settings(const Settings&, const std::string& file);

}  // namespace beforehand::stage
