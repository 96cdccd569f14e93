// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/demo.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "base/random.hpp"
#include "drill/cast.hpp"
#include "drill/recording.hpp"
#include "records/ids.hpp"
#include "records/save.hpp"
#include "records/sign_off.hpp"
#include "scoring/planned.hpp"

namespace beforehand::records {
namespace {

using Part = Person::Part;

// Invented names, as many as there are pairs.
constexpr const char* first_names[] = {"Ana",  "Bo",   "Chidi", "Dara", "Elif", "Femi",
                                       "Gwen", "Hugo", "Iris",  "Jun",  "Kaja", "Lior",
                                       "Mina", "Nils", "Oya",   "Pia",  "Rafi", "Suda"};
constexpr const char* last_names[] = {"Petrov", "Lind",   "Okoro", "Vale", "Aksoy", "Bright",
                                      "Morgan", "Santos", "Kerr",  "Mori", "Nowak", "Aldan",
                                      "Haddad", "Berg",   "Demir", "Rossi"};
constexpr int firsts = std::size(first_names), lasts = std::size(last_names);

std::string invented_name(int i) {
  const auto name =
      fmt::format("{} {}", first_names[i % firsts], last_names[(i / firsts + i) % lasts]);
  return i < firsts * lasts ? name : fmt::format("{} {}", name, i / (firsts * lasts) + 1);
}

class DemoFiller {
 public:
  DemoFiller(Store& store, const std::vector<PlayedScenario>& scenarios, const DemoClass& c)
      : store_(store), scenarios_(scenarios), class_(c) {
    for (const auto& s : scenarios)
      finders_.push_back(std::make_shared<timing::WindowFinder>(s.procedure));
  }

  void fill(const std::function<void(int, int)>& progress) {
    if (!store_.people(Part::trainee).empty() || !store_.people(Part::trainer).empty())
      throw StoreError(StoreError::Kind::refused,
                       "a demo class goes into an empty store only; name a new file with --store");
    trainer_ = store_.add_person(Part::trainer, class_.trainer, class_.passcode);
    int all = 0, done = 0;
    for (int i = 0; i < class_.trainees; ++i) all += drills_of(i);
    for (int i = 0; i < class_.trainees; ++i) {
      practise(store_.add_person(Part::trainee, invented_name(i)), i);
      done += drills_of(i);
      if (progress) progress(done, all);
    }
  }

 private:
  double draw(const char* what, std::uint64_t occurrence) const {
    return keyed_uniform({class_.seed, fnv1a(what), occurrence});
  }

  // Every fourth is keen and keeps to one scenario until it sits; every fourth comes seldom.
  static bool keen(int i) { return i % 4 == 0; }
  int drills_of(int i) const {
    return keen(i) ? 4 * class_.sessions : i % 4 == 2 ? (class_.sessions + 1) / 2 : class_.sessions;
  }

  // The others keep to two or three scenarios. All come every few days.
  void practise(const Person& who, int i) {
    const auto key = static_cast<std::uint64_t>(i);
    const double talent = 0.2 + 0.6 * draw("talent", key), pace = 0.15 + 0.35 * draw("pace", key);
    const int kinds = keen(i) ? 1 : std::min<int>(static_cast<int>(scenarios_.size()), 2 + i % 2);
    std::vector<int> times(scenarios_.size());
    const int drills = drills_of(i);
    for (int n = 0; n < drills; ++n) {
      const auto which = static_cast<std::size_t>((i + n % kinds)) % scenarios_.size();
      const double skill = 1 - (1 - talent) * std::exp(-pace * times[which]++);
      const auto at = store_.now() - std::chrono::hours(20 + 61 * (drills - n)) +
                      std::chrono::minutes(static_cast<int>(
                          480 * draw("hour", key * 1000 + static_cast<std::uint64_t>(n))));
      store_.save(
          drill(who, which, times[which], skill, at, key * 1000 + static_cast<std::uint64_t>(n)));
    }
    if (i % 8 == 0) sign_off(who, times);  // the others wait for the trainer who looks
  }

  drill::Habit habit(double skill, std::uint64_t key) const {
    const double lack = 1 - skill;
    const double kind = draw("kind", key), much = draw("much", key);
    if (lack < 0.12) return {};
    if (kind < 0.5)
      return {drill::Habit::Kind::late, Ms{std::llround(6000 * lack * (0.5 + much))}, 0};
    if (kind < 0.8)
      return {drill::Habit::Kind::forgetful, Ms{0}, static_cast<int>(60 * lack * (0.5 + much))};
    return {drill::Habit::Kind::shuffled, Ms{0}, static_cast<int>(60 * lack * (0.5 + much))};
  }

  NewSession drill(const Person& who, std::size_t which, int time, double skill, Moment at,
                   std::uint64_t key) {
    const auto& played = scenarios_[which];
    drill::Setup setup;
    setup.seed = 1 + keyed_bits({class_.seed, fnv1a("seed"), key}) % 999'999;
    setup.level = time == 1   ? drill::Level::guided
                  : time <= 3 ? drill::Level::unaided
                              : drill::Level::assessed;
    setup.trainee = who.name;
    setup.assistant = "invented";
    drill::Run run(played.procedure, setup);
    cast(run, habit(skill, key), finders_[which]);
    run.play_out();
    Sitting sitting;
    sitting.id = ids_.make(at);
    sitting.trainee = who.id;
    sitting.started = at;
    sitting.ended = at + std::chrono::milliseconds(run.now().count());
    sitting.program = drill::program_version;
    sitting.scenario_text = played.text;
    return new_session(played.procedure, run.session(), sitting,
                       scoring::planned_reference(played.procedure, run.session()));
  }

  void sign_off(const Person& who, const std::vector<int>& times) {
    for (std::size_t i = 0; i < scenarios_.size(); ++i) {
      if (times[i] == 0) continue;
      const auto& p = scenarios_[i].procedure;
      const auto list = criteria(p, store_, who.id);
      if (!all_met(list)) continue;
      SignOff s;
      s.trainee = who.id;
      s.trainer = trainer_.id;
      s.scenario = p.id;
      s.scenario_hash = scenario_hash(scenarios_[i].text);
      s.criteria = in_words(p, list);
      s.note = "Invented, like everybody here.";
      store_.sign(s);
    }
  }

  Store& store_;
  const std::vector<PlayedScenario>& scenarios_;
  const DemoClass& class_;
  std::vector<std::shared_ptr<timing::WindowFinder>> finders_;
  Person trainer_;
  IdMaker ids_;
};

}  // namespace

void fill_demo(Store& store, const std::vector<PlayedScenario>& scenarios, const DemoClass& c,
               const std::function<void(int, int)>& progress) {
  DemoFiller(store, scenarios, c).fill(progress);
}

}  // namespace beforehand::records
