// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Measures the window: bench_window SCENARIO OUT [WIDTH HEIGHT SCALE]. Plays one guided drill of a
// shipped scenario in a real window, in real time, as somebody practised types it, and writes what
// each frame took; then stays in the debrief for ten seconds and ends. tools/bench/run reads it.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <ctime>
#include <fstream>
#include <string>
#include <thread>
#include <vector>

#include "playing.hpp"
#include "stage/app.hpp"

namespace {

using namespace beforehand::stage;
namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;

std::vector<Input> typed(const std::string& keys) {
  std::vector<Input> inputs;
  for (const char c : keys) {
    inputs.push_back(Input::of_symbol(static_cast<char32_t>(c)));
    inputs.push_back(Input::of_text(static_cast<char32_t>(c)));
  }
  return inputs;
}

/// What a practised person does at each frame: waits a second before each screen, plays the drill,
/// and closes the window ten seconds after it.
class Practised {
 public:
  std::vector<Input> operator()(const Program& program) {
    const auto stand = program.stand();
    if (stand != before_) since_ = Clock::now();
    before_ = stand;
    if (stand == Program::Stand::drill) return typed(urgent_keys(program));
    const bool over = stand == Program::Stand::debrief;
    if (Clock::now() - since_ < std::chrono::seconds(over ? 10 : 1)) return {};
    since_ = Clock::now();
    Input close;
    close.kind = Input::Kind::close;
    return {over ? close : Input::of_key(Key::enter)};
  }

 private:
  Program::Stand before_ = Program::Stand::closed;
  Clock::time_point since_ = Clock::now();
};

// How evenly this machine works: the processor time of one and the same piece of work, begun sixty
// times a second for five seconds. A frame's figures can be no better than that.
void measure_the_machine() {
  std::vector<double> took;
  volatile unsigned sum = 0;
  for (int i = 0; i < 300; ++i) {
    const auto begun = std::clock();
    for (unsigned k = 0; k < 1'000'000; ++k) sum = sum + k;
    took.push_back(1000.0 * static_cast<double>(std::clock() - begun) / CLOCKS_PER_SEC);
    std::this_thread::sleep_for(std::chrono::milliseconds(16));
  }
  std::sort(took.begin(), took.end());
  std::printf(
      "the same piece of work each time takes this machine %.2f ms, at the 99th percentile %.2f "
      "ms\n",
      took[took.size() / 2], took[took.size() * 99 / 100]);
  std::fflush(stdout);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3 && argc != 6) {
    std::fprintf(stderr, "usage: bench_window SCENARIO OUT [WIDTH HEIGHT SCALE]\n");
    return 2;
  }
  measure_the_machine();
  const TemporaryFolder folder;
  fs::create_directory(folder / "scenarios");
  AppOptions options;
  options.scenarios = folder / "scenarios";
  for (const auto& part : {std::string("materials"), std::string(argv[1])})
    fs::copy(PROJECT_DIR "/scenarios/" + part, folder / ("scenarios/" + part),
             fs::copy_options::recursive);
  options.strings = PROJECT_DIR "/assets/strings";
  options.speech = PROJECT_DIR "/assets/speech";  // heard where there is a sound card
  options.data = folder / "data";
  options.frame_times = argv[2];
  options.settings = folder / "settings";
  std::ofstream(options.settings) << to_text(drill_alone().settings);
  if (argc == 6) {
    options.width = std::stoi(argv[3]);
    options.height = std::stoi(argv[4]);
    options.scale = std::stod(argv[5]);
  }
  options.more_inputs = Practised();
  return run_window(options);
}
