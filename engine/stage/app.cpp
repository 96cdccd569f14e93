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
#include <vector>

#include "stage/draw_surface.hpp"
#include "stage/gl_renderer.hpp"
#include "stage/program.hpp"
#include "stage/window.hpp"

namespace beforehand::stage {
namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;

constexpr double smallest_width = 1280, smallest_height = 720;
constexpr int exit_environment = 3;

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
  static constexpr const char* names[] = {"start",    "briefing", "drill",  "debrief", "observe",
                                          "rehearse", "improve",  "closed", "people"};
  return names[static_cast<int>(stand)];
}

// Everything that belongs to showing the program in a window.
class Show {
 public:
  Show(const AppOptions& options, Program& program, Clock::time_point begun)
      : program_(program),
        begun_(begun),
        wanted_(options.scale),
        window_(program.strings()("program.name"), options.width, options.height),
        theme_{{}, fitting_scale(wanted_, window_.width(), window_.height())},
        surface_(find_fonts(), theme_) {
    renderer_.upload(surface_.atlas());
    if (const auto& complaint = surface_.fonts().complaint(); !complaint.empty())
      std::fprintf(stderr, "%s\n", complaint.c_str());
  }

  void run() {
    auto before = Clock::now(), drawn = before - std::chrono::seconds(1);
    while (!program_.closed()) {
      const auto inputs = window_.inputs(!program_.moves());
      for (const auto& input : inputs) take(input);
      const auto now = Clock::now();
      program_.pass(std::chrono::duration_cast<std::chrono::microseconds>(now - before));
      before = now;
      const bool due =
          now - drawn >= std::chrono::milliseconds(500);  // the window may have been uncovered
      if (!program_.moves() && inputs.empty() && !due) continue;
      drawn = now;
      frame();
    }
  }

  const std::vector<std::string>& log() const { return log_; }

 private:
  void take(const Input& input) {
    const bool up = input.key == Key::scale_up, down = input.key == Key::scale_down;
    if (input.kind == Input::Kind::key && (up || down))
      wanted_ = std::clamp(wanted_ + (up ? 0.25 : -0.25), 1.0, 2.0);
    else
      program_.handle(input);
  }

  void frame() {
    const double before = processor_ms();
    const int width = window_.width(), height = window_.height();
    if (const double scale = fitting_scale(wanted_, width, height); scale != theme_.scale) {
      theme_.scale = scale;
      surface_.set_theme(theme_);
      renderer_.upload(surface_.atlas());
    }
    program_.draw(surface_.begin(width, height), theme_, width, height);
    renderer_.draw(surface_.end());
    window_.show();
    if (log_.empty()) {
      const std::chrono::duration<double, std::milli> first = Clock::now() - begun_;
      log_.push_back("first-frame " + std::to_string(first.count()));
    }
    log_.push_back(std::string(name_of(program_.stand())) + " " +
                   std::to_string(processor_ms() - before));
  }

  Program& program_;
  Clock::time_point begun_;
  double wanted_;
  Window window_;
  picture::Theme theme_;
  DrawSurface surface_;
  GlRenderer renderer_;
  std::vector<std::string> log_;
};

}  // namespace

double fitting_scale(double wanted, int width, int height) {
  const double fits = std::min(width / smallest_width, height / smallest_height);
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
    Outside outside{
        options.scenarios,
        [&](const std::string& scenario, std::uint64_t seed) {
          return new_recording(options.data, scenario, seed);
        },
        new_seed,
        [&](const std::string& scenario) { return observation_log(options.data, scenario); }};
    std::unique_ptr<RecordDesk> records;
    if (!options.store.empty()) {
      records = std::make_unique<RecordDesk>(options.store, options.data, calendar);
      outside.records = records.get();
    }
    Program program(read_shelf(options.scenarios), Strings::load(options.strings),
                    std::move(outside));
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
