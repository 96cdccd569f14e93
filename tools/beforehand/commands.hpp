// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

#include "drill/bots.hpp"
#include "drill/session.hpp"
#include "procedure/load.hpp"

// One function and one file a command; main.cpp reads the command line. All give the exit code.

namespace beforehand::command {

inline constexpr int done = 0, input_at_fault = 1, wrong_usage = 2, environment_at_fault = 3;

/// Ends a command with a message for the person and an exit code.
struct Failure : std::runtime_error {
  Failure(int code, const std::string& message) : std::runtime_error(message), exit_code(code) {}
  int exit_code;
};

struct WindowOptions {
  std::string scenarios, frame_times, store;
  double scale = 0;          ///< 0: as in the settings
  bool list_speech = false;  ///< instead of a window: what the clinician says, and its file's name
};
int window(const WindowOptions&);

/// What may be laid over a scenario: paths, empty for none.
struct Layers {
  std::string card, materials;
};

struct CheckOptions {
  std::vector<std::string> files;
  Layers layers;
};
int check(const CheckOptions&);

struct NewOptions {
  std::string out, from;
  std::map<std::string, std::string> answers;  ///< by procedure::Question::key; empty: not given
};
int make_new(const NewOptions&);

struct ConvertOptions {
  std::vector<std::string> files;
};
int convert(const ConvertOptions&);

struct DrillOptions {
  std::string file, assistant, phase, level = "unaided", recording, trainee, format = "text";
  std::string store;
  std::uint64_t seed = 1;
  bool save = false;
  Layers layers;
};
int drill(const DrillOptions&);

struct PlanOptions {
  std::string file, phase, format = "text";
  std::vector<std::string> signals;
  double time_limit_s = 60;
  Layers layers;
};
int plan(const PlanOptions&);

struct ScoreOptions {
  std::string recording, scenario, format = "text", language = "en";
  Layers layers;
};
int score(const ScoreOptions&);

struct ReplayOptions {
  std::string recording, beside, scenario, format = "window";
  double at_s = 0;
  Layers layers;
};
int replay(const ReplayOptions&);

struct SimulateOptions {
  std::string file, format = "text", language = "en";
  std::vector<std::string> assistants;
  bool ladder = false;
  std::size_t runs = 1000;
  std::uint64_t seed = 1;
  unsigned threads = 0;
  Layers layers;
};
int simulate(const SimulateOptions&);

struct CompareOptions {
  std::string a, b, assistant = "expert", format = "text", language = "en";
  std::size_t runs = 0;  ///< 0: until the difference is known within a second
  std::uint64_t seed = 1;
  unsigned threads = 0;
  double time_limit_s = 20;
};
int compare(const CompareOptions&);

struct ImproveOptions {
  std::string file, assistant = "expert", format = "text", language = "en", write;
  std::vector<std::size_t> accept;  ///< numbers of the list, from 1
  std::size_t runs = 1000;
  std::uint64_t seed = 1;
  unsigned threads = 0;
  double time_limit_s = 10;
};
int improve(const ImproveOptions&);

struct ObserveOptions {
  std::vector<std::string> cases;  ///< CSV files
  std::string scenario, write, format = "text", language = "en";
};
int observe(const ObserveOptions&);

/// A recording that was checked, with its procedure.
struct Recording {
  procedure::Procedure procedure;
  drill::Session session;
};
/// Reads a recording and plays it again; one that cannot be used, or whose events do not follow
/// from its commands, ends the command. An empty `scenario` is looked up by its id.
Recording load_recording(const std::string& path, const std::string& scenario, const Layers&);

/// Reads a scenario, "SCENARIO", "SCENARIO+CARD" or "CARD", with what is laid over it; its problems
/// go to the standard error, and errors end the command.
procedure::Procedure load_scenario(const std::string& input, const Layers& = {});

/// The files of an input with what is laid over it; ends the command where there is none.
procedure::Files files_of(const std::string& input, const Layers& = {});

/// The phase with this id; an id that is none's ends the command.
PhaseIx find_phase(const procedure::Procedure&, const std::string& id);

/// The bot of this name; a name that is none's ends the command.
drill::Habit required_habit(const std::string& name);

/// What a procedure is called with what was laid over it, in a line each, ended.
std::string title_lines(const procedure::Procedure&);

/// A file that comes with the program, by its name from the project's folder; empty when it is not
/// there.
std::string find_shipped(const std::string& name);

/// The file of the scenario with this id: in ./scenarios, or beside the program.
std::string find_scenario(const std::string& id);

/// The text of a file; one that cannot be read ends the command.
std::string load_file(const std::string& path);

/// Writes a new file, whole or not at all; one that is there already is kept, and ends the command.
void write_new(const std::string& path, const std::string& text);

/// The scored session on the standard output, in the format asked for.
void print_result(const procedure::Procedure&, const drill::Session&, const std::string& format,
                  const std::string& language = "en");

}  // namespace beforehand::command
