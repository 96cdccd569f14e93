// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cstdio>
#include <functional>
#include <memory>

#include "commands.hpp"
#include "drill/bots.hpp"
#include "language.hpp"
#include "procedure/answers.hpp"
#include "records_line.hpp"
#include "report.hpp"

namespace {

namespace command = beforehand::command;
using Action = std::function<int()>;

void add_format(CLI::App& sub, std::string& format) {
  sub.add_option("--format", format, "text for people, json for programs")
      ->check(CLI::IsMember({"text", "json"}))
      ->capture_default_str();
}

void add_study_format(CLI::App& sub, std::string& format, std::string& language,
                      const char* picture) {
  sub.add_option(
         "--format", format,
         fmt::format("text for people, json for programs, svg: {}, html: a page to print", picture))
      ->check(CLI::IsMember({"text", "json", "svg", "html"}))
      ->capture_default_str();
  command::add_language(sub, language);
}

void add_layers(CLI::App& sub, command::Layers& layers) {
  sub.add_option("--card", layers.card,
                 "Preference card to lay over the scenario: its file, or its id");
  sub.add_option("--materials", layers.materials, "Materials file whose times to take");
}

void add_check(CLI::App& app, Action& action) {
  const auto o = std::make_shared<command::CheckOptions>();
  auto* sub = app.add_subcommand("check", "Every problem of a scenario file, with its place");
  sub->add_option("FILE", o->files, "Scenario, card, text or materials files")->required();
  add_layers(*sub, o->layers);
  sub->callback([&action, o] { action = [o] { return command::check(*o); }; });
}

void add_new(CLI::App& app, Action& action) {
  const auto o = std::make_shared<command::NewOptions>();
  auto* sub = app.add_subcommand(
      "new", "A scenario to start from, out of a few answers or a plain list of steps");
  sub->add_option("OUT", o->out, "Folder, or file ending in .yaml; never overwritten")->required();
  auto* from =
      sub->add_option("--from", o->from,
                      "File with the list; - for the standard input. Without it a terminal "
                      "asks, and what is piped in is the list");
  for (const auto& q : beforehand::procedure::questions("as the folder"))
    sub->add_option("--" + q.key, o->answers[q.key], q.text + " [" + q.answer + "]")
        ->excludes(from);
  sub->callback([&action, o] { action = [o] { return command::make_new(*o); }; });
}

void add_convert(CLI::App& app, Action& action) {
  const auto o = std::make_shared<command::ConvertOptions>();
  auto* sub = app.add_subcommand(
      "convert", "Writes files of an older format as of today's; the old ones stay beside them");
  sub->add_option("FILE", o->files, "Scenario, card, texts or materials")->required();
  sub->callback([&action, o] { action = [o] { return command::convert(*o); }; });
}

void add_plan(CLI::App& app, Action& action) {
  const auto o = std::make_shared<command::PlanOptions>();
  auto* sub = app.add_subcommand("plan", "The best this procedure can be, and what it hangs on");
  sub->add_option("FILE", o->file, "Scenario file, or SCENARIO+CARD")->required();
  sub->add_option("--signals", o->signals, "The signals that happen, as in A,B; none if not given")
      ->delimiter(',');
  sub->add_option("--phase", o->phase, "Plan one phase only, all before it done");
  sub->add_option("--time-limit", o->time_limit_s, "Seconds to search, then the best found")
      ->check(CLI::Range(0.0, 1e6))
      ->capture_default_str();
  sub->add_option("--format", o->format, "text for people, json for programs, svg: the chart")
      ->check(CLI::IsMember({"text", "json", "svg"}))
      ->capture_default_str();
  add_layers(*sub, o->layers);
  sub->callback([&action, o] { action = [o] { return command::plan(*o); }; });
}

void add_drill(CLI::App& app, Action& action) {
  const auto o = std::make_shared<command::DrillOptions>();
  auto* sub = app.add_subcommand("drill", "Play a scenario with a scripted assistant");
  sub->add_option("FILE", o->file, "Scenario file, or SCENARIO+CARD")->required();
  sub->add_option("--assistant", o->assistant,
                  std::string("Who assists: ") + beforehand::drill::habit_words)
      ->required();
  sub->add_option("--seed", o->seed, "Same seed, same clinician")->capture_default_str();
  sub->add_option("--phase", o->phase, "Play one phase only");
  sub->add_option("--level", o->level, "Noted in the recording")
      ->check(CLI::IsMember({"guided", "unaided", "assessed"}))
      ->capture_default_str();
  sub->add_option("--recording", o->recording, "Write the recording to this new file");
  sub->add_option("--trainee", o->trainee, "Name noted in the recording");
  sub->add_flag("--save", o->save, "Keep it in the trainee's records");
  sub->add_option("--store", o->store, "The store to keep it in; see records");
  add_format(*sub, o->format);
  add_layers(*sub, o->layers);
  sub->callback([&action, o] { action = [o] { return command::drill(*o); }; });
}

void add_score(CLI::App& app, Action& action) {
  const auto o = std::make_shared<command::ScoreOptions>();
  auto* sub = app.add_subcommand("score", "Verify a recording and score it again");
  sub->add_option("RECORDING", o->recording, "Recording file (.jsonl)")->required();
  sub->add_option("--scenario", o->scenario, "Scenario file; looked up by its id when not given");
  sub->add_option("--format", o->format,
                  "text for people, json for programs, html: a rehearsal's page to print")
      ->check(CLI::IsMember({"text", "json", "html"}))
      ->capture_default_str();
  command::add_language(*sub, o->language);
  add_layers(*sub, o->layers);
  sub->callback([&action, o] { action = [o] { return command::score(*o); }; });
}

void add_replay(CLI::App& app, Action& action) {
  const auto o = std::make_shared<command::ReplayOptions>();
  auto* sub = app.add_subcommand("replay", "Play a recording again: the room at any moment of it");
  sub->add_option("RECORDING", o->recording, "Recording file (.jsonl)")->required();
  sub->add_option("--beside", o->beside, "Another recording, to lay both on one axis of time");
  sub->add_option("--at", o->at_s, "Seconds from the start to begin at")
      ->check(CLI::Range(0.0, 1e6))
      ->capture_default_str();
  sub->add_option("--scenario", o->scenario, "Scenario file; looked up by its id when not given");
  sub->add_option("--format", o->format,
                  "window; text and json: what happened when; svg: the screen at that moment")
      ->check(CLI::IsMember({"window", "text", "json", "svg"}))
      ->capture_default_str();
  add_layers(*sub, o->layers);
  sub->callback([&action, o] { action = [o] { return command::replay(*o); }; });
}

void add_runs(CLI::App& sub, std::size_t& runs, std::uint64_t& seed, unsigned& threads) {
  sub.add_option("--runs", runs, "How many; without it as many as the command needs")
      ->check(CLI::Range(1, 10'000'000));
  sub.add_option("--seed", seed, "Of the first run; the next has the next")->capture_default_str();
  sub.add_option("--threads", threads, "0: as many as the machine runs at once; changes no figure")
      ->check(CLI::Range(0, 1024))
      ->capture_default_str();
}

void add_simulate(CLI::App& app, Action& action) {
  const auto o = std::make_shared<command::SimulateOptions>();
  auto* sub = app.add_subcommand("simulate", "Play a scenario many times, and what is usual then");
  sub->add_option("FILE", o->file, "Scenario file, or SCENARIO+CARD")->required();
  auto* who = sub->add_option(
      "--assistant", o->assistants,
      std::string("Who assists; may be given several times: ") + beforehand::drill::habit_words);
  sub->add_flag("--ladder", o->ladder, "All kinds of assistants with the same clinicians")
      ->excludes(who);
  add_runs(*sub, o->runs, o->seed, o->threads);
  add_study_format(*sub, o->format, o->language, "how the figures are spread");
  add_layers(*sub, o->layers);
  sub->callback([&action, o] {
    if (o->assistants.empty() && !o->ladder)
      throw CLI::RequiredError("one of --assistant and --ladder");
    action = [o] { return command::simulate(*o); };
  });
}

void add_compare(CLI::App& app, Action& action) {
  const auto o = std::make_shared<command::CompareOptions>();
  auto* sub = app.add_subcommand("compare", "Which of two procedures is faster and calmer");
  sub->add_option("A", o->a, "Scenario file, as it is")->required();
  sub->add_option("B", o->b, "Scenario file, the other way")->required();
  sub->add_option("--assistant", o->assistant,
                  std::string("Who assists in both: ") + beforehand::drill::habit_words)
      ->capture_default_str();
  add_runs(*sub, o->runs, o->seed, o->threads);
  sub->add_option("--time-limit", o->time_limit_s, "Seconds to search for each plan")
      ->check(CLI::Range(0.0, 1e6))
      ->capture_default_str();
  add_study_format(*sub, o->format, o->language, "both plans");
  sub->callback([&action, o] { action = [o] { return command::compare(*o); }; });
}

void add_improve(CLI::App& app, Action& action) {
  const auto o = std::make_shared<command::ImproveOptions>();
  auto* sub = app.add_subcommand("improve", "Other ways of working, and what each would save");
  sub->add_option("FILE", o->file, "Scenario file")->required();
  sub->add_option("--assistant", o->assistant,
                  std::string("Who assists: ") + beforehand::drill::habit_words)
      ->capture_default_str();
  add_runs(*sub, o->runs, o->seed, o->threads);
  sub->add_option("--time-limit", o->time_limit_s, "Seconds to search for each plan")
      ->check(CLI::Range(0.0, 1e6))
      ->capture_default_str();
  auto* accept = sub->add_option("--accept", o->accept, "Numbers of the list to take, as in 1,3")
                     ->delimiter(',')
                     ->check(CLI::PositiveNumber);
  auto* write = sub->add_option("--write", o->write, "New file for a copy with what was taken");
  accept->needs(write);
  write->needs(accept);
  add_study_format(*sub, o->format, o->language, "what each saves");
  sub->callback([&action, o] { action = [o] { return command::improve(*o); }; });
}

void add_observe(CLI::App& app, Action& action) {
  const auto o = std::make_shared<command::ObserveOptions>();
  auto* sub = app.add_subcommand("observe", "What a timed case comes to, and how long steps take");
  sub->add_option("--import", o->cases, "CSV file of a case: person,step,start,end; several times")
      ->required();
  auto* scenario = sub->add_option("--scenario", o->scenario, "The protocol to lay it beside");
  sub->add_option("--write", o->write, "New file for a copy of the scenario with these durations")
      ->needs(scenario);
  add_study_format(*sub, o->format, o->language, "the charts");
  sub->callback([&action, o] { action = [o] { return command::observe(*o); }; });
}

// Without a command the window opens; its options stand before any command.
void add_window(CLI::App& app, command::WindowOptions& o) {
  app.add_option("--scenarios", o.scenarios, "Folder of scenario folders, for the window");
  app.add_option("--store", o.store, "Where the window keeps its records; see records --help");
  app.add_option("--scale", o.scale, "Size of everything in the window")
      ->check(CLI::Range(1.0, 2.0));
  app.add_option("--frame-times", o.frame_times)->group("");
  app.add_flag("--list-speech", o.list_speech)->group("");  // for tools/sounds
}

int run(const Action& action) {
  try {
    return action();
  } catch (const command::Failure& e) {
    fmt::print(stderr, "beforehand: {}\n", e.what());
    return e.exit_code;
  } catch (const std::exception& e) {
    fmt::print(stderr, "beforehand: {}\n", e.what());
    return command::environment_at_fault;
  }
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App app{"Scored drills in four-handed dentistry: practise having the next thing ready."};
  app.name("beforehand");
  app.set_version_flag("--version", std::string("beforehand ") + BEFOREHAND_VERSION);
  Action action;
  command::WindowOptions window;
  add_window(app, window);
  add_check(app, action);
  add_new(app, action);
  add_convert(app, action);
  add_plan(app, action);
  add_drill(app, action);
  add_score(app, action);
  add_replay(app, action);
  add_simulate(app, action);
  add_compare(app, action);
  add_improve(app, action);
  add_observe(app, action);
  command::add_records(app, action);
  command::add_report_and_export(app, action);
  app.require_subcommand(0, 1);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& e) {
    const int code = app.exit(e);
    return code == 0 ? command::done : command::wrong_usage;
  }
  return run(action ? action : Action([&window] { return command::window(window); }));
}
