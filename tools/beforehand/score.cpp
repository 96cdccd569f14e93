// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "commands.hpp"
#include "drill/recording.hpp"
#include "procedure/reader.hpp"

namespace beforehand::command {

int score(const ScoreOptions& o) {
  try {
    const auto text = procedure::load_text(o.recording);
    const auto header = drill::header_of(text, o.recording);
    const auto file = o.scenario.empty() ? find_scenario(header.scenario) : o.scenario;
    auto layers = o.layers;
    if (layers.card.empty()) layers.card = header.card;
    const auto p = load_scenario(file, layers);
    const auto session = drill::from_text(text, p, o.recording);
    drill::verify(p, session, o.recording);
    print_result(p, session, o.format);
    return done;
  } catch (const drill::RecordingError& e) {
    throw Failure(input_at_fault, e.what());
  } catch (const Failure&) {
    throw;
  } catch (const std::runtime_error& e) {
    throw Failure(input_at_fault, e.what());
  }
}

}  // namespace beforehand::command
