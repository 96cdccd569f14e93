// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "commands.hpp"
#include "drill/recording.hpp"
#include "procedure/reader.hpp"

namespace beforehand::command {

Recording load_recording(const std::string& path, const std::string& scenario,
                         const Layers& given) {
  try {
    const auto text = procedure::load_text(path);
    const auto header = drill::header_of(text, path);
    auto layers = given;
    if (layers.card.empty()) layers.card = header.card;
    Recording r{load_scenario(scenario.empty() ? find_scenario(header.scenario) : scenario, layers),
                {}};
    r.session = drill::from_text(text, r.procedure, path);
    drill::verify(r.procedure, r.session, path);
    return r;
  } catch (const Failure&) {
    throw;
  } catch (const std::runtime_error& e) {
    throw Failure(input_at_fault, e.what());
  }
}

int score(const ScoreOptions& o) {
  const auto r = load_recording(o.recording, o.scenario, o.layers);
  print_result(r.procedure, r.session, o.format, o.language);
  return done;
}

}  // namespace beforehand::command
