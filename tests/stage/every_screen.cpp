// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "every_screen.hpp"

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <memory>
#include <utility>

#include "drill/cast.hpp"
#include "procedure/reader.hpp"
#include "records/ids.hpp"
#include "records/save.hpp"

namespace beforehand::stage {

namespace {

using std::chrono::milliseconds;
using Stand = Program::Stand;

constexpr records::Moment monday{milliseconds{1'772'442'000'000}};  // 2026-03-02 09:00 UTC

/// A place of its own for one tour: folder, records, and programs that use them.
class Tourist {
 public:
  Tourist(std::string language, const Looker& look) : language_(std::move(language)), look_(look) {}

  void see(Program& program, const std::string& name) const { look_(program, name); }

  std::unique_ptr<Program> program(std::vector<ShelfItem> shelf, SettingsReading settings,
                                   RecordDesk* desk = nullptr,
                                   std::string scenarios = PROJECT_DIR "/scenarios") const {
    Outside outside;
    outside.scenarios = std::move(scenarios);
    outside.own_scenarios = folder_ / "own";
    outside.new_recording = [this](const std::string& of, std::uint64_t) {
      return folder_ / (of + ".jsonl");
    };
    outside.new_seed = [] { return std::uint64_t{7}; };
    outside.observation = [this](const std::string& of) { return folder_ / (of + ".case"); };
    outside.languages = {{"en", "English"}, {"es", "Español"}};
    outside.strings_in = in_language;
    outside.records = desk;
    return std::make_unique<Program>(std::move(shelf), in_language(language_), std::move(outside),
                                     Choice{}, std::move(settings));
  }

  /// With the scenarios that are shipped, this one marked.
  std::unique_ptr<Program> at_shelf(const std::string& id, bool tasks = false,
                                    RecordDesk* desk = nullptr) const {
    auto settings = drill_alone(language_);
    settings.settings.set_up = tasks;
    auto held = program(shelf(), std::move(settings), desk);
    if (held->stand() == Stand::start) mark(*held, id);
    return held;
  }

  std::unique_ptr<Program> at_briefing(const std::string& id, bool tasks = false) const {
    auto held = at_shelf(id, tasks);
    press(*held, Key::enter);
    held->settle();
    return held;
  }

  static void mark(Program& program, const std::string& id) {
    for (int i = 0; i < 20 && program.start().chosen()->id != id; ++i) press(program, Key::down);
  }

  std::vector<ShelfItem> shelf() const { return read_shelf(PROJECT_DIR "/scenarios", language_); }

  std::shared_ptr<const procedure::Procedure> scenario(const std::string& id) const {
    for (const auto& item : shelf())
      if (item.procedure && item.procedure->id == id) return item.procedure;
    return nullptr;
  }

  const TemporaryFolder& folder() const { return folder_; }
  const std::string& language() const { return language_; }

 private:
  std::string language_;
  const Looker& look_;
  TemporaryFolder folder_;
};

drill::Session played_by(const procedure::Procedure& p, const std::string& habit,
                         drill::Setup setup = {}) {
  drill::Run run(p, std::move(setup));
  drill::cast(run, drill::habit_from(habit));
  run.play_out();
  return run.session();
}

// From the top to the end of what scrolls.
void see_down(const Tourist& tour, Program& program, const std::string& name) {
  tour.see(program, name);
  press(program, Key::page_down);
  tour.see(program, name + "-lower");
  press(program, Key::end);
  tour.see(program, name + "-end");
}

void practise(Program& program, int tenths, bool busy = true) {
  for (int i = 0; i < tenths && program.stand() == Stand::drill; ++i) {
    if (busy) do_what_is_urgent(program);
    program.pass(milliseconds(100));
  }
}

void way_in(const std::string& language, const Looker& look) {
  const Tourist tour(language, look);
  RecordDesk desk(tour.folder() / "records.db", tour.folder().path().string(), ticking());
  SettingsReading fresh;
  fresh.settings.language = language;
  const auto held = tour.program(tour.shelf(), fresh, &desk);
  auto& program = *held;
  tour.see(program, "people-nobody");
  type(program, "Ana");
  tour.see(program, "people-a-new-name");
  press(program, Key::enter);
  tour.see(program, "start-new-person");
  press(program, Key::end);
  tour.see(program, "start-last-scenario");
  press(program, Key::home);
  press(program, Key::tab);
  press(program, Key::right);
  press(program, Key::right);
  tour.see(program, "start-assessed");
  press(program, Key::settings);
  tour.see(program, "settings");
  press(program, Key::page_down);
  tour.see(program, "settings-lower");
  for (int i = 0; i < 12; ++i) press(program, Key::down);
  press(program, Key::enter);
  tour.see(program, "settings-waiting-for-a-key");
  press(program, Key::escape);
  press(program, Key::end);
  tour.see(program, "settings-end");
}

void crowd(const std::string& language, const Looker& look) {
  const Tourist tour(language, look);
  const auto address = tour.folder() / "records.db";
  {
    auto store = records::Store::open(address, ticking());
    for (const auto* name :
         {"Ana Petrov", "Bo Lind", "Maximiliana Fernández-Oyarzábal de la Huerta", "Inés",
          "Kofi Mensah", "Lea Brandt", "Noor van der Steen", "Olu Adeyemi", "Pia Sandoval",
          "Quim Ferrer", "Rui Teixeira", "Sana Malik", "Tariq Aziz", "Uma Nair"})
      store.add_person(records::Person::Part::trainee, name,
                       std::string(name) == "Bo Lind" ? "bo's own" : "");
  }
  RecordDesk desk(address, tour.folder().path().string(), ticking());
  const auto held = tour.at_shelf("fissure-sealant", false, &desk);
  auto& program = *held;
  tour.see(program, "people-many");
  type(program, "LIND");
  tour.see(program, "people-found");
  press(program, Key::enter);
  type(program, "guess");
  press(program, Key::enter);
  tour.see(program, "people-passcode");
}

void nothing_to_play(const std::string& language, const Looker& look) {
  const Tourist tour(language, look);
  const auto empty = tour.program({}, drill_alone(language));
  tour.see(*empty, "start-empty-shelf");
  std::vector<ShelfItem> broken;
  for (const auto* name : {"cycle", "many", "ids"}) {
    const std::string file = PROJECT_DIR "/tests/scenarios/bad/" + std::string(name) + ".yaml";
    broken.push_back(read_item({file, "", ""}, language));
  }
  const auto held = tour.program(broken, drill_alone(language));
  tour.see(*held, "start-broken-scenarios");
  press(*held, Key::enter);
  tour.see(*held, "start-broken-scenario-opened");
}

void lesson(const std::string& language, const Looker& look) {
  const Tourist tour(language, look);
  const auto held = tour.at_shelf("fissure-sealant");
  auto& program = *held;
  press(program, Key::help);
  const auto& teacher = *program.drill()->teacher();
  bool on_its_way = false;  // until it is time for the next request
  for (int i = 0; i < 6000 && program.stand() == Stand::drill && !teacher.over(); ++i) {
    if (teacher.asks()) {
      const auto asks = *teacher.asks();
      std::string name = "lesson-" + std::string(word(asks));
      std::replace(name.begin(), name.end(), '_', '-');
      tour.see(program, name);
      obey_lesson(program);
    } else if (!std::exchange(on_its_way, true)) {
      tour.see(program, "lesson-goes-on");
    }
    program.pass(milliseconds(100));
  }
}

void whole_way(const std::string& language, const Looker& look) {
  const Tourist tour(language, look);
  const auto held = tour.at_shelf("class-ii-composite", true);
  auto& program = *held;
  tour.see(program, "start-class-ii");
  press(program, Key::enter);
  tour.see(program, "briefing-before-the-plan");
  program.settle();
  see_down(tour, program, "briefing");
  press(program, Key::enter);
  tour.see(program, "tray");
  for (int i = 0; i < 5; ++i) press(program, Key::enter);
  tour.see(program, "tray-five-things");
  press(program, Key::tab);
  press(program, Key::tab);
  press(program, Key::enter);
  tour.see(program, "tray-looked-at");
  press(program, Key::enter);
  if (program.stand() == Stand::set_up) type(program, "d");
  tour.see(program, "drill-beginning");
  press(program, Key::down);
  tour.see(program, "drill-marked-card");
  press(program, Key::escape);
  press(program, Key::help);
  tour.see(program, "drill-help");
  press(program, Key::help);
  tour.see(program, "drill-help-signs");
  press(program, Key::enter);
  press(program, Key::escape);
  tour.see(program, "drill-leave");
  press(program, Key::escape);
  for (const auto* view : {"tooth", "chart"}) {
    press(program, Key::tab);
    tour.see(program, std::string("drill-") + view);
  }
  press(program, Key::tab);
  for (int moment = 1; moment <= 6 && program.stand() == Stand::drill; ++moment) {
    practise(program, 1100);
    if (program.stand() != Stand::drill) break;
    tour.see(program, "drill-class-ii-" + std::to_string(moment));
    press(program, Key::tab);
    tour.see(program, "drill-class-ii-" + std::to_string(moment) + "-tooth");
    press(program, Key::tab);
    press(program, Key::tab);
  }
  play_to_debrief(program);
  tour.see(program, "clearing-up");
  for (int i = 0; i < 5; ++i) press(program, Key::enter);
  tour.see(program, "clearing-up-five-things");
  for (int i = 0; i < 60 && program.turnover() && !program.turnover()->check(); ++i)
    press(program, Key::enter);
  tour.see(program, "clearing-up-looked-at");
  press(program, Key::enter);
  program.settle();
  see_down(tour, program, "debrief");
}

void left_alone(const std::string& language, const Looker& look) {
  const Tourist tour(language, look);
  const auto held = tour.at_briefing("class-ii-composite");
  auto& program = *held;
  press(program, Key::enter);
  practise(program, 700, false);
  tour.see(program, "drill-nothing-done");
  press(program, Key::space);
  tour.see(program, "drill-paused");
}

Tour drill_of(const std::string& id) {
  return {id, [id](const std::string& language, const Looker& look) {
            const Tourist tour(language, look);
            const auto held = tour.at_briefing(id);
            auto& program = *held;
            tour.see(program, id + "-briefing");
            press(program, Key::enter);
            for (int i = 0; i < 20'000 && program.stand() == Stand::drill; ++i) {
              if (i == 80) tour.see(program, id + "-early");
              if (i % 2 == 0) do_what_is_urgent(program);
              program.pass(milliseconds(100));
              if (i == 500 || i == 1300)
                tour.see(program, id + (i == 500 ? "-on-the-way" : "-later"));
            }
            program.pass(Program::deaf_after_a_drill);
            program.settle();
            see_down(tour, program, id + "-debrief");
          }};
}

void played_again(const std::string& language, const Looker& look) {
  const Tourist tour(language, look);
  const auto p = tour.scenario("class-ii-composite");
  const auto late = played_by(*p, "late:6"), forgetful = played_by(*p, "forgetful:40");
  const auto held = tour.at_shelf("class-ii-composite");
  auto& program = *held;
  program.show_replay(just_played(*p, late), Stand::start);
  program.settle();
  tour.see(program, "replay");
  program.replay()->show_error(program.replay()->score().errors.size() / 2);
  tour.see(program, "replay-before-an-error");
  press(program, Key::tab);
  tour.see(program, "replay-next-view");
  program.show_side_by_side(just_played(*p, late), just_played(*p, forgetful), Stand::start);
  tour.see(program, "side-by-side");
  for (int i = 0; i < 4; ++i) press(program, Key::down);
  tour.see(program, "side-by-side-marked");
}

void full_debrief(const std::string& language, const Looker& look) {
  const Tourist tour(language, look);
  const auto held = tour.at_briefing("class-ii-composite");
  auto& program = *held;
  press(program, Key::enter);
  for (int i = 0; i < 72'000 && program.stand() == Stand::drill; ++i) {
    if (i % 70 == 0) do_what_is_urgent(program);
    program.pass(milliseconds(100));
  }
  program.pass(Program::deaf_after_a_drill);
  program.settle();
  tour.see(program, "debrief-poor");
  press(program, Key::tab);
  tour.see(program, "debrief-poor-marked");
  for (int i = 1; i <= 5; ++i) {
    press(program, Key::page_down);
    tour.see(program, "debrief-poor-page-" + std::to_string(i));
  }
}

void records_of_a_class(const std::string& language, const Looker& look) {
  const Tourist tour(language, look);
  const auto address = tour.folder() / "records.db";
  RecordDesk desk(address, tour.folder().path().string(), ticking());
  auto held = tour.at_shelf("fissure-sealant", false, &desk);
  {
    auto& program = *held;
    press(program, Key::f3);
    tour.see(program, "review-first-trainer");
    type(program, "Tess Arn");
    press(program, Key::tab);
    type(program, "tess's own");
    press(program, Key::tab);
    type(program, "tess's own");
    press(program, Key::enter);
    tour.see(program, "review-empty-class");
  }
  auto store = records::Store::open(address, ticking());
  records::IdMaker ids;
  std::vector<std::pair<records::Person, const char*>> trainees;
  for (const auto& [name, habit] :
       {std::pair{"Ana Petrov", "expert"},
        {"Bo Lind", "late:4"},
        {"Maximiliana Fernández-Oyarzábal de la Huerta", "forgetful:20"},
        {"Inés Roca", "asked"}})
    trainees.emplace_back(store.add_person(records::Person::Part::trainee, name), habit);
  for (const auto* id : {"fissure-sealant", "class-ii-composite"}) {
    const std::string file = PROJECT_DIR "/scenarios/" + std::string(id) + "/scenario.yaml";
    const auto text = procedure::load_text(file);
    const auto p = procedure::read(text).procedure;
    for (const auto& [person, habit] : trainees) {
      for (int i = 0; i < 6; ++i) {
        drill::Setup setup;
        setup.seed = static_cast<std::uint64_t>(i + 1);
        setup.level = i % 2 ? drill::Level::assessed : drill::Level::unaided;
        setup.assistant = i == 0 ? habit : "human";
        if (i == 2) setup.phase = PhaseIx{0};
        const auto at = monday - std::chrono::days{7 - i};
        store.save(
            records::new_session(*p, played_by(*p, habit, setup),
                                 {ids.make(at), person.id, at, at, drill::program_version, text}));
      }
    }
  }
  held = tour.at_shelf("fissure-sealant", false, &desk);
  auto& program = *held;
  press(program, Key::f3);
  tour.see(program, "review-door");
  type(program, "a guess");
  press(program, Key::enter);
  tour.see(program, "review-door-wrong-passcode");
  type(program, "tess's own");
  press(program, Key::enter);
  tour.see(program, "review-class");
  press(program, Key::right);
  tour.see(program, "review-class-one-scenario");
  press(program, Key::f3);
  tour.see(program, "review-heat");
  press(program, Key::escape);
  press(program, Key::end);  // the longest name
  press(program, Key::enter);
  see_down(tour, program, "review-person");
  press(program, Key::f6);
  tour.see(program, "review-note");
  press(program, Key::escape);
  press(program, Key::f5);
  tour.see(program, "review-sign-off");
  press(program, Key::escape);
  press(program, Key::enter);
  program.settle();
  tour.see(program, "review-session");
  press(program, Key::escape);
  press(program, Key::space);
  press(program, Key::down);
  press(program, Key::f3);
  tour.see(program, "review-pair");
  press(program, Key::escape);
  program.pass(std::chrono::minutes{6});
  tour.see(program, "review-locked");
}

void rehearsal(const std::string& language, const Looker& look) {
  const Tourist tour(language, look);
  for (const bool talked : {false, true}) {
    const std::string name = talked ? "rehearsal-talked" : "rehearsal";
    const auto held = tour.at_briefing("class-ii-composite");
    auto& program = *held;
    type(program, "r");
    if (talked) type(program, "t");
    tour.see(program, name + "-roles");
    press(program, Key::enter);
    tour.see(program, name + "-begun");
    type(program, "1q7");
    for (int i = 0; i < 40; ++i) {
      program.pass(milliseconds(500));
      if (talked) press(program, Key::space);
      type(program, i % 2 ? "1" : "q2");
    }
    tour.see(program, name + "-played");
    press(program, Key::page_down);
    tour.see(program, name + "-looking-ahead");
    press(program, Key::escape);
    program.settle();
    see_down(tour, program, name + "-debrief");
  }
  const auto three = tour.at_briefing("chair-emergency");
  type(*three, "r");
  tour.see(*three, "rehearsal-of-three-roles");
  press(*three, Key::enter);
  for (int i = 0; i < 20; ++i) {
    type(*three, "1qa");
    three->pass(milliseconds(1000));
  }
  tour.see(*three, "rehearsal-of-three");
  press(*three, Key::escape);
  three->settle();
  see_down(tour, *three, "rehearsal-of-three-debrief");
}

void timing_cases(const std::string& language, const Looker& look) {
  const Tourist tour(language, look);
  const auto held = tour.at_briefing("class-ii-composite");
  auto& program = *held;
  type(program, "o");
  tour.see(program, "case-nothing-tapped");
  type(program, "d");
  for (int i = 0; i < 20; ++i) {
    type(program, i % 2 ? "1" : "q");
    program.pass(milliseconds(3000));
  }
  tour.see(program, "case-timed");
  type(program, "n");
  type(program, "a note");
  tour.see(program, "case-note");
  press(program, Key::enter);
  press(program, Key::escape);
  see_down(tour, program, "case-seen");
  type(program, "d");
  see_down(tour, program, "case-durations");
  press(program, Key::enter);
  press(program, Key::home);
  tour.see(program, "case-durations-written");

  const auto free = tour.at_briefing("fissure-sealant");
  type(*free, "o");
  type(*free, "b");
  tour.see(*free, "free-case-nobody");
  type(*free, "Assistant");
  press(*free, Key::enter);
  type(*free, "m");
  type(*free, own_step);
  press(*free, Key::enter);
  free->pass(milliseconds(5000));
  tour.see(*free, "free-case-timed");
}

void better_ways(const std::string& language, const Looker& look) {
  const Tourist tour(language, look);
  const auto held = tour.at_briefing("core-build-up");
  auto& program = *held;
  type(program, "w");
  tour.see(program, "improve-looking");
  program.settle();
  see_down(tour, program, "improve");
  type(program, "1");
  press(program, Key::enter);
  press(program, Key::home);
  tour.see(program, "improve-written");
  press(program, Key::enter);
  tour.see(program, "compare-working");
  program.settle();
  see_down(tour, program, "compare");
  press(program, Key::escape);
  tour.see(program, "compare-choice");
}

}  // namespace

std::vector<Tour> every_screen() {
  std::vector<Tour> tours{{"way-in", way_in},
                          {"crowd", crowd},
                          {"nothing-to-play", nothing_to_play},
                          {"lesson", lesson},
                          {"whole-way", whole_way},
                          {"left-alone", left_alone},
                          {"played-again", played_again},
                          {"full-debrief", full_debrief},
                          {"records", records_of_a_class},
                          {"rehearsal", rehearsal},
                          {"timing", timing_cases},
                          {"better-ways", better_ways}};
  for (const auto* id : {"fissure-sealant", "rubber-dam", "core-build-up", "simple-extraction",
                         "crown-preparation", "room-turnover", "chair-emergency"})
    tours.push_back(drill_of(id));
  return tours;
}

}  // namespace beforehand::stage
