// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <cstdio>
#include <filesystem>

#include "commands.hpp"
#include "records.hpp"
#include "stage/app.hpp"
#include "stage/heard.hpp"
#include "stage/settings.hpp"
#include "stage/shelf.hpp"

namespace beforehand::command {
namespace {

namespace fs = std::filesystem;

// A line a text: the language, the name of its recording, and the text.
void list_speech(const fs::path& scenarios, const fs::path& strings) {
  for (const auto& file : fs::directory_iterator(strings)) {
    const auto language = file.path().stem().string();
    const auto t = Strings::load(file.path());
    for (const auto& item : stage::read_shelf(scenarios, language)) {
      if (!item.procedure) continue;
      if (item.procedure->language != language) continue;
      for (const auto& line : stage::spoken_lines(*item.procedure, t))
        std::printf("%s\t%s\t%s\n", language.c_str(), stage::speech_name(line).c_str(),
                    line.c_str());
    }
  }
}

}  // namespace

int window(const WindowOptions& o) {
  const auto home = stage::home_folder();
  if (home.empty())
    throw Failure(environment_at_fault,
                  "the folder \"assets\" is missing: it belongs beside or above the program");
  stage::AppOptions options;
  options.scenarios = o.scenarios.empty() ? home + "/scenarios" : o.scenarios;
  options.strings = home + "/assets/strings";
  options.speech = home + "/assets/speech";
  options.settings = stage::settings_file();
  options.data = stage::data_folder();
  if (o.scenarios.empty()) options.own_scenarios = options.data + "/scenarios";
  options.store = required_address(o.store);
  options.scale = o.scale;
  options.frame_times = o.frame_times;
  if (o.list_speech) {
    list_speech(options.scenarios, options.strings);
    return 0;
  }
  return stage::run_window(options);
}

}  // namespace beforehand::command
