// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "generated.hpp"

#include <fmt/format.h>

#include <random>
#include <stdexcept>
#include <string>

#include "procedure/reader.hpp"

namespace beforehand::timing {

namespace {

class Writer {
 public:
  Writer(unsigned seed, std::size_t steps) : random_(seed), limit_(steps) {}

  std::string text() {
    add("open", "by: clinician, takes: {} s", around(40));
    last_ = "open";
    for (int n = 0; count_ + 7 <= limit_; ++n) {
      switch (n % 4) {
        case 0:
          apply(n, true);
          break;
        case 1:
          rinse(n);
          break;
        case 2:
          apply(n, false);
          break;
        default:
          cure(n);
      }
    }
    return head() + "supplies:\n" + supplies_ + "phases:\n  all: {title: All of it}\nsteps:\n" +
           steps_;
  }

 private:
  static std::string head() {
    return R"(beforehand: 1
id: generated
title: Generated
summary: Invented, for measuring.
plan: "As generated."
cautions: ["Made up by a program: never a model for treating anybody."]
people:
  clinician: {role: clinician, name: Clinician}
  assistant: {role: assistant, name: Assistant}
places:
  tray: {name: Tray, clock: 3, zone: assistant, motion: II, kind: tray}
  cabinet: {name: Cabinet, clock: 1, zone: static, motion: IV, kind: store}
  used: {name: Used things, clock: 2, zone: assistant, motion: III, kind: soiled}
devices:
  lamp: {name: Curing light}
)";
  }

  int around(int seconds) {
    return seconds + static_cast<int>(random_() % static_cast<unsigned>(seconds / 2 + 1));
  }

  template <class... Args>
  void add(const std::string& id, fmt::format_string<Args...> rest, Args&&... args) {
    steps_ += fmt::format("  - {{id: {}, title: {}, phase: all, {}}}\n", id, id,
                          fmt::format(rest, std::forward<Args>(args)...));
    ++count_;
  }

  // Set out, mixed and passed by the assistant, applied by the clinician; now and then taken back.
  void apply(int n, bool mixed) {
    const auto supply = fmt::format("material-{}", n), use = fmt::format("apply-{}", n);
    supplies_ += fmt::format(
        "  {}: {{name: Material {}, icon: paste, stored: cabinet, at: tray, "
        "ends: used, starts: stored{}}}\n",
        supply, n, mixed ? ", working-time: 90 s" : "");
    add(fmt::format("set-out-{}", n), "by: assistant, does: set-out, supply: {}, takes: {} s",
        supply, around(4));
    if (mixed) {
      add(fmt::format("mix-{}", n), "by: assistant, does: mix, supply: {}, takes: {} s", supply,
          around(12));
    }
    add(fmt::format("pass-{}", n), "by: assistant, does: pass, supply: {}, for: {}, takes: 2 s",
        supply, use);
    add(use, "by: clinician, takes: {} s, needs: [{}], after: [{}]", around(14), supply, last_);
    if (random_() % 2) {
      add(fmt::format("take-back-{}", n), "by: assistant, does: take-back, supply: {}, takes: 2 s",
          supply);
    }
    add(fmt::format("put-away-{}", n), "by: assistant, does: put-away, supply: {}, takes: {} s",
        supply, around(3));
    last_ = use;
  }

  void rinse(int n) {
    const auto tip = fmt::format("tip-{}", n), rinse = fmt::format("rinse-{}", n);
    supplies_ += fmt::format("  {}: {{name: Tip {}, icon: suction-tip, at: tray}}\n", tip, n);
    add(rinse,
        "by: clinician, takes: {} s, after: [{{step: {}, at-most: 60 s, if-late: too long}}]",
        around(10), last_);
    add(fmt::format("suction-{}", n), "by: assistant, does: suction, supply: {}, covers: [{}]", tip,
        rinse);
    add(fmt::format("dry-{}", n), "by: clinician, takes: {} s, after: [{}]", around(6), rinse);
    last_ = fmt::format("dry-{}", n);
  }

  void cure(int n) {
    const auto id = fmt::format("cure-{}", n);
    supplies_ += fmt::format("  light-{}: {{name: Light {}, icon: lamp, at: tray}}\n", n, n);
    add(id,
        "by: [assistant, clinician], does: light, supply: light-{}, takes: {} s, devices: [lamp], "
        "after: [{}]",
        n, around(20), last_);
    add(fmt::format("shape-{}", n), "by: clinician, takes: {} s, after: [{}]", around(25), id);
    last_ = fmt::format("shape-{}", n);
  }

  std::mt19937 random_;
  std::size_t limit_, count_ = 0;
  std::string supplies_, steps_, last_;
};

}  // namespace

procedure::Procedure generated(unsigned seed, std::size_t steps) {
  const auto text = Writer(seed, steps).text();
  auto reading = procedure::read(text);
  if (!reading.procedure) throw std::logic_error(print(reading.problems, "generated", text));
  return std::move(*reading.procedure);
}

}  // namespace beforehand::timing
