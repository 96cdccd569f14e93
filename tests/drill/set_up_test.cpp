// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// What a drill's set-up and turnover ask for, and how they are judged.
#include "drill/set_up.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "drill/turnover.hpp"
#include "play.hpp"

namespace beforehand::drill {
namespace {

using procedure::Procedure;

Procedure sealant() { return test::scenario("scenarios/fissure-sealant/scenario.yaml"); }
Procedure extraction() { return test::scenario("scenarios/simple-extraction/scenario.yaml"); }

std::size_t find(const std::vector<SetUpItem>& items, const std::string& name) {
  const auto it =
      std::find_if(items.begin(), items.end(), [&](const auto& i) { return i.name == name; });
  EXPECT_NE(it, items.end()) << name;
  return static_cast<std::size_t>(it - items.begin());
}

std::vector<std::size_t> named(const std::vector<SetUpItem>& items,
                               const std::vector<std::string>& names) {
  std::vector<std::size_t> result;
  for (const auto& name : names) result.push_back(find(items, name));
  return result;
}

const std::vector<std::string> in_order{"Patient's glasses", "Cotton rolls", "Etching gel",
                                        "Sealant"};

// A tray carries its instruments in order of use (four-handed dentistry; common practice).
TEST(SetUp, TheTrayInOrderOfUseIsRight) {
  const auto p = sealant();
  const auto items = set_up_of(p, {}, {}, 1);
  const auto check = check_set_up(items, named(items, in_order));
  EXPECT_EQ(check.wanted, 4u);
  EXPECT_EQ(check.right, 4u);
  EXPECT_TRUE(check.findings.empty());
}

TEST(SetUp, TellsWhatIsMissingSuperfluousAndOutOfOrder) {
  const auto p = sealant();
  const auto other = extraction();
  const auto items = set_up_of(p, {}, {&other}, 3);
  const auto stranger =
      std::find_if(items.begin(), items.end(), [](const auto& i) { return !i.supply; });
  ASSERT_NE(stranger, items.end());
  auto laid = named(items, {"Sealant", "Cotton rolls", "Etching gel", "Hand rub"});
  laid.push_back(static_cast<std::size_t>(stranger - items.begin()));
  const auto check = check_set_up(items, laid);
  EXPECT_EQ(check.right, 2u) << "rolls and gel lie as they are used";
  std::vector<SetUpFault> faults;
  for (const auto& f : check.findings) faults.push_back(f.fault);
  EXPECT_EQ(faults, (std::vector<SetUpFault>{SetUpFault::from_counter, SetUpFault::superfluous,
                                             SetUpFault::missing, SetUpFault::out_of_order}));
  EXPECT_EQ(items[check.findings[2].item].name, "Patient's glasses");
  EXPECT_EQ(items[check.findings[3].item].name, "Sealant");
}

TEST(SetUp, AnEmptyTrayLacksEverything) {
  const auto p = sealant();
  const auto items = set_up_of(p, {}, {}, 1);
  const auto check = check_set_up(items, {});
  EXPECT_EQ(check.right, 0u);
  EXPECT_EQ(check.findings.size(), check.wanted);
}

// What waits wrapped in the cabinet until the tooth is confirmed is not laid beforehand; what only
// a surprise asks for is a back-up, and lies anywhere.
TEST(SetUp, FetchedLaterStaysAndBackUpsHaveNoOrder) {
  const auto p = extraction();
  const auto items = set_up_of(p, {}, {}, 1);
  EXPECT_EQ(items[find(items, "Extraction forceps")].belongs, Belongs::store);
  const auto class_ii = test::scenario("scenarios/class-ii-composite/scenario.yaml");
  for (const auto& item : set_up_of(class_ii, {}, {}, 1)) {
    if (item.belongs != Belongs::back_up) continue;
    for (const auto& step : class_ii.steps)
      if (step.supply == item.supply) EXPECT_FALSE(step.when.empty()) << item.name;
  }
}

TEST(SetUp, APartOfTheProcedureNeedsItsOwnThingsOnly) {
  const auto p = sealant();
  const auto sealing = set_up_of(p, PhaseIx{2}, {}, 1);
  EXPECT_EQ(sealing[find(sealing, "Etching gel")].belongs, Belongs::nowhere);
  EXPECT_EQ(sealing[find(sealing, "Sealant")].belongs, Belongs::tray);
}

// An emergency is not announced, and a turnover has nobody in the chair.
TEST(SetUp, NoTrayWhereNoneIsLaid) {
  EXPECT_TRUE(
      set_up_of(test::scenario("scenarios/chair-emergency/scenario.yaml"), {}, {}, 1).empty());
  EXPECT_TRUE(
      set_up_of(test::scenario("scenarios/room-turnover/scenario.yaml"), {}, {}, 1).empty());
}

TEST(SetUp, TheSameSeedGivesTheSameCabinet) {
  const auto p = sealant();
  const auto other = extraction();
  const auto names = [&](std::uint64_t seed) {
    std::vector<std::string> result;
    for (const auto& item : set_up_of(p, {}, {&other}, seed)) result.push_back(item.name);
    return result;
  };
  EXPECT_EQ(names(5), names(5));
  std::set<std::vector<std::string>> all;
  for (std::uint64_t seed = 1; seed <= 20; ++seed) all.insert(names(seed));
  EXPECT_GT(all.size(), 3u);
}

struct Played {
  Procedure procedure;
  Run run;
  explicit Played(const std::string& file, const std::string& assistant)
      : procedure(test::scenario(file)), run(procedure, {1, Level::unaided, {}, {}, assistant}) {
    test::cast(run, assistant);
    run.play_out();
  }
  std::vector<Leftover> left() const { return leftovers(procedure, run.world(), run.session()); }
  const Leftover* of(const std::string& name) {
    all = left();
    for (const auto& one : all)
      if (procedure.supply(one.supply).name == name) return &one;
    return nullptr;
  }
  std::vector<Leftover> all;
};

// Sharps go to the sharps container; what was in the mouth is never only wiped (common practice;
// materials' and makers' instructions come first).
TEST(Turnover, EachThingGoesWhereItMay) {
  Played sealing("scenarios/fissure-sealant/scenario.yaml", "expert");
  const auto* tip = sealing.of("Suction tip");
  ASSERT_NE(tip, nullptr);
  EXPECT_FALSE(tip->goes_to(Destination::wiped));
  EXPECT_TRUE(tip->goes_to(Destination::waste));
  const auto* light = sealing.of("Curing light");
  ASSERT_NE(light, nullptr);
  EXPECT_TRUE(light->goes_to(Destination::wiped));
  EXPECT_FALSE(light->goes_to(Destination::waste));
  Played out("scenarios/simple-extraction/scenario.yaml", "expert");
  for (const auto& one : out.left()) {
    const auto ends = out.procedure.supply(one.supply).ends;
    if (ends && out.procedure.place(ends).kind == procedure::PlaceKind::sharps)
      EXPECT_TRUE(one.goes_to(Destination::sharps));
  }
}

TEST(Turnover, WhatWasNotUsedOrIsGoneIsNotAskedFor) {
  Played alone("scenarios/fissure-sealant/scenario.yaml", "absent");
  EXPECT_NE(alone.of("Hand rub"), nullptr) << "the clinician took it up";
  EXPECT_TRUE(leftovers(alone.procedure, alone.run.world(), Session()).empty())
      << "nobody touched anything";
  Played turnover("scenarios/room-turnover/scenario.yaml", "expert");
  EXPECT_TRUE(turnover.left().empty());
}

TEST(Turnover, WrongPlacesAndLateSharpsAreTold) {
  const auto left = [](std::initializer_list<Destination> where) {
    Leftover one;
    for (const auto d : where) one.right.set(static_cast<std::size_t>(d));
    return one;
  };
  const std::vector<Leftover> all{left({Destination::sharps}), left({Destination::waste})};
  const auto good = check_turnover(all, {{0, Destination::sharps}, {1, Destination::waste}});
  EXPECT_EQ(good.right, 2u);
  EXPECT_TRUE(good.wrong.empty() && good.sharps_late.empty());
  const auto bad = check_turnover(all, {{1, Destination::wiped}, {0, Destination::sharps}});
  EXPECT_EQ(bad.right, 1u);
  EXPECT_EQ(bad.wrong, std::vector<std::size_t>{0});
  EXPECT_EQ(bad.sharps_late, std::vector<std::size_t>{1});
}

}  // namespace
}  // namespace beforehand::drill
