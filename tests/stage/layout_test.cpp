// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Every screen at several sizes and scales: no text on another, none outside the window, none
// smaller than 16 px at scale 1, and no key without a text.
#include <gtest/gtest.h>

#include <algorithm>

#include "drill/cast.hpp"
#include "playing.hpp"
#include "stage/app.hpp"

namespace beforehand::stage {
namespace {

struct Size {
  int width, height;
  double scale;
};
constexpr Size sizes[] = {{1120, 630, 1},  {1280, 720, 1},  {1280, 720, 2}, {1920, 1080, 1},
                          {1920, 1080, 2}, {3840, 2160, 2}, {1024, 1280, 1}};
// As wide and as high as screens are made; the room's half of the program is looked at there too.
constexpr Size odd_sizes[] = {
    {2560, 1080, 1}, {3840, 1080, 1}, {3840, 1080, 2}, {1080, 1920, 1}, {1080, 1920, 2}};

void look_for_faults_at(Program& program, const std::string& where, bool whole, const Size& size) {
  const double scale = fitting_scale(size.scale, size.width, size.height, program.needs());
  const auto screen = look_at(program, size.width, size.height, scale);
  std::string all;
  // The room's own words may stay smaller than the others, where it would find no place.
  const bool room =
      program.stand() == Program::Stand::drill || program.stand() == Program::Stand::replay;
  const double smallest = room ? std::min(scale, 1.0) : scale;
  for (const auto& fault : screen.faults(16 * smallest)) all += "\n  " + fault;
  if (whole)
    for (const auto& text : screen.cut()) all += "\n  cut short: " + text;
  EXPECT_TRUE(all.empty()) << where << " at " << size.width << "x" << size.height << ", scale "
                           << scale << ":" << all;
}

// `whole`: no text may be cut short either.
void look_for_faults(Program& program, const std::string& where, bool whole = false) {
  for (const auto& size : sizes) look_for_faults_at(program, where, whole, size);
  for (const auto& [key, shown] : program.strings().missing())
    ADD_FAILURE() << where << ": no text for " << key;
}

void look_at_odd_sizes(Program& program, const std::string& where) {
  for (const auto& size : odd_sizes) look_for_faults_at(program, where, false, size);
}

drill::Session test_session(const procedure::Procedure& p, const std::string& habit,
                            drill::Setup setup = {}) {
  drill::Run run(p, std::move(setup));
  drill::cast(run, drill::habit_from(habit));
  run.play_out();
  return run.session();
}

void look_through(Program& program) {
  look_for_faults(program, "start");
  press(program, Key::enter);
  look_for_faults(program, "briefing");
  program.settle();
  press(program, Key::end);
  look_for_faults(program, "end of the briefing");
  press(program, Key::enter);
  for (int i = 0; program.stand() == Program::Stand::drill; ++i) {
    if (i % 2 == 0) do_what_is_urgent(program);
    program.pass(std::chrono::milliseconds(100));
    if (i % 1200 == 30) look_for_faults(program, "drill, moment " + std::to_string(i));
    ASSERT_LT(i, 72'000);
  }
  look_for_faults(program, "debrief");
  program.settle();
  press(program, Key::page_down);
  look_for_faults(program, "further down the debrief");
  press(program, Key::end);
  look_for_faults(program, "end of the debrief");
}

TEST(Layout, HoldsForTheSmallestScenario) {
  auto program = program_on(tiny_shelf());
  look_through(program);
}

TEST(Layout, HoldsForEveryShippedScenario) {
  const auto shelf = shipped_shelf();
  ASSERT_FALSE(shelf.empty());
  for (std::size_t i = 0; i < shelf.size(); ++i) {
    ASSERT_TRUE(shelf[i].procedure) << shelf[i].file;
    SCOPED_TRACE(shelf[i].file);
    auto program = program_on(shelf);
    for (std::size_t down = 0; down < i; ++down) press(program, Key::down);
    look_through(program);
  }
}

// The longer language.
TEST(Layout, HoldsInSpanish) {
  auto program = program_on(tiny_shelf(), nullptr, "es");
  look_through(program);
}

TEST(Layout, Settings) {
  for (const char* language : {"en", "es"}) {
    auto program = program_on(tiny_shelf(), nullptr, language);
    press(program, Key::settings);
    ASSERT_EQ(program.stand(), Program::Stand::settings);
    look_for_faults(program, "settings", true);
    for (int i = 0; i < 12; ++i) press(program, Key::down);
    press(program, Key::enter);
    look_for_faults(program, "a key of the settings", true);
  }
}

// Each thing the lesson asks for, in words that are all there.
TEST(Layout, Lesson) {
  for (const char* language : {"en", "es"}) {
    auto program = program_on(shipped_shelf(), nullptr, language);
    press(program, Key::help);
    const auto& teacher = *program.drill()->teacher();
    for (int i = 0; i < 6000 && program.stand() == Program::Stand::drill; ++i) {
      if (teacher.asks()) {
        const auto asks = *teacher.asks();
        const auto text = teacher.text(*program.sitting(), KeyMap(), program.strings());
        for (const double scale : {1.0, 2.0}) {
          const auto seen = look_at(program, 1280, 720, scale);
          EXPECT_TRUE(seen.shows(text.substr(text.rfind(' ') + 1))) << language << ": " << text;
          EXPECT_EQ(seen.faults(16), std::vector<std::string>()) << word(asks) << " at " << scale;
        }
        obey_lesson(program);
      } else if (teacher.over()) {
        break;
      }
      program.pass(std::chrono::milliseconds(100));
    }
    EXPECT_TRUE(teacher.over()) << teacher.done();
  }
}

TEST(Layout, TrayAndClearingUp) {
  for (const char* language : {"en", "es"}) {
    auto program = program_on(shipped_shelf(), nullptr, language, true);
    press(program, Key::enter);
    press(program, Key::enter);
    ASSERT_EQ(program.stand(), Program::Stand::set_up);
    look_for_faults(program, "the tray", true);
    for (int i = 0; i < 5; ++i) press(program, Key::enter);
    look_for_faults(program, "a tray laid", true);
    press(program, Key::tab);
    press(program, Key::tab);
    press(program, Key::enter);
    look_for_faults(program, "a tray looked at", true);
    press(program, Key::enter);
    play_to_debrief(program);
    ASSERT_EQ(program.stand(), Program::Stand::turnover);
    look_for_faults(program, "clearing up", true);
    for (int i = 0; i < 30 && !program.turnover()->check(); ++i) press(program, Key::enter);
    look_for_faults(program, "cleared up", true);
  }
}

TEST(Layout, QuestionHelpAndMarkedCard) {
  for (const char* language : {"en", "es"}) {
    auto program = program_on(shipped_shelf(), nullptr, language);
    press(program, Key::enter);
    press(program, Key::enter);
    for (const auto view : {"field", "chart", "room"}) {
      press(program, Key::tab);
      look_for_faults(program, view);
    }
    press(program, Key::help);
    look_for_faults(program, "the help");
    for (const auto& line : key_lines(KeyMap(), true, program.strings()))
      for (const double scale : {1.0, 2.0})
        EXPECT_TRUE(look_at(program, 1280, 720, scale).shows(line.substr(line.rfind(' ') + 1)))
            << "the help is on one screen: " << line;
    press(program, Key::enter);
    press(program, Key::escape);
    ASSERT_TRUE(program.drill()->asking());
    look_for_faults(program, "the question");
  }
}

// Whatever finds no room on a card is written whole once the card is marked, with the reason why it
// cannot be done; by keyboard alone, at every size.
TEST(Layout, AMarkedCardSaysAllOfItself) {
  auto shelf = shipped_shelf();
  std::erase_if(shelf, [](const auto& item) { return item.procedure->id != "class-ii-composite"; });
  auto program = program_on(std::move(shelf), nullptr, "es");  // its words are the longer ones
  press(program, Key::enter);
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Program::Stand::drill);
  const auto& sitting = *program.sitting();
  for (const auto& size : sizes) {  // a size at a time: the room is laid out once for each
    const double scale = fitting_scale(size.scale, size.width, size.height, program.needs());
    for (const auto& card : sitting.cards()) {
      press(program, Key::down);
      const auto now =
          card_now(sitting.procedure(), sitting.world(), sitting.trainee(), card.action);
      auto hint = card.title;
      if (!now.possible())
        hint += ": " + sentence_of(sitting.procedure(), now.reason, card.action, program.strings());
      const auto seen = look_at(program, size.width, size.height, scale);
      // Its lines are drawn one after the other.
      bool whole = false;
      for (auto from = seen.texts.begin(); from != seen.texts.end() && !whole; ++from) {
        auto said = from->line;
        const auto all = [&] { return said == hint || (now.possible() && said == card.label); };
        for (auto to = from + 1; to != seen.texts.end() && said.size() < hint.size() && !all();
             ++to)
          said += " " + to->line;
        whole = all();
      }
      EXPECT_TRUE(whole) << hint << " at " << size.width << "x" << size.height << ", " << scale;
    }
  }
}

TEST(Layout, ReplayAndSideBySide) {
  const auto shelf = shipped_shelf();
  const auto& p = *std::find_if(shelf.begin(), shelf.end(), [](const ShelfItem& item) {
                     return item.procedure->id == "class-ii-composite";
                   })->procedure;
  const auto late = test_session(p, "late:6"), forgetful = test_session(p, "forgetful:40");
  for (const char* language : {"en", "es"}) {
    auto program = program_on(tiny_shelf(), nullptr, language);
    program.show_replay(just_played(p, late), Program::Stand::start);
    program.settle();
    program.replay()->show_error(program.replay()->score().errors.size() / 2);
    look_for_faults(program, "replay before an error");
    program.show_side_by_side(just_played(p, late), just_played(p, forgetful),
                              Program::Stand::start);
    look_for_faults(program, "side by side");
  }
}

// Everything a debrief can hold.
TEST(Layout, FullDebrief) {
  const auto shelf = shipped_shelf();
  const auto& p = *shelf[0].procedure;
  const auto session = test_session(p, "forgetful:60");
  for (const char* language : {"en", "es"}) {
    const auto t = in_language(language);
    DebriefScreen debrief(p, session, p.who(procedure::Role::assistant), "x.jsonl", "", t);
    records::SessionRecord last, best;
    last.id = "1", best.id = "2", best.total = 100;
    debrief.compare_with(last, best);
    debrief.handle(Input::of_key(Key::tab));
    debrief.handle(Input::of_symbol(U't'));
    drill::Setup setup;
    setup.phase = debrief.stretch();
    ASSERT_TRUE(setup.phase);
    debrief.take_stretch(test_session(p, "late:4", setup));
    for (int step = 0; step < 12; ++step) {
      AuditCanvas canvas(1280, 720);
      const picture::Theme theme;
      Hits hits;
      Pen pen{canvas, theme, t, hits, {-1, -1}};
      debrief.draw(pen, {0, 0, 1280, 720});
      for (const auto& fault : canvas.seen().faults(16)) ADD_FAILURE() << step << ": " << fault;
      debrief.handle(Input::of_key(step % 2 ? Key::page_down : Key::tab));
    }
    EXPECT_TRUE(t.missing().empty());
  }
}

// The hand on a card is the room's, whatever the settings say.
TEST(Layout, ALeftHandedCardMirrorsTheRoom) {
  for (const bool left : {false, true}) {
    auto shelf = shipped_shelf();
    std::erase_if(shelf,
                  [](const auto& item) { return item.procedure->id != "class-ii-composite"; });
    auto program = program_on(std::move(shelf));
    press(program, Key::enter);
    for (int i = 0; left && i < 5; ++i)
      if (program.briefing()->choice().card.find("left-handed") == std::string::npos)
        type(program, "c");
    press(program, Key::enter);
    ASSERT_EQ(program.stand(), Program::Stand::drill);
    EXPECT_EQ(program.sitting()->procedure().left_handed, left);
    double clinician = -1;
    const auto seen = look_at(program, 1280, 720, 1);
    const picture::Box room{0, 56, 470, 500};
    for (const auto& text : seen.texts)
      if (room.contains(text.box.centre()) && text.line == "Clinician")
        clinician = text.box.centre().x;
    int others = 0;
    for (const auto& text : seen.texts) {
      if (!room.contains(text.box.centre()) || text.line != "Assistant") continue;
      ++others;
      EXPECT_EQ(text.box.centre().x < clinician, left);
    }
    EXPECT_GT(clinician, 0);
    EXPECT_GT(others, 0);
  }
}

// The widest and the highest screens: every screen of the way round once, in the longer language.
TEST(Layout, VeryWideAndVeryHighWindows) {
  auto program = program_on(shipped_shelf(), nullptr, "es", true);
  look_at_odd_sizes(program, "start");
  press(program, Key::settings);
  look_at_odd_sizes(program, "settings");
  press(program, Key::escape);
  press(program, Key::enter);
  look_at_odd_sizes(program, "briefing");
  press(program, Key::enter);
  look_at_odd_sizes(program, "the tray");
  type(program, "d");
  ASSERT_EQ(program.stand(), Program::Stand::drill);
  for (int i = 0; program.stand() == Program::Stand::drill && i < 20'000; ++i) {
    if (i == 200) look_at_odd_sizes(program, "drill");
    if (i % 2 == 0) do_what_is_urgent(program);
    program.pass(std::chrono::milliseconds(100));
  }
  program.pass(Program::deaf_after_a_drill);
  ASSERT_EQ(program.stand(), Program::Stand::turnover);
  look_at_odd_sizes(program, "clearing up");
  type(program, "d");
  look_at_odd_sizes(program, "debrief");
}

TEST(Layout, EmptyShelf) {
  auto program = program_on({});
  look_for_faults(program, "empty shelf");
}

TEST(Layout, TheScaleIsCutDownToWhatTheWindowCanShow) {
  const Units all{640, 360}, wide{1280, 720};
  EXPECT_DOUBLE_EQ(fitting_scale(1, 1280, 720, all), 1);
  EXPECT_DOUBLE_EQ(fitting_scale(2, 1280, 720, all), 2);
  EXPECT_DOUBLE_EQ(fitting_scale(2, 1280, 720, wide), 1);
  EXPECT_DOUBLE_EQ(fitting_scale(2, 1920, 1080, wide), 1.5);
  EXPECT_DOUBLE_EQ(fitting_scale(2, 3840, 2160, wide), 2);
  EXPECT_DOUBLE_EQ(fitting_scale(1, 320, 200, all), 0.5);
}

// Whatever a verb, a reason, a verdict and so on may be, there is a text for it.
TEST(Layout, EveryWordOfTheEngineHasAText) {
  const auto strings = english();
  const auto need = [&](const std::string& key) { EXPECT_TRUE(strings.has(key)) << key; };
  for (std::size_t i = 0; i < procedure::verb_count; ++i)
    need("verb." + std::string(word(static_cast<procedure::Verb>(i))));
  for (std::size_t i = 1; i <= static_cast<std::size_t>(drill::Reason::over); ++i)
    need("reason." + std::string(word(static_cast<drill::Reason>(i))));
  for (std::size_t i = 0; i < scoring::error_kind_count; ++i)
    need("error." + std::string(word(static_cast<scoring::ErrorKind>(i))));
  for (std::size_t i = 0; i < 4; ++i)
    need("verdict." + std::string(word(static_cast<scoring::Verdict>(i))));
  for (std::size_t i = 0; i < 3; ++i)
    need("severity." + std::string(word(static_cast<procedure::Severity>(i))));
  for (std::size_t i = 0; i < procedure::field_count; ++i)
    need("field." + std::string(word(static_cast<procedure::Field>(i))));
}

}  // namespace
}  // namespace beforehand::stage
