// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "stage/input.hpp"
#include "stage/played.hpp"
#include "stage/units.hpp"

namespace beforehand::stage {

class Program;

struct AppOptions {
  std::string scenarios;      ///< folder of scenario folders
  std::string own_scenarios;  ///< the user's own, where copies go; empty: the same
  std::string strings;        ///< folder of the screens' texts, a file a language
  std::string speech;    ///< folder of what the clinician says, a folder a language; may be missing
  std::string settings;  ///< file to keep the settings in; empty: they are not kept
  std::string data;      ///< folder to keep recordings in; it is made when needed
  std::string store;     ///< address of the records (records/store.hpp); empty: none are kept
  double scale = 0;      ///< 1 to 2; 0: as in the settings
  int width = 1280, height = 720;
  /// A file that gets one line a frame shown when the window closes: the screen, and the processor
  /// time of all threads in milliseconds, whole and for building the shapes alone; the first line
  /// is the time from the call to the first frame shown. Empty: none.
  std::string frame_times;
  /// Played again instead of the way round: one session alone, two side by side. The window closes
  /// with it.
  std::vector<Played> replay;
  Ms replay_at{0};  ///< where it begins
  /// More inputs, asked for once a frame: whoever has no gamepad to plug in plays one through it,
  /// and the benchmark plays by what the program shows.
  std::function<std::vector<Input>(const Program&)> more_inputs{};
};

/// Opens the window and runs it until it is closed. Gives the process's exit code: 0, or 3 when the
/// environment does not allow a window, with the reason on stderr.
int run_window(const AppOptions&);

/// The user's own data folder for this program: XDG_DATA_HOME/beforehand, else
/// ~/.local/share/beforehand, else a folder in the current one (XDG Base Directory Specification
/// 0.8).
std::string data_folder();

/// The folder that holds the program's `assets` and `scenarios`: the nearest above the running
/// program, its share/beforehand looked at first; empty when there is none.
std::string home_folder();

/// The scale that a window of this size can show where a screen needs so many units.
double fitting_scale(double wanted, int width, int height, Units needed = {1280, 720});

}  // namespace beforehand::stage
