// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "drill/command.hpp"
#include "drill/event.hpp"
#include "procedure/procedure.hpp"

namespace beforehand::drill {

enum class Level : std::uint8_t { guided, unaided, assessed };
std::string_view word(Level);

/// What a drill is played with, apart from the procedure and the commands.
struct Setup {
  std::uint64_t seed = 1;
  Level level = Level::unaided;
  PhaseIx phase;          ///< none: the whole procedure
  std::string trainee;    ///< as typed; may be empty
  std::string assistant;  ///< "human", "team" or the bot's name as on the command line
};

/// One run of a scenario: what scoring reads. Commands and events are in order of time.
struct Session {
  Setup setup;
  std::string scenario;           ///< id
  std::uint64_t fingerprint = 0;  ///< of the scenario's text
  std::vector<Command> commands;
  std::vector<std::uint32_t> events_before;  ///< by command: how many events came before it
  std::vector<Event> events;  ///< the last one is `ended` unless the recording was cut off
  bool complete() const { return !events.empty() && events.back().what == What::ended; }
};

}  // namespace beforehand::drill
