// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Who practises, and what becomes of their drills: the way round with records.
#include <gtest/gtest.h>

#include "playing.hpp"
#include "records/verify.hpp"

namespace beforehand::stage {
namespace {

using Stand = Program::Stand;
using records::Person;
using records::Store;

Outside outside_with(RecordDesk& desk) {
  Outside outside;
  outside.scenarios = "scenarios";
  outside.new_recording = [](const std::string&, std::uint64_t) { return std::string(); };
  outside.new_seed = [] { return std::uint64_t{7}; };
  outside.records = &desk;
  return outside;
}

struct People : testing::Test {
  TemporaryFolder folder;
  std::string address = folder / "records.db";
  RecordDesk desk{address, folder.path().string(), ticking()};

  Program program() {
    return Program(tiny_shelf(), english(), outside_with(desk), {}, drill_alone());
  }
  Store store() const { return Store::open(address, ticking()); }
};

void play_unaided(Program& program) {
  press(program, Key::tab);
  press(program, Key::right);  // unaided
  press(program, Key::enter);
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Stand::drill);
  ASSERT_TRUE(play_to_debrief(program));
  program.settle();
}

TEST_F(People, AddedByKeyboardPlaysAndFindsTheDrillInTheRecords) {
  auto p = program();
  ASSERT_EQ(p.stand(), Stand::people);
  EXPECT_TRUE(look_at(p, 1280, 720, 1).shows("Nobody is in the records yet"));
  press(p, Key::enter);
  EXPECT_EQ(p.stand(), Stand::people) << "nobody to go on with";
  type(p, "Inés <b>");
  press(p, Key::enter);
  ASSERT_EQ(p.stand(), Stand::start);
  EXPECT_EQ(p.start().choice().name, "Inés <b>");
  play_unaided(p);
  EXPECT_TRUE(look_at(p, 1280, 3000, 1).shows("It is in your records."));
  const auto kept = store().sessions({});
  ASSERT_EQ(kept.size(), 1u);
  EXPECT_TRUE(kept[0].complete);
  EXPECT_EQ(kept[0].trainee, store().person(Person::Part::trainee, "Inés <b>").id);
  EXPECT_TRUE(records::verify(store(), {}).findings.empty());
  press(p, Key::escape);
  ASSERT_EQ(p.stand(), Stand::start);
  EXPECT_TRUE(look_at(p, 1280, 720, 1).shows("best")) << "own last and best on the shelf";
  press(p, Key::escape);
  EXPECT_EQ(p.stand(), Stand::people);
  press(p, Key::escape);
  EXPECT_TRUE(p.closed());
}

TEST_F(People, PickedByMouse) {
  for (const auto* name : {"Ana Petrov", "Bo Lind"})
    store().add_person(Person::Part::trainee, name);
  auto p = program();
  ASSERT_TRUE(press_on(p, "Bo Lind"));
  EXPECT_EQ(p.stand(), Stand::start);
  EXPECT_EQ(desk.chosen()->name, "Bo Lind");
  ASSERT_TRUE(press_on(p, "Bo Lind (press to change)"));
  EXPECT_EQ(p.stand(), Stand::people);
  ASSERT_TRUE(press_on(p, "Practise without records"));
  EXPECT_EQ(p.stand(), Stand::start);
  EXPECT_FALSE(desk.chosen());
  EXPECT_EQ(p.start().choice().name, "");
}

TEST_F(People, PractisesWithoutRecordsByItsKey) {
  auto p = program();
  type(p, "Ana");
  EXPECT_TRUE(look_at(p, 1280, 720, 1).shows("F4"));
  press(p, Key::f4);
  EXPECT_EQ(p.stand(), Stand::start);
  EXPECT_FALSE(desk.chosen());
}

TEST_F(People, TypingFindsAndSomebodyElsesPasscodeIsNeeded) {
  store().add_person(Person::Part::trainee, "Ana Petrov", "ana's own");
  store().add_person(Person::Part::trainee, "Bo Lind");
  auto p = program();
  type(p, "PETR");
  EXPECT_EQ(p.people()->rows(), 2u) << "Ana, and a new one of that name";
  press(p, Key::enter);
  ASSERT_TRUE(p.people()->asks_passcode());
  type(p, "guess");
  press(p, Key::enter);
  EXPECT_EQ(p.stand(), Stand::people);
  EXPECT_TRUE(look_at(p, 1280, 720, 1).shows("That is not the passcode."));
  EXPECT_FALSE(look_at(p, 1280, 720, 1).shows("guess"));
  type(p, "ana's own");
  press(p, Key::enter);
  EXPECT_EQ(p.stand(), Stand::start);
}

TEST_F(People, ADrillLeftByClosingTheWindowIsKeptAsInterrupted) {
  {
    auto p = program();
    type(p, "Ana");
    press(p, Key::enter);
    press(p, Key::enter);
    press(p, Key::enter);
    ASSERT_EQ(p.stand(), Stand::drill);
    for (int i = 0; i < 50; ++i) p.pass(std::chrono::milliseconds{100});
    Input close;
    close.kind = Input::Kind::close;
    p.handle(close);
    p.handle(close);
    EXPECT_TRUE(p.closed());
    desk.wait();
  }
  const auto kept = store().sessions({});
  ASSERT_EQ(kept.size(), 1u);
  EXPECT_FALSE(kept[0].complete);
}

TEST(PeopleWithoutAServer, CanPractiseAndAreToldWhatIsWrong) {
  TemporaryFolder folder;
  RecordDesk desk("postgresql://nobody@127.0.0.1:9/none", folder.path().string(), ticking());
  Program p(tiny_shelf(), english(), outside_with(desk), {}, drill_alone());
  ASSERT_EQ(p.stand(), Stand::people);
  EXPECT_TRUE(look_at(p, 1280, 720, 1).shows("The records cannot be opened"));
  ASSERT_TRUE(press_on(p, "Practise without records"));
  EXPECT_EQ(p.stand(), Stand::start);
}

// The server goes away while a drill is played: the drill waits, and comes in once it is back.
TEST(PeopleWhoseNetworkGoes, FindTheDrillOnceItIsBack) {
  TemporaryFolder folder;
  const auto address = folder / "records.db", away = folder / "away.db";
  RecordDesk desk(address, folder.path().string(), ticking());
  Program p(tiny_shelf(), english(), outside_with(desk), {}, drill_alone());
  type(p, "Ana");
  press(p, Key::enter);
  press(p, Key::enter);
  press(p, Key::enter);
  ASSERT_EQ(p.stand(), Stand::drill);
  // A folder in the file's place stands for a share that is gone.
  std::filesystem::rename(address, away);
  for (const auto* ending : {"-wal", "-shm"}) {
    std::error_code none;
    std::filesystem::rename(address + ending, away + ending, none);
  }
  std::filesystem::create_directory(address);
  ASSERT_TRUE(play_to_debrief(p));
  p.settle();
  EXPECT_TRUE(look_at(p, 1280, 3000, 1).shows("It waits on this computer"));
  std::filesystem::remove(address);
  std::filesystem::rename(away, address);
  for (const auto* ending : {"-wal", "-shm"}) {
    std::error_code none;
    std::filesystem::rename(away + ending, address + ending, none);
  }
  const records::Queue queue(folder / "queue");
  EXPECT_EQ(queue.deliver(address, ticking()).saved, 1);
  EXPECT_EQ(queue.deliver(address, ticking()).saved, 0);
  EXPECT_EQ(Store::open(address, ticking()).sessions({}).size(), 1u);
}

}  // namespace
}  // namespace beforehand::stage
