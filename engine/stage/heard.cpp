// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/heard.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/time.hpp"
#include "picture/room_build.hpp"
#include "stage/captions.hpp"

namespace beforehand::stage {
namespace {

using drill::World;
using procedure::Procedure;
using procedure::Role;

constexpr double loop_seconds = 1.6;

double turn(double cycles) { return std::sin(2 * std::numbers::pi * cycles); }

// Noise that sounds the same each time: a small generator of our own.
class Hiss {
 public:
  explicit Hiss(std::uint32_t seed) : state_(seed) {}
  double next() {
    state_ = state_ * 1'664'525 + 1'013'904'223;
    return static_cast<double>(state_ >> 8) / 8'388'608.0 - 1;
  }

 private:
  std::uint32_t state_;
};

double smoothing(double pitch) { return 1 - std::exp(-2 * std::numbers::pi * pitch / sound_rate); }

// Hiss between two bounds of pitch: the difference of two smoothings.
class Band {
 public:
  Band(std::uint32_t seed, double low, double high)
      : hiss_(seed), slow_(smoothing(low)), fast_(smoothing(high)) {}
  double next() {
    const double x = hiss_.next();
    low_ += slow_ * (x - low_);
    high_ += fast_ * (x - high_);
    return high_ - low_;
  }

 private:
  Hiss hiss_;
  double slow_, fast_, low_ = 0, high_ = 0;
};

std::int16_t sample(double value) {
  return static_cast<std::int16_t>(std::lround(std::clamp(value, -1.0, 1.0) * 32'000));
}

// The end runs over into the beginning, so that the loop has no seam.
template <class Wave>
std::vector<std::int16_t> loop_of(Wave wave) {
  const auto length = static_cast<std::size_t>(loop_seconds * sound_rate), overlap = length / 8;
  std::vector<double> raw(length + overlap);
  for (std::size_t i = 0; i < raw.size(); ++i) raw[i] = wave(static_cast<double>(i) / sound_rate);
  std::vector<std::int16_t> samples(length);
  for (std::size_t i = 0; i < length; ++i) {
    const double in = i < overlap ? static_cast<double>(i) / static_cast<double>(overlap) : 1;
    const double over = i < overlap ? raw[length + i] * std::sqrt(1 - in) : 0;
    samples[i] = sample(raw[i] * std::sqrt(in) + over);
  }
  return samples;
}

bool is_handpiece(const procedure::Supply& supply) {
  const auto icon = picture::icon_for(supply.icon, supply.id, supply.name);
  return icon == "handpiece" || icon == "bur";
}

bool holds_handpiece(const Procedure& procedure, const World& world, PersonIx who) {
  for (std::size_t i = 0; i < procedure.supplies.size(); ++i)
    if (world.supplies[i].holder == who && is_handpiece(procedure.supplies[i])) return true;
  return false;
}

constexpr Ms slowing{2'500};
constexpr double slowest_turn = 0.5;  // of the full speed, when the step ends

}  // namespace

std::vector<bool> heard_in(const Procedure& procedure, const World& world) {
  const auto field = picture::field_of(procedure, world);
  std::vector<bool> heard(noise_count);
  const auto set = [&](Noise noise, bool on) { heard[static_cast<std::size_t>(noise)] = on; };
  set(Noise::suction, field.suction);
  set(Noise::handpiece, handpiece_speed(procedure, world) > 0);
  set(Noise::water, field.rinsing);
  set(Noise::air, field.drying);
  set(Noise::lamp, field.light);
  return heard;
}

double handpiece_speed(const Procedure& procedure, const World& world) {
  const auto clinician = procedure.who(Role::clinician);
  const auto* doing = world.person(clinician).attention();
  if (doing == nullptr || doing->helping || !holds_handpiece(procedure, world, clinician)) return 0;
  if (doing->ends == never || doing->ends - world.now >= slowing) return 1;
  const double left = to_seconds(std::max(Ms{0}, doing->ends - world.now)) / to_seconds(slowing);
  return slowest_turn + (1 - slowest_turn) * left;
}

Timers timers_in(const Procedure& procedure, const World& world) {
  Timers timers;
  for (std::size_t i = 0; i < procedure.supplies.size(); ++i) {
    const auto& now = world.supplies[i];
    if (now.state == procedure::SupplyState::set) ++timers.set;
    if (now.state != procedure::SupplyState::prepared || now.sets_at == never) continue;
    const Ms left = now.sets_at - world.now;
    if (left.count() * 4 < procedure.supplies[i].working_time.count()) ++timers.nearly_over;
  }
  return timers;
}

std::vector<std::int16_t> samples_of(Noise noise) {
  switch (noise) {
    case Noise::suction: {
      Band band(11, 350, 2'600);
      return loop_of([&](double t) { return 0.5 * band.next() + 0.03 * turn(110 * t); });
    }
    case Noise::handpiece: {
      Band band(23, 2'000, 7'000);
      return loop_of([&](double t) {
        return 0.10 * turn(2'350 * t + 0.02 * turn(5 * t)) + 0.05 * turn(4'700 * t) +
               0.12 * band.next();
      });
    }
    case Noise::water: {
      Band band(37, 900, 6'000);
      return loop_of([&](double t) { return (0.32 + 0.06 * turn(7.5 * t)) * band.next(); });
    }
    case Noise::air: {
      Band band(41, 2'500, 9'000);
      return loop_of([&](double) { return 0.4 * band.next(); });
    }
    case Noise::lamp:
      return loop_of([](double t) { return 0.05 * turn(220 * t) + 0.02 * turn(440 * t); });
  }
  return {};
}

std::vector<std::int16_t> samples_of(Ring ring) {
  const double pitch = ring == Ring::timer ? 880 : 330;
  std::vector<std::int16_t> samples(sound_rate * 7 / 10);
  for (std::size_t i = 0; i < samples.size(); ++i) {
    const double t = static_cast<double>(i) / sound_rate;
    const double attack = std::min(1.0, t * 200), end = std::min(1.0, (0.7 - t) * 40);
    samples[i] = sample(0.3 * attack * end * std::exp(-5 * t) *
                        (turn(pitch * t) + 0.4 * turn(2.76 * pitch * t)));
  }
  return samples;
}

std::vector<std::string> spoken_lines(const Procedure& procedure, const Strings& t) {
  std::vector<std::string> lines;
  const auto add = [&](const std::string& line) {
    if (!line.empty() && std::find(lines.begin(), lines.end(), line) == lines.end())
      lines.push_back(line);
  };
  add(procedure.plan);
  for (const auto& step : procedure.steps) {
    add(step.says);
    for (const auto& need : step.needs) add(request_for(procedure, need, t));
  }
  add(t("drill.thanks"));
  return lines;
}

std::string speech_name(std::string_view text) {
  std::uint64_t hash = 0xCBF29CE484222325ULL;  // FNV-1a, 64 bits
  for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001B3ULL;
  std::string name(16, '0');
  for (std::size_t i = 0; i < name.size(); ++i)
    name[i] = "0123456789abcdef"[(hash >> (60 - 4 * i)) & 15];
  return name;
}

}  // namespace beforehand::stage
