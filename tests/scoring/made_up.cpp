// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "made_up.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "base/random.hpp"
#include "procedure/reader.hpp"

namespace beforehand::test {
namespace {

constexpr const char* head = R"(beforehand: 1
id: made-up
title: Made up by chance
summary: Made up by a program, to test with. Invented.
plan: "As it comes."
cautions: ["Made up by a program: never a model for treating anybody."]
people:
  clinician: {role: clinician, name: Clinician}
  assistant: {role: assistant, name: Assistant}
)";

constexpr const char* second_assistant = "  second: {role: second-assistant, name: Second}\n";

constexpr const char* places = R"(places:
  tray: {name: Tray, clock: 3, zone: assistant, motion: II, kind: tray}
  counter: {name: Counter, clock: 2.5, zone: assistant, motion: III, kind: counter}
  unit: {name: Unit, clock: 4, zone: assistant, motion: I, kind: holder}
  cabinet: {name: Cabinet, clock: 1, zone: static, motion: IV, kind: store}
  used: {name: Used things, clock: 2, zone: assistant, motion: II, kind: soiled}
  waste: {name: Waste, clock: 2.2, zone: assistant, motion: III, kind: waste}
devices:
  lamp: {name: Curing light}
)";

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : seed_(seed) {}
  int below(int n) {
    return static_cast<int>(keyed_bits({seed_, 0, ++count_}) % static_cast<std::uint64_t>(n));
  }
  int between(int least, int most) { return least + below(most - least + 1); }
  bool chance(int percent) { return below(100) < percent; }

 private:
  std::uint64_t seed_, count_ = 0;
};

class Writer {
 public:
  Writer(std::uint64_t seed, const Shape& shape) : seed_(seed), shape_(shape), dice_(seed) {}

  std::string text() {
    const bool two = dice_.chance(25);
    if (two) suction_by_ = "second";
    supplies_ =
        "  tip: {name: Suction tip, icon: suction-tip, at: unit, after-use: ready}\n"
        "  light: {name: Curing light, icon: curing-light, at: unit, after-use: ready, "
        "hazards: [bright]}\n"
        "  sheet: {name: Record, icon: record-sheet, at: counter, after-use: ready}\n";
    for (int i = 0; i < shape_.phases; ++i) phase(i);
    std::string all = std::string(head) + (two ? second_assistant : "") + places;
    all += "supplies:\n" + supplies_;
    if (!signals_.empty()) all += "signals:\n" + signals_;
    return all + "phases:\n" + phases_ + "steps:\n" + steps_;
  }

 private:
  void phase(int i) {
    const int drawn = shape_.distinct > 0 ? i % shape_.distinct : i;
    dice_ = Dice(keyed_bits({seed_, fnv1a("phase"), static_cast<std::uint64_t>(drawn)}));
    phase_ = fmt::format("phase-{}", i + 1);
    phases_ += fmt::format("  {}: {{title: Phase {}}}\n", phase_, i + 1);
    surprise_before_.clear();
    plain(dice_.between(8, 30));
    if (dice_.chance(50)) side_duty();
    const auto list = shape_.duties > 0 ? supply("record-sheet", ", after-use: ready") : "";
    for (int b = 0; b < shape_.blocks; ++b) {
      more_duties(list);
      block();
    }
  }

  void block() {
    spare_ = std::min(spare_, 15);
    switch (dice_.below(6)) {
      case 0:
      case 1:
        return hand_over();
      case 2:
        return rinse();
      case 3:
        return etch();
      case 4:
        return increments();
      default:
        return shape_.signals && signal_count_ < 12 ? surprise() : hand_over();
    }
  }

  // Parts of steps -------------------------------------------------------------------------------

  std::string id(const char* what) { return fmt::format("{}-{}", what, ++count_); }

  std::string duration(int usual, int* least = nullptr, int* most = nullptr) {
    const int l = usual - usual * dice_.below(21) / 100, m = usual + usual * dice_.below(31) / 100;
    if (least != nullptr) *least = l;
    if (most != nullptr) *most = m;
    return fmt::format("{{least: {} s, usual: {} s, most: {} s}}", l, usual, m);
  }

  void step(const std::string& id, const std::string& by, const std::string& rest) {
    static constexpr const char* severities[] = {"minor", "minor", "major", "critical"};
    steps_ += fmt::format("  - {{id: {}, title: {}, phase: {}, by: {}, severity: {}, {}}}\n", id,
                          id, phase_, by, severities[dice_.below(4)], rest);
  }

  /// Work of the assistant's that has to be done some time.
  void duty(const std::string& id, const std::string& rest, int seconds) {
    step(id, "assistant", fmt::format("{}, takes: {} s", rest, seconds));
    spare_ -= seconds + 2;  // and the reach
  }

  /// The clinician's own next step.
  void own(const std::string& id, int usual, const std::string& rest,
           const std::string& after = "") {
    int least = 0;
    const auto takes = duration(usual, &least, &most_);
    const auto before = !after.empty() ? after : last_.empty() ? std::string() : "[" + last_ + "]";
    step(id, "clinician",
         fmt::format("takes: {}{}{}", takes, rest.empty() ? "" : ", " + rest,
                     before.empty() ? "" : ", after: " + before));
    last_ = id;
    spare_ += least;
  }

  void plain(int usual) { own(id("work"), usual, dice_.chance(15) ? "lapse: true" : ""); }

  /// The clinician is at work for as long as the preparations to come will take.
  void room_for(int seconds) {
    if (spare_ < seconds) plain((seconds - spare_) * 5 / 4 + dice_.between(4, 20));
  }

  std::string supply(const char* icon, const std::string& rest) {
    const auto name = id("thing");
    supplies_ += fmt::format("  {}: {{name: Thing {}, icon: {}, at: {}, ends: waste{}}}\n", name,
                             count_, icon, dice_.chance(30) ? "counter" : "tray", rest);
    return name;
  }

  void pass(const std::string& what, const std::string& to, const std::string& rest = "") {
    duty(id("pass"), fmt::format("does: pass, supply: {}, for: {}{}", what, to, rest), 2);
  }

  // Blocks ---------------------------------------------------------------------------------------

  void side_duty() { duty(id("check"), "does: check, supply: sheet", dice_.between(3, 8)); }

  void more_duties(const std::string& list) {
    if (shape_.duties > 0) plain(8 * shape_.duties);
    for (int i = 0; i < shape_.duties; ++i)
      duty(id("check"), "does: check, supply: " + list, dice_.between(3, 8));
  }

  void hand_over() {
    const bool kept = dice_.chance(30), sets = shape_.sets && dice_.chance(45);
    const int use = dice_.between(8, 40);
    const bool mixed = sets || dice_.chance(20);
    room_for((kept ? 8 : 0) + (mixed ? 18 : 0) + 8);
    const auto working =
        sets ? fmt::format(", working-time: {} s", use * 13 / 10 + most_ / 3 + 30 + dice_.below(60))
             : "";
    const auto what = supply("bottle", working + (kept ? ", stored: cabinet" : ""));
    if (kept) duty(id("set-out"), "does: set-out, supply: " + what, dice_.between(2, 4));
    if (mixed) duty(id("mix"), "does: mix, supply: " + what, dice_.between(6, 14));
    const auto user = id("use");
    pass(what, user);
    own(user, use, fmt::format("needs: [{}]", what));
    after_use(what);
  }

  /// What comes after a use: a hand-back, the waste, or nothing.
  void after_use(const std::string& what) {
    const int then = dice_.below(4);
    if (then == 0) {
      duty(id("take-back"), "does: take-back, supply: " + what, 2);
      plain(dice_.between(12, 30));
    }
    if (then <= 1) duty(id("put-away"), "does: put-away, supply: " + what, dice_.between(2, 4));
  }

  void suction(const std::string& covered) {
    step(id("suction"), suction_by_,
         fmt::format("does: suction, supply: tip, covers: [{}]", covered));
  }

  void rinse() {
    room_for(4);
    const auto washed = id("rinse");
    const auto after = fmt::format("[{{step: {}, at-most: {} s, if-late: too long}}]", last_,
                                   dice_.between(20, 60));
    suction(washed);
    own(washed, dice_.between(8, 25), "", after);
    if (dice_.chance(50)) dry();
  }

  void dry() {
    const auto dried = id("dry");
    const auto what = supply("pellet", "");
    step(dried, "[assistant, clinician]",
         fmt::format("does: dry, supply: {}, takes: {} s, after: [{}]", what, dice_.between(3, 6),
                     last_));
    last_ = dried;
    spare_ = 0;
    plain(dice_.between(15, 30));
  }

  void etch() {
    room_for(8);
    const auto what = supply("etchant-syringe", ", hazards: [caustic]");
    const auto etched = id("etch"), washed = id("rinse");
    pass(what, etched);
    own(etched, 15, fmt::format("needs: [{}]", what));
    const auto after = fmt::format(
        "[{{step: {0}, from: start, at-least: 10 s, at-most: {1} s, if-late: over-etched}}, {0}]",
        etched, most_ + dice_.between(5, 10));
    suction(washed);
    own(washed, dice_.between(12, 25), "", after);
    if (dice_.chance(50)) duty(id("put-away"), "does: put-away, supply: " + what, 3);
    if (dice_.chance(60)) plain(dice_.between(15, 30));
  }

  void cure() {
    const auto cured = id("cure");
    step(cured, "[assistant, clinician]",
         fmt::format("does: light, supply: light, takes: {} s, attention: false, devices: [lamp], "
                     "after: [{}]",
                     dice_.between(15, 20), last_));
    last_ = cured;
    spare_ += 13;
  }

  void increments() {
    room_for(16);
    const auto what = supply("placing-instrument", shape_.sets && dice_.chance(60)
                                                       ? ", after-use: reload, working-time: 90 s"
                                                       : ", after-use: reload");
    const int times = dice_.between(2, 4);
    for (int i = 0; i < times; ++i) {
      const auto placed = id("place");
      duty(id("load"), "does: load, supply: " + what, dice_.between(3, 6));
      pass(what, placed);
      own(placed, dice_.between(15, 35), fmt::format("needs: [{}]", what));
      cure();
    }
    plain(dice_.between(15, 30));
  }

  /// Now and then it bleeds while the clinician works, and once it has, it will again.
  void surprise() {
    const auto seen = id("look"), signal = id("bleeding");
    own(seen, dice_.between(18, 40), "");
    const auto foretold =
        surprise_before_.empty()
            ? std::string()
            : fmt::format(", foretold: [{{by: {}, likely: 100 %}}]", surprise_before_);
    const int likely = dice_.between(20, 60), delay = dice_.between(2, 5);  // in this order
    signals_ += fmt::format(
        "  {}: {{title: It bleeds, cue: Red, likely: {} %, after: {}, from: start, delay: {} "
        "s{}}}\n",
        signal, likely, seen, delay, foretold);
    ++signal_count_;
    const auto what = supply("gauze", ""), dabbed = id("dab");
    pass(what, dabbed,
         fmt::format(", when: [{}], after: [{{step: {}, from: start}}]", signal, seen));
    own(dabbed, dice_.between(6, 14), fmt::format("needs: [{}], when: [{}]", what, signal));
    own(id("work"), dice_.between(12, 30), "", fmt::format("[{}, {}]", seen, dabbed));
    spare_ = 12;
    surprise_before_ = signal;
  }

  std::uint64_t seed_;
  Shape shape_;
  Dice dice_;
  std::string supplies_, signals_, phases_, steps_;
  std::string phase_, last_, surprise_before_, suction_by_ = "assistant";
  int count_ = 0, signal_count_ = 0;
  int spare_ = 0;  ///< seconds the assistant has had for preparing, and not used
  int most_ = 0;   ///< the longest the clinician's last step can take
};

}  // namespace

Shape any_shape(std::uint64_t seed) {
  Dice dice(keyed_bits({seed, fnv1a("shape"), 0}));
  Shape shape;
  shape.phases = dice.between(1, 5);
  shape.blocks = dice.between(2, 5);
  return shape;
}

std::string made_up_text(std::uint64_t seed, const Shape& shape) {
  return Writer(seed, shape).text();
}

procedure::Procedure made_up(std::uint64_t seed, const Shape& shape) {
  const auto text = made_up_text(seed, shape);
  auto reading = procedure::read(text);
  if (!reading.procedure) throw std::logic_error(print(reading.problems, "made-up", text));
  return std::move(*reading.procedure);
}

}  // namespace beforehand::test
