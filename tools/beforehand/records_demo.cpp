// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "procedure/reader.hpp"
#include "records.hpp"
#include "records/demo.hpp"
#include "records_json.hpp"
#include "stage/app.hpp"

namespace beforehand::command {
namespace {

namespace fs = std::filesystem;

// Every scenario that comes with the program.
std::vector<records::PlayedScenario> shipped() {
  const auto folder = fs::path(find_scenario("fissure-sealant")).parent_path().parent_path();
  std::vector<std::string> files;
  for (const auto& entry : fs::directory_iterator(folder))
    if (const auto file = entry.path() / "scenario.yaml"; fs::exists(file))
      files.push_back(file.string());
  std::sort(files.begin(), files.end());
  std::vector<records::PlayedScenario> list;
  for (const auto& file : files) list.push_back({load_scenario(file), procedure::load_text(file)});
  return list;
}

}  // namespace

int records_demo(const RecordsOptions& o) {
  // Never into the store that somebody works with.
  if (o.store.empty())
    throw Failure(wrong_usage, "name a new store for the invented class with --store FILE");
  records::DemoClass demo;
  demo.trainees = o.trainees;
  demo.sessions = o.sessions;
  demo.seed = o.seed;
  const auto scenarios = shipped();
  const bool terminal = isatty(STDERR_FILENO) != 0;
  return with_store(o, [&](records::Store& store) {
    records::fill_demo(store, scenarios, demo, [&](int done_drills, int all) {
      if (terminal) fmt::print(stderr, "\r{} of {} drills", done_drills, all);
    });
    if (terminal) fmt::print(stderr, "\n");
    const auto sessions = store.head().position - static_cast<int>(store.sign_offs({}).size());
    if (o.format == "json")
      print_json({{"store", store.address()},
                  {"trainees", demo.trainees},
                  {"sessions", sessions},
                  {"trainer", demo.trainer},
                  {"passcode", demo.passcode}});
    else
      fmt::print(
          "{} trainees with {} drills, all invented, are in {}.\nTheir trainer is {}, "
          "the passcode {}.\n",
          demo.trainees, sessions, store.address(), demo.trainer, demo.passcode);
    return done;
  });
}

}  // namespace beforehand::command
