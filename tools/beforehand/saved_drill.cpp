// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "saved_drill.hpp"

#include <fmt/format.h>

#include <optional>

#include "drill/recording.hpp"
#include "procedure/bundle.hpp"
#include "records.hpp"
#include "records/queue.hpp"
#include "stage/app.hpp"

namespace beforehand::command {
namespace {

records::Person trainee_of(const DrillOptions& o) {
  if (o.trainee.empty()) throw Failure(wrong_usage, "--save needs --trainee NAME");
  RecordsOptions store;
  store.store = o.store;
  records::Person who;
  with_store(store, [&](records::Store& s) {
    who = required_trainee(s, store, o.trainee);
    return done;
  });
  return who;
}

}  // namespace

struct SavedDrill::State {
  std::string address;
  records::Queue queue{stage::data_folder() + "/queue"};
  std::optional<records::Underway> underway;
};

SavedDrill::SavedDrill(const DrillOptions& o) : state_(std::make_unique<State>()) {
  const auto sources = procedure::load(files_of(o.file, o.layers)).sources;
  state_->address = required_address(o.store);
  try {
    state_->underway =
        state_->queue.begin(state_->address, trainee_of(o).id, drill::program_version,
                            procedure::bundle(sources), wall_clock());
  } catch (const records::StoreError& e) {
    throw Failure(environment_at_fault, e.what());
  }
}

SavedDrill::~SavedDrill() = default;

const std::string& SavedDrill::recording() const { return state_->underway->recording(); }

void SavedDrill::finish() {
  state_->underway->finish(wall_clock());
  state_->underway.reset();
  const auto d = state_->queue.deliver(state_->address, [] { return wall_clock(); });
  for (const auto& problem : d.problems) fmt::print(stderr, "beforehand: {}\n", problem);
}

}  // namespace beforehand::command
