// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Helpers to play the program in a test, as a person would.
#pragma once

#include <filesystem>
#include <string>

#include "audit_canvas.hpp"
#include "stage/program.hpp"

namespace beforehand::stage {

/// The texts of the screens in English, or in another language.
Strings english();
Strings in_language(const std::string& code);

/// A shelf with the smallest scenario.
std::vector<ShelfItem> tiny_shelf();

/// The scenarios that are shipped.
std::vector<ShelfItem> shipped_shelf();

/// A folder of its own that is gone with the object.
class TemporaryFolder {
 public:
  TemporaryFolder();
  ~TemporaryFolder();
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  std::string operator/(const std::string& name) const { return (path_ / name).string(); }
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

/// Settings for tests of the drill alone: no tray before it and no clearing up after it.
SettingsReading drill_alone(const std::string& language = "en");

/// A program whose drills all have the same seed; recordings go to the folder, or nowhere. `tasks`:
/// with the tray before the drill and clearing up after it.
Program program_on(std::vector<ShelfItem> shelf, const TemporaryFolder* recordings = nullptr,
                   const std::string& language = "en", bool tasks = false);

/// A calendar that goes on by a second whenever it is asked, from 2 March 2026, 09:00.
records::Clock ticking();

void press(Program&, Key);
void type(Program&, const std::string& text);

/// Does by keyboard what the lesson asks for now.
void obey_lesson(Program&);

/// The keys of the most urgent thing that can be begun now; none when there is no such thing.
std::string urgent_keys(const Program&);

/// Types the card of the most urgent thing that can be begun now; false when there is none.
bool do_what_is_urgent(Program&);

/// Plays the drill by keyboard until the debrief is there, a tenth of a second at a time; false
/// when it does not come within two hours of drill time.
bool play_to_debrief(Program&);

/// The screen as it is now, in a window of this size and scale.
Seen look_at(Program&, double width, double height, double scale);

/// The same with another theme; `grounds`: how much each text stands out is looked for too.
Seen look_at(Program&, double width, double height, const picture::Theme&, bool grounds = true);

/// Whether a window of 1280 by 720 shows this text.
bool shows(Program&, const std::string& text);

/// Presses the mouse on a text of the screen; false when it is not there.
bool press_on(Program&, const std::string& text);

}  // namespace beforehand::stage
