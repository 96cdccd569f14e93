// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The records as a trainer and a trainee go through them, by keyboard and by mouse.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "drill/cast.hpp"
#include "drill/recording.hpp"
#include "playing.hpp"
#include "procedure/reader.hpp"
#include "records/ids.hpp"
#include "records/save.hpp"
#include "records/verify.hpp"
#include "stage/app.hpp"

namespace beforehand::stage {
namespace {

using Stand = Program::Stand;
using Room = ReviewRoom::Stand;
using records::Moment;
using records::Person;
using records::Store;

constexpr Moment monday{std::chrono::milliseconds{1'772'442'000'000}};  // 2026-03-02 09:00 UTC

records::Clock ticking() {
  return [t = monday]() mutable { return t += std::chrono::seconds{1}; };
}

struct Review : testing::Test {
  TemporaryFolder folder;
  std::string address = folder / "records.db";
  RecordDesk desk{address, folder.path().string(), ticking()};
  std::string text = procedure::load_text(PROJECT_DIR "/tests/scenarios/good/tiny.yaml");
  procedure::Procedure tiny = *procedure::read(text).procedure;

  Program program(const std::string& language = "en") {
    Outside outside;
    outside.scenarios = "scenarios";
    outside.new_recording = [](const std::string&, std::uint64_t) { return std::string(); };
    outside.new_seed = [] { return std::uint64_t{7}; };
    outside.records = &desk;
    SettingsReading settings;
    settings.settings.language = language;
    settings.settings.set_up = false;
    return Program(tiny_shelf(), in_language(language), std::move(outside), {},
                   std::move(settings));
  }
  Store store() const { return Store::open(address, ticking()); }

  Person trainer() { return store().add_person(Person::Part::trainer, "Tess Arn", "tess's own"); }

  // So many drills of a bot with this habit, a day apart, the last one `days_ago`.
  Person trainee(const std::string& name, const std::string& bot, int drills,
                 drill::Level level = drill::Level::assessed, int days_ago = 1) {
    auto s = store();
    const auto who = s.add_person(Person::Part::trainee, name);
    for (int i = 0; i < drills; ++i) {
      drill::Setup setup;
      setup.seed = static_cast<std::uint64_t>(i + 1);
      setup.level = level;
      setup.assistant = "human";
      drill::Run run(tiny, setup);
      cast(run, drill::habit_from(bot));
      run.play_out();
      const auto at = monday - std::chrono::days{days_ago + drills - 1 - i};
      static records::IdMaker ids;
      s.save(records::new_session(tiny, run.session(),
                                  {ids.make(at), who.id, at, at, drill::program_version, text}));
    }
    return who;
  }

  // In through the door, as a trainer does.
  void enter(Program& p) {
    press(p, Key::f3);
    ASSERT_EQ(p.stand(), Stand::review);
    type(p, "tess's own");
    press(p, Key::enter);
    ASSERT_EQ(p.review()->stand(), Room::everybody);
  }
};

TEST_F(Review, TheFirstTrainerIsSetUpInTheWindow) {
  auto p = program();
  press(p, Key::f3);
  ASSERT_EQ(p.stand(), Stand::review);
  EXPECT_TRUE(shows(p, "Nobody looks after these records yet"));
  type(p, "Tess Arn");
  press(p, Key::tab);
  type(p, "short");
  press(p, Key::tab);
  type(p, "shorter");
  press(p, Key::enter);
  EXPECT_TRUE(shows(p, "The two passcodes are not the same."));
  type(p, "short");
  press(p, Key::enter);
  EXPECT_EQ(p.review()->stand(), Room::door) << "five letters are too few";
  EXPECT_TRUE(store().people(Person::Part::trainer).empty());
  press(p, Key::back_tab);
  type(p, " enough");
  press(p, Key::tab);
  type(p, " enough");
  press(p, Key::enter);
  ASSERT_EQ(p.review()->stand(), Room::everybody);
  EXPECT_EQ(store().person(Person::Part::trainer, "Tess Arn").locked, true);
  EXPECT_TRUE(shows(p, "Nobody has practised yet.")) << "what to do in an empty store";
}

TEST_F(Review, TheDoorIsShutWithoutThePasscodeAndWrongOnesSlowDown) {
  trainer();
  auto p = program();
  press(p, Key::f3);
  for (int i = 0; i < 3; ++i) {
    type(p, "a guess");
    EXPECT_FALSE(shows(p, "a guess"));
    press(p, Key::enter);
    ASSERT_EQ(p.review()->stand(), Room::door);
    EXPECT_TRUE(shows(p, "That is not the passcode.")) << i;
  }
  type(p, "tess's own");
  press(p, Key::enter);
  EXPECT_EQ(p.review()->stand(), Room::door) << "too soon after three wrong ones";
  EXPECT_TRUE(shows(p, "The next one is looked at in"));
  press(p, Key::escape);
  EXPECT_EQ(p.stand(), Stand::people);
}

TEST_F(Review, WhoIsReadyIsFoundSearchedFilteredAndSorted) {
  trainer();
  trainee("Ana Petrov", "expert", 3);
  trainee("Bo Lind", "absent", 2, drill::Level::unaided, 30);
  auto p = program();
  enter(p);
  auto& table = p.review()->everybody()->table();
  ASSERT_EQ(table.size(), 2u);
  EXPECT_TRUE(shows(p, "Ana Petrov"));
  type(p, "PETROV");
  EXPECT_EQ(table.size(), 1u);
  press(p, Key::escape);
  EXPECT_EQ(table.size(), 2u) << "Esc clears the search first";
  press(p, Key::tab);
  press(p, Key::tab);
  press(p, Key::tab);
  ASSERT_EQ(table.size(), 1u) << "due";
  EXPECT_EQ(table[0].summary.trainee_name, "Bo Lind");
  EXPECT_TRUE(shows(p, "d ago"));
  press(p, Key::tab);
  EXPECT_EQ(table.size(), 0u);
  EXPECT_TRUE(shows(p, "Nobody fits."));
  press(p, Key::tab);
  ASSERT_TRUE(press_on(p, "Last"));
  EXPECT_EQ(table[0].summary.trainee_name, "Ana Petrov") << "the highest first";
  ASSERT_TRUE(press_on(p, "Last ↓"));
  EXPECT_EQ(table[0].summary.trainee_name, "Bo Lind");
  press(p, Key::right);
  EXPECT_EQ(p.review()->everybody()->scenario(), "tiny");
  EXPECT_EQ(table.size(), 2u);
}

TEST_F(Review, OneTraineeIsSeenSignedOffAndTheSignOffRevoked) {
  const auto tess = trainer();
  const auto ana = trainee("Ana Petrov", "absent", 2);
  auto p = program();
  enter(p);
  press(p, Key::enter);
  ASSERT_EQ(p.review()->stand(), Room::person);
  EXPECT_TRUE(look_at(p, 1280, 2000, 1).shows("Practise next"));
  EXPECT_TRUE(shows(p, "What the scenario asks"));
  press(p, Key::f5);
  ASSERT_EQ(p.review()->stand(), Room::dialog);
  ASSERT_FALSE(records::all_met(records::criteria(tiny, store(), ana.id)));
  EXPECT_TRUE(shows(p, "Not everything is met."));
  EXPECT_TRUE(shows(p, "0 of "));
  press(p, Key::tab);
  type(p, "tess's own");
  press(p, Key::enter);
  EXPECT_TRUE(shows(p, "say in the note why you sign all the same"));
  EXPECT_TRUE(store().sign_offs(ana.id).empty());
  type(p, "calm and quick");
  press(p, Key::tab);
  type(p, "wrong code");
  press(p, Key::enter);
  EXPECT_TRUE(shows(p, "That is not the passcode."));
  EXPECT_TRUE(store().sign_offs(ana.id).empty());
  type(p, "tess's own");
  press(p, Key::enter);
  ASSERT_EQ(p.review()->stand(), Room::person);
  auto signed_offs = store().sign_offs(ana.id);
  ASSERT_EQ(signed_offs.size(), 1u);
  EXPECT_EQ(signed_offs[0].trainer, tess.id);
  EXPECT_EQ(signed_offs[0].note, "calm and quick");
  EXPECT_EQ(signed_offs[0].scenario_hash, records::scenario_hash(text));
  EXPECT_TRUE(shows(p, "Signed off."));

  press(p, Key::f5);  // now it revokes
  ASSERT_EQ(p.review()->stand(), Room::dialog);
  press(p, Key::enter);
  EXPECT_TRUE(shows(p, "Say it in a few words."));
  type(p, "the wrong Ana");
  press(p, Key::enter);
  type(p, "tess's own");
  press(p, Key::enter);
  ASSERT_EQ(p.review()->stand(), Room::person);
  signed_offs = store().sign_offs(ana.id);
  ASSERT_EQ(signed_offs.size(), 1u) << "revoked, not erased";
  EXPECT_FALSE(signed_offs[0].stands());
  EXPECT_EQ(signed_offs[0].revoked_why, "the wrong Ana");
  EXPECT_TRUE(records::verify(store(), {}).sound());

  press(p, Key::f6);
  type(p, "ask about the clamp");
  press(p, Key::enter);
  EXPECT_EQ(store().notes(ana.id).at(0).text, "ask about the clamp");
}

TEST_F(Review, ADrillIsOpenedAsItsDebrief) {
  trainer();
  trainee("Ana Petrov", "late:3", 2);
  auto p = program();
  enter(p);
  press(p, Key::enter);
  press(p, Key::down);  // the older one
  press(p, Key::enter);
  ASSERT_EQ(p.review()->stand(), Room::session);
  const auto kept = store().sessions({});
  EXPECT_NEAR(p.review()->session()->score().total, kept.back().total, 0.001);
  EXPECT_TRUE(shows(p, "Ana Petrov")) << "whose it is";
  EXPECT_EQ(fitting_scale(2, 1280, 720, p.needs()), 2);
  press(p, Key::escape);
  EXPECT_EQ(p.review()->stand(), Room::person);
  press(p, Key::f3);
  EXPECT_EQ(p.review()->stand(), Room::person) << "nothing is marked yet";
  press(p, Key::space);
  press(p, Key::up);
  press(p, Key::f3);
  ASSERT_EQ(p.review()->stand(), Room::pair);
  EXPECT_TRUE(shows(p, "Ana Petrov"));
  press(p, Key::escape);
  EXPECT_EQ(p.review()->stand(), Room::person);
}

TEST_F(Review, AClassLeftOpenShutsItselfAndThePasscodeOpensItWhereItWas) {
  trainer();
  store().add_person(Person::Part::trainer, "Bea Roth", "bea's own");
  trainee("Ana Petrov", "late:3", 2);
  auto p = program();
  press(p, Key::f3);
  press(p, Key::down);  // Tess, behind Bea
  type(p, "tess's own");
  press(p, Key::enter);
  press(p, Key::enter);
  ASSERT_EQ(p.review()->stand(), Room::person);
  p.pass(std::chrono::minutes{4});
  press(p, Key::down);  // a hand on it
  p.pass(std::chrono::minutes{4} + std::chrono::seconds{59});
  EXPECT_EQ(p.review()->stand(), Room::person);
  p.pass(std::chrono::seconds{1});
  ASSERT_EQ(p.review()->stand(), Room::door);
  EXPECT_TRUE(shows(p, "Locked after 5 minutes"));
  EXPECT_FALSE(shows(p, "Ana Petrov"));
  press(p, Key::enter);
  EXPECT_EQ(p.review()->stand(), Room::door) << "not without the passcode";
  type(p, "tess's own");
  press(p, Key::enter);
  EXPECT_EQ(p.review()->stand(), Room::person) << "where it was";

  press(p, Key::f6);
  type(p, "half a note");
  p.pass(std::chrono::minutes{5});
  ASSERT_EQ(p.review()->stand(), Room::door);
  press(p, Key::up);
  type(p, "bea's own");
  press(p, Key::enter);
  EXPECT_EQ(p.review()->stand(), Room::everybody) << "another trainer begins at the class";
  EXPECT_TRUE(store().notes({}).empty());
}

TEST_F(Review, OwnRecordsBehindAPasscodeAreClosedToo) {
  store().add_person(Person::Part::trainee, "Ana Petrov", "ana's own");
  trainee("Bo Lind", "late:3", 1);
  auto p = program();
  press(p, Key::enter);
  type(p, "ana's own");
  press(p, Key::enter);
  ASSERT_EQ(p.stand(), Stand::start);
  press(p, Key::f3);
  ASSERT_EQ(p.stand(), Stand::review);
  p.pass(std::chrono::minutes{5});
  ASSERT_EQ(p.stand(), Stand::people);
  EXPECT_TRUE(shows(p, "Closed after 5 minutes"));
  EXPECT_FALSE(desk.chosen());
  ASSERT_TRUE(press_on(p, "Bo Lind"));  // has none
  p.pass(std::chrono::minutes{60});
  EXPECT_EQ(p.stand(), Stand::start);
}

TEST_F(Review, AnOwnDrillIsPlayedAgainFromTheRecords) {
  trainee("Ana Petrov", "late:3", 2, drill::Level::assessed);
  auto p = program();
  ASSERT_TRUE(press_on(p, "Ana Petrov"));
  const auto open = [&] {
    press(p, Key::f3);
    press(p, Key::down);  // the first drill, of seed 1
    press(p, Key::enter);
    ASSERT_EQ(p.review()->stand(), Room::session);
  };
  open();
  press(p, Key::enter);  // the same again
  ASSERT_EQ(p.stand(), Stand::drill);
  EXPECT_EQ(p.sitting()->run().session().setup.seed, 1u);
  EXPECT_EQ(p.sitting()->run().session().setup.level, drill::Level::assessed);
  ASSERT_TRUE(play_to_debrief(p));
  p.settle();
  ASSERT_EQ(store().sessions({}).size(), 3u);
  EXPECT_EQ(store().sessions({}).front().scenario_hash, records::scenario_hash(text))
      << "the version it was played on before";
  EXPECT_TRUE(records::verify(store(), {}).sound());
  press(p, Key::escape);

  open();
  press(p, Key::down);
  type(p, "n");  // a new one
  ASSERT_EQ(p.stand(), Stand::drill);
  EXPECT_EQ(p.sitting()->run().session().setup.seed, 7u);
  ASSERT_TRUE(play_to_debrief(p));
  press(p, Key::escape);

  open();
  type(p, "t");  // the stretch that cost most
  ASSERT_EQ(p.stand(), Stand::drill);
  EXPECT_TRUE(p.sitting()->run().session().setup.phase);
  EXPECT_EQ(p.sitting()->run().session().setup.level, drill::Level::unaided) << "no assessment";
}

TEST_F(Review, ATrainerPlaysNothingInATraineesName) {
  trainer();
  trainee("Ana Petrov", "late:3", 1);
  auto p = program();
  enter(p);
  press(p, Key::enter);
  press(p, Key::enter);
  ASSERT_EQ(p.review()->stand(), Room::session);
  for (const auto* words : {"The same again", "A new one", "Try again:"})
    EXPECT_FALSE(shows(p, words)) << words;
  press(p, Key::enter);
  type(p, "n");
  type(p, "t");
  EXPECT_EQ(p.stand(), Stand::review);
  EXPECT_EQ(p.review()->stand(), Room::session);
}

TEST_F(Review, OwnRecordsAreReachedWithLargeLettersByMouseAndByKey) {
  trainee("Ana Petrov", "late:2", 1);
  for (const auto* language : {"en", "es"}) {
    auto p = program(language);
    ASSERT_TRUE(press_on(p, "Ana Petrov"));
    const auto label = p.strings()("start.records");
    const double scale = fitting_scale(2, 1280, 720, p.needs());
    EXPECT_EQ(scale, 2);
    const auto seen = look_at(p, 1280, 720, scale);
    EXPECT_TRUE(seen.faults(32).empty()) << seen.faults(32).front();
    const auto at = std::find_if(seen.texts.begin(), seen.texts.end(),
                                 [&](const Seen::Text& text) { return text.line == label; });
    ASSERT_NE(at, seen.texts.end()) << language;
    p.handle(Input::of_press(at->visible.centre().x, at->visible.centre().y));
    EXPECT_EQ(p.stand(), Stand::review);
    press(p, Key::escape);
    press(p, Key::f3);
    EXPECT_EQ(p.stand(), Stand::review);
  }
}

TEST_F(Review, ReportsAreWrittenInTheLanguageOfTheWindow) {
  trainee("Ana Petrov", "late:2", 2);
  auto p = program("es");
  ASSERT_TRUE(press_on(p, "Ana Petrov"));
  press(p, Key::f3);
  press(p, Key::f4);
  int pages = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder / "reports")) {
    const auto page = procedure::load_text(entry.path().string());
    EXPECT_NE(page.find("<html lang=\"es\">"), std::string::npos);
    EXPECT_NE(page.find("Registro de prácticas: Ana Petrov"), std::string::npos);
    ++pages;
  }
  EXPECT_EQ(pages, 1);
}

TEST_F(Review, TheTrayAndTheClearingUpAreKeptWithTheDrill) {
  store().add_person(Person::Part::trainee, "Ana Petrov");
  SettingsReading settings;
  settings.settings.set_up = true;
  Outside outside;
  outside.scenarios = PROJECT_DIR "/scenarios";
  outside.new_recording = [](const std::string&, std::uint64_t) { return std::string(); };
  outside.new_seed = [] { return std::uint64_t{7}; };
  outside.records = &desk;
  Program p(shipped_shelf(), english(), std::move(outside), {}, std::move(settings));
  ASSERT_TRUE(press_on(p, "Ana Petrov"));
  press(p, Key::enter);
  press(p, Key::enter);
  ASSERT_EQ(p.stand(), Stand::set_up);
  press(p, Key::enter);  // the first thing of the cabinet, and look at it
  ASSERT_TRUE(press_on(p, "Ready: look at it"));
  ASSERT_TRUE(p.set_up()->check());
  const auto wanted = static_cast<int>(p.set_up()->check()->wanted);
  const auto faults = p.set_up()->check()->findings.size();
  while (p.stand() == Stand::set_up) press(p, Key::enter);
  play_to_debrief(p);
  ASSERT_EQ(p.stand(), Stand::turnover);
  for (int i = 0; i < 60 && !p.turnover()->check(); ++i) press(p, Key::enter);
  ASSERT_TRUE(p.turnover()->check());
  const auto cleared = p.turnover()->check()->right;
  press(p, Key::enter);
  ASSERT_EQ(p.stand(), Stand::debrief);
  p.settle();
  const auto sessions = store().sessions({});
  ASSERT_EQ(sessions.size(), 1u);
  const auto around = store().evidence(sessions[0].id).around;
  ASSERT_TRUE(around.set_up);
  EXPECT_EQ(around.set_up->of, wanted);
  EXPECT_EQ(around.set_up->faults.size(), faults);
  ASSERT_TRUE(around.turnover);
  EXPECT_EQ(around.turnover->right, static_cast<int>(cleared));
  EXPECT_TRUE(records::verify(store(), {}).sound());
  press(p, Key::escape);
  press(p, Key::f3);
  press(p, Key::enter);
  ASSERT_EQ(p.review()->stand(), Room::session);
  ASSERT_NO_FATAL_FAILURE(shows(p, "The tray:"));  // drawn once, so that it knows its length
  press(p, Key::end);
  EXPECT_TRUE(shows(p, "The tray:"));
}

TEST_F(Review, StepsOfTheClassAndEmptyOnesSaySo) {
  trainer();
  trainee("Ana Petrov", "expert", 2);
  trainee("Bo Lind", "absent", 2);
  auto p = program();
  enter(p);
  press(p, Key::f3);
  ASSERT_EQ(p.review()->stand(), Room::heat);
  EXPECT_TRUE(shows(p, "2/2"));
  EXPECT_TRUE(shows(p, "0/2"));
  EXPECT_EQ(p.review()->stand(), Room::heat);
  press(p, Key::escape);
  EXPECT_EQ(p.review()->stand(), Room::everybody);
}

TEST_F(Review, ATraineeSeesTheirOwnAndNothingElse) {
  trainee("Ana Petrov", "late:2", 7);
  trainee("Bo Lind", "expert", 1);
  auto p = program();
  ASSERT_TRUE(press_on(p, "Ana Petrov"));
  ASSERT_EQ(p.stand(), Stand::start);
  press(p, Key::f3);
  ASSERT_EQ(p.stand(), Stand::review);
  ASSERT_EQ(p.review()->stand(), Room::person);
  EXPECT_TRUE(shows(p, "Ana Petrov"));
  EXPECT_TRUE(shows(p, "fitted law, 95 % band"));
  press(p, Key::f5);
  press(p, Key::f6);
  EXPECT_EQ(p.review()->stand(), Room::person) << "no signing, no notes";
  EXPECT_FALSE(shows(p, "Sign off"));
  press(p, Key::f4);
  const auto reports = std::filesystem::path(folder / "reports");
  ASSERT_TRUE(std::filesystem::is_directory(reports));
  for (const auto& entry : std::filesystem::directory_iterator(reports)) {
    const auto page = procedure::load_text(entry.path().string());
    EXPECT_NE(page.find("Ana Petrov"), std::string::npos);
    EXPECT_EQ(page.find("Bo Lind"), std::string::npos);
  }
  press(p, Key::escape);
  EXPECT_EQ(p.stand(), Stand::start);
}

TEST_F(Review, ATraineeWithoutDrillsIsToldWhatToDo) {
  store().add_person(Person::Part::trainee, "Cem Aksoy");
  auto p = program();
  ASSERT_TRUE(press_on(p, "Cem Aksoy"));
  press(p, Key::f3);
  EXPECT_TRUE(shows(p, "No drill yet."));
  for (const auto key : {Key::enter, Key::space, Key::f3, Key::f5, Key::f6, Key::down, Key::right})
    press(p, key);
  EXPECT_EQ(p.review()->stand(), Room::person);
}

// Nothing on anything else, in both languages and with large letters.
TEST_F(Review, EveryScreenHoldsAtEverySize) {
  trainer();
  trainee("Ana Petrov with a name that takes more room than most", "late:2", 12);
  trainee("Bo Lind", "expert", 3);
  struct Size {
    int width, height;
    double scale;
  };
  const Size sizes[] = {{1280, 720, 1}, {1280, 720, 2}, {1920, 1080, 1}, {1920, 1080, 2}};
  for (const auto* language : {"en", "es"}) {
    auto p = program(language);
    const auto look = [&](const std::string& where) {
      EXPECT_EQ(fitting_scale(2, 1280, 720, p.needs()), 2) << where << " at 200 % in 1280x720";
      for (const auto& s : sizes) {
        const double scale = fitting_scale(s.scale, s.width, s.height, p.needs());
        const auto seen = look_at(p, s.width, s.height, scale);
        for (const auto& fault : seen.faults(16 * scale))
          ADD_FAILURE() << language << ", " << where << " at " << s.width << "x" << s.height
                        << ", scale " << scale << ": " << fault;
      }
      for (const auto& [key, shown] : p.strings().missing())
        ADD_FAILURE() << where << ": no text for " << key;
    };
    look("people");
    press(p, Key::f3);
    look("door");
    type(p, "tess's own");
    press(p, Key::enter);
    look("class");
    type(p, "nobody has this name");
    look("nobody fits");
    press(p, Key::escape);
    press(p, Key::f3);
    look("steps");
    press(p, Key::escape);
    press(p, Key::enter);
    look("person");
    press(p, Key::tab);
    look("person, the drills");
    press(p, Key::f5);
    look("signing");
    press(p, Key::enter);
    press(p, Key::enter);
    look("signing, told something");
    press(p, Key::escape);
    press(p, Key::f6);
    look("note");
  }
}

records::CohortTable class_of(int n) {
  std::vector<records::CohortRow> rows;
  for (int i = 0; i < n; ++i) {
    records::CohortRow r;
    r.summary.trainee_name = "Trainee " + std::to_string(i * 7919 % n);
    r.summary.completed = r.summary.sessions = 1 + i % 9;
    r.summary.last = i * 31 % 100;
    r.title = "A title";
    r.due = monday + std::chrono::hours{i % 100 - 50};
    r.readiness = static_cast<records::Readiness>(i % 4);
    rows.push_back(std::move(r));
  }
  return {std::move(rows), monday};
}

// Ten thousand trainees: work is counted, not time.
TEST(ReviewOfManyTrainees, IsGoneThroughOnceForEachChangeAndNotForShowing) {
  auto table = class_of(10'000);
  const auto before = table.looked_at();
  records::CohortView view;
  view.search = "999";
  view.by = records::CohortView::Column::last;
  table.show(view);
  EXPECT_EQ(table.looked_at(), before + 10'000);
  table.show(view);
  EXPECT_EQ(table.looked_at(), before + 10'000) << "the same view costs nothing";
  EXPECT_GT(table.size(), 0u);
  for (std::size_t i = 1; i < table.size(); ++i)
    EXPECT_LE(table[i - 1].summary.last, table[i].summary.last);
  EXPECT_EQ(table.counts()[0], table.size());
}

TEST(ReviewOfManyTrainees, OnlyTheRowsInViewAreDrawn) {
  TemporaryFolder folder;
  const auto address = folder / "records.db";
  {
    auto s = Store::open(address, ticking());
    s.add_person(Person::Part::trainer, "Tess Arn", "tess's own");
    const auto tiny_text = procedure::load_text(PROJECT_DIR "/tests/scenarios/good/tiny.yaml");
    const auto tiny = *procedure::read(tiny_text).procedure;
    drill::Setup setup;
    setup.assistant = "human";
    drill::Run run(tiny, setup);
    cast(run, drill::habit_from("expert"));
    run.play_out();
    records::IdMaker ids;
    for (int i = 0; i < 120; ++i) {
      const auto who = s.add_person(Person::Part::trainee, "Trainee " + std::to_string(i));
      s.save(records::new_session(
          tiny, run.session(),
          {ids.make(monday), who.id, monday, monday, drill::program_version, tiny_text}));
    }
  }
  ReviewDesk desk(address, folder / "reports", ticking());
  ReviewClass screen(desk);
  ASSERT_EQ(screen.table().size(), 120u);
  const auto cost = screen.table().looked_at();
  const auto strings = english();
  const picture::Theme theme;
  Hits hits;
  for (int i = 0; i < 50; ++i) {
    AuditCanvas canvas(1280, 720);
    Pen pen{canvas, theme, strings, hits, {-1, -1}};
    screen.draw(pen, {0, 0, 1280, 720});
    EXPECT_LT(canvas.seen().texts.size(), 250u) << "about sixteen rows of nine cells";
    screen.handle(Input::of_key(i % 2 == 0 ? Key::page_down : Key::down));
  }
  EXPECT_EQ(screen.table().looked_at(), cost) << "moving about looks at no other rows";
}

}  // namespace
}  // namespace beforehand::stage
