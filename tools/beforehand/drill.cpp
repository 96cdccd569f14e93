// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <cstdio>
#include <memory>
#include <optional>
#include <vector>

#include "commands.hpp"
#include "drill/cast.hpp"
#include "drill/recording.hpp"
#include "saved_drill.hpp"

namespace beforehand::command {
namespace {

using drill::Level;
using procedure::Procedure;

drill::Setup set_up(const Procedure& p, const DrillOptions& o) {
  drill::Setup s;
  s.seed = o.seed;
  for (const auto l : {Level::guided, Level::unaided, Level::assessed}) {
    if (drill::word(l) == o.level) s.level = l;
  }
  if (!o.phase.empty()) s.phase = find_phase(p, o.phase);
  s.trainee = o.trainee;
  s.assistant = o.assistant;
  return s;
}

}  // namespace

int drill(const DrillOptions& o) {
  const auto habit = required_habit(o.assistant);
  const auto p = load_scenario(o.file, o.layers);
  drill::Run run(p, set_up(p, o));
  cast(run, habit);
  std::optional<SavedDrill> saved;
  if (o.save) saved.emplace(o);
  try {
    std::vector<std::unique_ptr<drill::RecordingWriter>> writers;
    for (const auto& file : {o.recording, saved ? saved->recording() : ""})
      if (!file.empty())
        writers.push_back(std::make_unique<drill::RecordingWriter>(file, p, run.session()));
    while (!run.over()) {
      const auto next = run.next_moment();
      if (next == never) {
        run.play_out();
      } else {
        run.advance_to(next);
      }
      for (const auto& writer : writers) writer->append(run.session());
    }
  } catch (const drill::RecordingError& e) {
    throw Failure(environment_at_fault, e.what());
  }
  if (saved) saved->finish();
  print_result(p, run.session(), o.format);
  return done;
}

}  // namespace beforehand::command
