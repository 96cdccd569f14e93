// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/app.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <memory>
#include <random>
#include <thread>
#include <vector>

#include "stage/draw_surface.hpp"
#include "stage/gl_renderer.hpp"
#include "stage/languages.hpp"
#include "stage/program.hpp"
#include "stage/sound.hpp"
#include "stage/window.hpp"

namespace beforehand::stage {
namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;

constexpr int exit_environment = 3;
constexpr std::chrono::microseconds frame_length{16'667};

double processor_ms() {
  timespec t{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) * 1e3 + static_cast<double>(t.tv_nsec) / 1e6;
}

// A name nobody has used yet, with the moment in it. The only use of the calendar is this name.
std::string new_recording(const fs::path& data, const std::string& scenario, std::uint64_t seed) {
  const auto folder = data / "recordings";
  std::error_code failed;
  fs::create_directories(folder, failed);  // a failure shows when the file is opened
  const std::time_t now = std::time(nullptr);
  char moment[32];
  std::strftime(moment, sizeof moment, "%Y%m%d-%H%M%S", std::localtime(&now));
  const std::string stem = scenario + "-" + moment + "-" + std::to_string(seed);
  auto file = folder / (stem + ".jsonl");
  for (int i = 2; fs::exists(file, failed); ++i)
    file = folder / (stem + "-" + std::to_string(i) + ".jsonl");
  return file.string();
}

// The one observation of a scenario that may still be going on.
std::string observation_log(const fs::path& data, const std::string& scenario) {
  std::error_code failed;
  fs::create_directories(data / "observations", failed);  // a failure shows when it is written
  return (data / "observations" / (scenario + "-open.case")).string();
}

std::uint64_t new_seed() {
  std::random_device device;
  return 1 + device() % 999'999;  // short enough to be typed again
}

records::Moment calendar() {
  return std::chrono::floor<std::chrono::milliseconds>(std::chrono::system_clock::now());
}

const char* name_of(Program::Stand stand) {
  static constexpr const char* names[] = {
      "start",   "briefing", "drill",  "debrief",  "observe", "rehearse",
      "improve", "closed",   "people", "settings", "replay",  "side-by-side",
      "set-up",  "turnover", "review", "compare",  "observed"};
  return names[static_cast<int>(stand)];
}

// Everything that belongs to showing the program in a window.
class Show {
 public:
  Show(const AppOptions& options, Program& program, Clock::time_point begun)
      : program_(program),
        begun_(begun),
        more_inputs_(options.more_inputs),
        sound_(options.speech),
        window_(program.strings()("program.name"), options.width, options.height),
        theme_(wanted_theme()),
        surface_(find_fonts(), theme_),
        renderer_([this] { window_.show(); }) {
    renderer_.upload(surface_.atlas());
    if (const auto& complaint = surface_.fonts().complaint(); !complaint.empty()) {
      std::fprintf(stderr, "%s\n", complaint.c_str());
      program_.complain(complaint);
    }
  }

  void run() {
    auto before = Clock::now(), drawn = before - std::chrono::seconds(1);
    while (!program_.closed()) {
      auto inputs = window_.inputs(!program_.moves());
      if (more_inputs_)
        for (const auto& input : more_inputs_(program_)) inputs.push_back(input);
      for (const auto& input : inputs) take(input);
      const auto now = Clock::now();
      program_.pass(std::chrono::duration_cast<std::chrono::microseconds>(now - before));
      before = now;
      const auto& settings = program_.settings();
      sound_.follow(program_.stand() == Program::Stand::drill ? program_.sitting() : nullptr,
                    settings.sound, settings.language);
      sound_.announce(program_.announced(), settings.language);
      const bool due =
          now - drawn >= std::chrono::seconds(1);  // the window may have been uncovered
      if (program_.moves() || !inputs.empty() || due) {
        if (frame(due)) drawn = now;
      }
      if (program_.moves()) std::this_thread::sleep_until(now + frame_length);
    }
  }

  const std::vector<std::string>& log() const { return log_; }

 private:
  void take(const Input& input) {
    const bool up = input.key == Key::scale_up, down = input.key == Key::scale_down;
    if (input.kind == Input::Kind::key && (up || down))
      program_.change_scale(up ? 25 : -25);
    else
      program_.handle(input);
  }

  picture::Theme wanted_theme() const {
    const auto& settings = program_.settings();
    return theme_for(settings, fitting_scale(settings.scale_percent / 100.0, window_.width(),
                                             window_.height(), program_.needs()));
  }

  // False when there was nothing new to show.
  bool frame(bool always) {
    const double before = processor_ms();
    const int width = window_.width(), height = window_.height();
    if (width <= 0 || height <= 0) return false;  // minimised
    const double scale = theme_.scale;
    theme_ = wanted_theme();
    if (scale != theme_.scale) {
      surface_.set_theme(theme_);
      renderer_.upload(surface_.atlas());
    }
    program_.draw(surface_.begin(width, height), theme_, width, height);
    const auto& shapes = surface_.end();
    const double built = processor_ms();
    if (!renderer_.draw(shapes, always)) return false;
    window_.show();
    if (log_.empty()) {
      const std::chrono::duration<double, std::milli> first = Clock::now() - begun_;
      log_.push_back("first-frame " + std::to_string(first.count()));
    }
    log_.push_back(std::string(name_of(program_.stand())) + " " +
                   std::to_string(processor_ms() - before) + " " + std::to_string(built - before));
    return true;
  }

  Program& program_;
  Clock::time_point begun_;
  std::function<std::vector<Input>(const Program&)> more_inputs_;
  Sound sound_;
  Window window_;
  picture::Theme theme_;
  DrawSurface surface_;
  GlRenderer renderer_;
  std::vector<std::string> log_;
};

}  // namespace

double fitting_scale(double wanted, int width, int height, Units needed) {
  const auto fit = [&](const Units& units) {
    return std::min(width / units.width, height / units.height);
  };
  // A little smaller with everything side by side is better than one thing at a time.
  const Units roomy{1280, 720};
  const double fits = fit(roomy) >= 0.85 * std::min(wanted, fit(needed)) ? fit(roomy) : fit(needed);
  const double scale = std::clamp(std::min(wanted, fits), 0.5, 2.0);
  return std::floor(scale * 20 + 1e-9) /
         20;  // few sizes, so that letters are not baked at every pixel
}

int run_window(const AppOptions& options) {
  const auto begun = Clock::now();
  if (const auto problem = display_problem(); !problem.empty()) {
    std::fprintf(stderr, "%s\n", problem.c_str());
    return exit_environment;
  }
  try {
    Outside outside;
    outside.scenarios = options.scenarios;
    outside.own_scenarios = options.own_scenarios;
    outside.new_recording = [&](const std::string& scenario, std::uint64_t seed) {
      return new_recording(options.data, scenario, seed);
    };
    outside.new_seed = new_seed;
    outside.observation = [&](const std::string& scenario) {
      return observation_log(options.data, scenario);
    };
    const auto languages = languages_in(options.strings);
    std::fprintf(stderr, "%s", languages.problems.c_str());
    outside.languages = languages.all;
    outside.strings_in = [&](const std::string& language) {
      return strings_in(options.strings, language);
    };
    outside.save = [&](const Settings& settings) {
      return options.settings.empty() ? std::string() : save_settings(settings, options.settings);
    };
    std::unique_ptr<RecordDesk> records;
    if (!options.store.empty() && options.replay.empty()) {
      records = std::make_unique<RecordDesk>(options.store, options.data, calendar);
      outside.records = records.get();
    }
    auto reading = load_settings(options.settings);
    for (const auto& problem : reading.problems) std::fprintf(stderr, "%s\n", problem.c_str());
    if (options.scale > 0)
      reading.settings.scale_percent = static_cast<int>(std::lround(options.scale * 100));
    auto shelf = read_shelf(options.scenarios, reading.settings.language);
    auto texts = strings_or_english(options.strings, reading.settings.language);
    Program program(std::move(shelf), std::move(texts), std::move(outside), {}, std::move(reading));
    program.complain(languages.problems);
    if (options.replay.size() > 1)
      program.show_side_by_side(options.replay[0], options.replay[1], Program::Stand::closed);
    else if (!options.replay.empty())
      program.show_replay(options.replay[0], Program::Stand::closed);
    if (program.replay()) program.replay()->show(options.replay_at);
    Show show(options, program, begun);
    show.run();
    if (!options.frame_times.empty()) {
      std::ofstream out(options.frame_times);
      for (const auto& line : show.log()) out << line << '\n';
    }
  } catch (const BadStrings& problem) {
    std::fprintf(stderr, "%s", problem.what());
    return exit_environment;
  }
  return 0;
}

}  // namespace beforehand::stage
