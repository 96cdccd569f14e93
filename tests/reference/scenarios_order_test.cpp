// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The order rules and times of the procedures beyond filling and sealing. "From memory" marks a
// figure that was not read in the source; "common practice" a rule of thumb without one; a
// "planning estimate" is ours.
#include "shipped_scenarios.hpp"

namespace beforehand::procedure {
namespace {

bool mentions(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

void expect_within(const Procedure& p, const std::string& id, Ms least, Ms most) {
  EXPECT_GE(step(p, id).takes.least, least) << id;
  EXPECT_LE(step(p, id).takes.most, most) << id;
}

PlaceKind ends(const Procedure& p, const std::string& id) {
  return p.place(supply(p, id).ends).kind;
}

// ---- core --------------------------------------------------------------------------------------

// All common practice.
TEST(Core, IsMixedWhileTheClinicianThinsAndCuresAlone) {
  const auto p = scenario("core-build-up");
  EXPECT_NO_THROW(link(p, "thin", "mix-core", Anchor::start));
  EXPECT_NO_THROW(link(p, "etch-enamel", "mix-adhesive", Anchor::start));
  const auto& light = step(p, "cure-adhesive");
  ASSERT_EQ(light.by.size(), 1u);
  EXPECT_EQ(p.person(light.by.front()).role, Role::clinician);
  const Ms mixing = step(p, "mix-core").takes.usual + step(p, "pass-core").takes.usual;
  EXPECT_LE(mixing, step(p, "thin").takes.least + light.takes.least);
  EXPECT_LE(link(p, "mix-core", "wipe-spatula", Anchor::end).at_most, 30s);
}

// Working time of core pastes is typically 1.5 to 2 min (instructions, from memory; ISO 4049:2019
// leaves core materials out of its scope).
TEST(Core, SetsInNinetySecondsToTwoMinutesSoThatMixingAtTheEtchWouldSpoilIt) {
  const auto p = scenario("core-build-up");
  const auto working = supply(p, "core-paste").working_time;
  EXPECT_GE(working, 90s);
  EXPECT_LE(working, 2min);
  Ms quickest{0};
  for (const auto* id : {"etch-enamel", "etch-dentine", "rinse-etch", "blot", "prime", "air-primer",
                         "coat", "thin", "cure-adhesive", "fill"}) {
    quickest += step(p, id).takes.least;
  }
  EXPECT_GT(quickest - step(p, "mix-core").takes.usual, working);
}

TEST(Core, TrayIsClosedAndClampCountedBeforeThePatientSitsUp) {  // common practice
  const auto p = scenario("core-build-up");
  expect_in_order(p, {"remove-dam", "count-clamp", "sit-up"});
  expect_in_order(p, {"put-away-matrix", "close-tray", "sit-up"});
  EXPECT_TRUE(link(p, "count-clamp", "sit-up", Anchor::end).unsafe);
}

TEST(Core, FirstSurpriseForetellsTheSecond) {  // common practice
  const auto p = scenario("core-build-up");
  ASSERT_EQ(p.signals.back().foretold.size(), 1u);
  EXPECT_EQ(p.signal(p.signals.back().foretold.front().by).id, "second-at-primer");
  EXPECT_EQ(p.signals.back().foretold.front().likely_percent, 100);
}

// ---- dam ---------------------------------------------------------------------------------------

// Latex allergy asked first, floss through both holes, stability tested, everything counted (dam
// rules of practice texts; the order of preparing is common practice).
TEST(Dam, LatexFlossAndCount) {
  const auto p = scenario("rubber-dam");
  for (const auto* before : {"ask-latex", "ligate-clamp"}) {
    EXPECT_TRUE(link(p, before, "pass-clamp", Anchor::end).unsafe) << before;
  }
  for (const auto* before : {"count-clamp", "count-sheet"}) {
    EXPECT_TRUE(link(p, before, "sit-up", Anchor::end).unsafe) << before;
  }
  EXPECT_TRUE(mentions(step(p, "ligate-clamp").caution, "both holes"));
  EXPECT_EQ(step(p, "pass-clamp").hands, 2);
  expect_in_order(p, {"place-clamp", "stretch", "check-patient", "floss-through", "invert",
                      "test-seal", "treat", "cut-septa", "remove-clamp", "remove-dam"});
}

TEST(Dam, GoesOnInOneToFiveMinutes) {  // planning estimate: 60 s for a filling, 300 s for a canal
  const auto p = scenario("rubber-dam");
  Ms usual{0};
  for (const auto* id : {"place-clamp", "stretch", "floss-through", "invert", "test-seal"}) {
    usual += step(p, id).takes.usual;
  }
  EXPECT_GE(usual, 1min);
  EXPECT_LE(usual, 5min);
}

// ---- extraction --------------------------------------------------------------------------------

// Sign-in, time-out, sign-out after the WHO checklist as adapted to dentistry by Wright et al., BDJ
// 2018;225:727: the tooth matched to its picture, notes and consent with the patient awake.
TEST(Extraction, TimeOutStandsBeforeTheFirstNeedleAndSignOutBeforeLeaving) {
  const auto p = scenario("simple-extraction");
  for (const auto* before : {"read-tooth", "show-radiograph"}) {
    EXPECT_TRUE(link(p, before, "time-out", Anchor::end).unsafe) << before;
  }
  EXPECT_TRUE(link(p, "time-out", "pass-anaesthetic", Anchor::end).unsafe);
  expect_in_order(p, {"read-history", "time-out", "inject", "release", "recount", "luxate",
                      "deliver", "check-root", "compress", "bite", "check-clot", "sign-out"});
  EXPECT_TRUE(link(p, "recount", "luxate", Anchor::end).unsafe);
  EXPECT_TRUE(link(p, "count-out", "sign-out", Anchor::end).unsafe);
  expect_in_order(p, {"count-in", "release", "count-out"});
  EXPECT_TRUE(mentions(step(p, "read-tooth").why, "35 by FDI, lower left, second premolar"));
}

// CDC 2003 and 2016 (text from memory): no two-handed recapping, disposed of at the point of use.
TEST(Extraction, SharpsGoByTheirUserAtOnce) {
  for (const auto* id : {"simple-extraction", "crown-preparation"}) {
    const auto p = scenario(id);
    expect_in_order(p, {"inject", "drop-needle"});
    EXPECT_EQ(step(p, "drop-needle").by.size(), 1u);
    EXPECT_EQ(step(p, "drop-needle").by, step(p, "inject").by);
    EXPECT_TRUE(mentions(step(p, "drop-needle").title, "one hand"));
    EXPECT_EQ(ends(p, "anaesthetic"), PlaceKind::sharps);
  }
  EXPECT_EQ(ends(scenario("simple-extraction"), "suture"), PlaceKind::sharps);
  EXPECT_EQ(ends(scenario("chair-emergency"), "adrenaline"), PlaceKind::sharps);
}

TEST(Extraction, ForcepsAreHandedOverWithBothHands) {  // trade convention for bulky things
  EXPECT_EQ(step(scenario("simple-extraction"), "pass-forceps").hands, 2);
}

// Planning estimates: wait 180-600 s, free the gum 30, loosen 60-300, bite 10-20 min. Tortamano et
// al., Braz Dent J 2013;24:371: pulpal onset after a mandibular block 7.4-8.7 min on average.
TEST(Extraction, TimesLieInTheirRanges) {
  const auto p = scenario("simple-extraction");
  expect_within(p, "take-effect", 180s, 600s);
  expect_within(p, "inject", 60s, 90s);
  expect_within(p, "luxate", 60s, 300s);
  EXPECT_EQ(step(p, "bite").takes.usual, 10min);
}

// ---- emergency ---------------------------------------------------------------------------------

// Resuscitation Council UK 2021: 500 micrograms into the outer thigh = 0.5 ml of 1:1000, oxygen
// 15 l/min, repeat after 5 min. Scottish Dental Clinical Effectiveness Programme: 12 years and over
// 0.5, 6-11 years 0.3, 6 months to 5 years 0.15 ml.
TEST(Emergency, DosesAreThoseOfTheGuidelines) {
  const auto p = scenario("chair-emergency");
  const auto& doses = step(p, "draw-1").caution;
  for (const auto* words : {"1:1000 (1 mg/ml)", "12 years and over: 500 micrograms = 0.5 ml",
                            "6 to 11 years: 300 = 0.3 ml", "6 months to 5 years: 150 = 0.15 ml"}) {
    EXPECT_TRUE(mentions(doses, words)) << words;
  }
  EXPECT_TRUE(mentions(supply(p, "adrenaline").caution, "outer thigh"));
  EXPECT_TRUE(mentions(step(p, "open-oxygen").title, "15 litres a minute"));
  EXPECT_TRUE(mentions(text_of("chair-emergency"), "Resuscitation Council UK"));
}

TEST(Emergency, MillilitresAndMicrogramsAgree) {  // 1:1000 is 1 g in 1000 ml = 1000 µg/ml
  EXPECT_DOUBLE_EQ(0.5 * 1000, 500);
  EXPECT_DOUBLE_EQ(0.3 * 1000, 300);
  EXPECT_DOUBLE_EQ(0.15 * 1000, 150);
}

TEST(Emergency, DoseIsRepeatedFiveMinutesAfterTheFirst) {
  const auto p = scenario("chair-emergency");
  const auto& repeat = link(p, "inject-1", "inject-2", Anchor::start);
  EXPECT_EQ(repeat.at_least, 5min);
  EXPECT_LE(repeat.at_most, 6min);
  EXPECT_FALSE(step(p, "inject-2").when.empty());
}

// Flat before the injection, adrenaline before oxygen (the same guideline); read by two (common
// practice); nobody sits up suddenly.
TEST(Emergency, FlatReadInjectedTimedThenOxygen) {
  const auto p = scenario("chair-emergency");
  expect_in_order(p, {"notice", "assess", "declare", "lay-flat", "inject-1", "note-time-1",
                      "open-oxygen", "place-oxygen", "reassess-1", "reassess-2", "hand-over"});
  expect_in_order(p, {"fetch-kit", "draw-1", "check-dose-1", "inject-1"});
  EXPECT_TRUE(link(p, "check-dose-1", "inject-1", Anchor::end).unsafe);
  EXPECT_EQ(p.people.size(), 3u);
  EXPECT_TRUE(mentions(step(p, "lay-flat").caution, "Never sit up suddenly"));
}

// ---- crown -------------------------------------------------------------------------------------

// Alginate: mixing 45 s (type I) to 60 s, working 1.25 to 2 min, left 2-3 min after it no longer
// sticks (teaching notes after ADA specification 18, from memory).
TEST(Crown, AlginateIsMixedUsedAndLeftInForItsTimes) {
  const auto p = scenario("crown-preparation");
  expect_within(p, "mix-alginate", 45s, 60s);
  EXPECT_GE(supply(p, "alginate").working_time, 75s);
  EXPECT_LE(supply(p, "alginate").working_time, 120s);
  EXPECT_GE(step(p, "hold-opposing").takes.least, 2min);
}

// Shade before the tooth dries, key before the bur, cord 4-8 min, syringe and tray within ten
// seconds (planning estimates and common practice).
TEST(Crown, OrderAndTimesOfTheImpression) {
  const auto p = scenario("crown-preparation");
  expect_in_order(p, {"choose-shade", "take-key", "depth-cuts", "reduce", "lay-cord", "wait-cord",
                      "draw-cord", "count-cord", "seat-tray", "remove-tray"});
  expect_within(p, "reduce", 9min, 20min);
  EXPECT_GE(step(p, "wait-cord").takes.usual, 4min);
  EXPECT_LE(step(p, "wait-cord").takes.most, 8min);
  EXPECT_LE(link(p, "inject-light-body", "seat-tray", Anchor::end).at_most, 10s);
  EXPECT_NO_THROW(link(p, "draw-cord", "open-light-body", Anchor::start));
  EXPECT_TRUE(link(p, "count-cord", "seat-tray", Anchor::end).unsafe);
}

TEST(Crown, ImpressionIsRinsedDisinfectedAndBaggedInThisOrder) {  // label contact time assumed
  const auto p = scenario("crown-preparation");
  EXPECT_GE(link(p, "disinfect-impression", "bag-impression", Anchor::end).at_least, 3min);
  expect_in_order(p, {"remove-tray", "disinfect-impression", "bag-impression", "check-slip"});
}

TEST(Crown, ProvisionalComesOffWhileItIsRubbery) {  // instructions, from memory
  const auto p = scenario("crown-preparation");
  const auto& off = link(p, "load-provisional", "remove-provisional", Anchor::end);
  EXPECT_GE(off.at_least, 60s);
  EXPECT_LE(off.at_most, 2min);
}

// ---- turnover ----------------------------------------------------------------------------------

// CDC's sequences: on: hands, gown, mask, eyes, gloves; off (first of its two): gloves, eyes, gown,
// mask, hands. What holds in both: gloves on last and off first, the mask off last, hands after.
TEST(Turnover, ProtectiveClothingGoesOnAndOffInItsOrder) {
  const auto p = scenario("room-turnover");
  expect_in_order(p, {"rub-before", "gown-on", "mask-on", "visor-on", "gloves-on", "start-bath"});
  expect_in_order(
      p, {"gloves-off", "glasses-off", "gown-off", "mask-off", "rub-after", "pass-record"});
}

// WHO 2009: rub 20-30 s (from memory), soap and water 40-60 s in all; after gloves, before clean
// things.
TEST(Turnover, HandsAreCleanedAfterGlovesAndBeforeCleanThings) {
  const auto p = scenario("room-turnover");
  for (const auto* id : {"rub-first", "rub-after", "rub-before", "rub-line"}) {
    expect_within(p, id, 20s, 30s);
  }
  expect_in_order(p, {"drop-gloves", "rub-first", "utility-on"});
  expect_in_order(p, {"rub-after", "new-barriers", "set-out-pack"});
  expect_in_order(p, {"room-gloves-off", "rub-line", "pack"});
  EXPECT_TRUE(mentions(step(p, "rub-after").caution, "40 to 60 seconds"));
}

TEST(Turnover, SharpsFirstThenCleanThenDisinfectThenBarriers) {
  const auto p = scenario("room-turnover");
  EXPECT_TRUE(link(p, "drop-sharps", "close-cassette", Anchor::end).unsafe);
  expect_in_order(p,
                  {"drop-sharps", "close-cassette", "strip", "clean", "disinfect", "gloves-off"});
  EXPECT_TRUE(link(p, "clean", "disinfect", Anchor::end).unsafe);
  EXPECT_GE(link(p, "disinfect", "new-barriers", Anchor::end).at_least, 1min);
  expect_within(p, "flush", 20s, 30s);  // CDC, from memory
}

// CDC: receive, clean, rinse, dry, inspect, pack with indicators inside and outside, steam, dry,
// store (steps R, steam times from memory: 132 °C 4 min with pre-vacuum, 121 °C 30 min).
TEST(Turnover, InstrumentsGoFromDirtyToClean) {
  const auto p = scenario("room-turnover");
  expect_in_order(p, {"gloves-on", "start-bath", "rinse", "dry", "inspect", "pack", "start-cycle",
                      "read-cycle", "release", "store"});
  EXPECT_TRUE(mentions(step(p, "pack").title, "inside and outside"));
  EXPECT_TRUE(mentions(step(p, "start-cycle").caution, "132 °C for 4 minutes with pre-vacuum"));
  EXPECT_TRUE(mentions(step(p, "start-cycle").caution, "121 °C for 30 minutes"));
  EXPECT_GE(link(p, "start-cycle", "read-cycle", Anchor::end).at_least, 30min);
  EXPECT_TRUE(mentions(step(p, "start-bath").caution, "Never reach into it"));
}

}  // namespace
}  // namespace beforehand::procedure
