// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "commands.hpp"
#include "records/store.hpp"
#include "stage/app.hpp"
#include "stage/settings.hpp"

namespace beforehand::command {

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
  options.store = records::store_address(o.store, options.data);
  options.scale = o.scale;
  options.frame_times = o.frame_times;
  return stage::run_window(options);
}

}  // namespace beforehand::command
