// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The shipped scenarios as they are played: what harms at the chair must harm in the drill. The
// rules are those of scenarios_trade_test.cpp, where their sources stand.
#include <algorithm>
#include <map>
#include <memory>
#include <set>

#include "drill/cast.hpp"
#include "drill/set_up.hpp"
#include "drill/turnover.hpp"
#include "procedure/relations.hpp"
#include "scoring/score.hpp"
#include "shipped_scenarios.hpp"
#include "timing/plan.hpp"

namespace beforehand::drill {
namespace {

using namespace std::chrono_literals;
using procedure::Field;
using procedure::Role;
using procedure::scenario;
using procedure::Verb;

struct Drill {
  Procedure p;
  Run run;
  PersonIx me = p.who(Role::assistant);

  Drill(const std::string& id, const std::string& assistant, std::uint64_t seed, PhaseIx phase = {})
      : p(scenario(id)), run(p, setup(seed, phase)) {
    cast(run, habit_from(assistant));  // "human" is no habit
  }

  static Setup setup(std::uint64_t seed, PhaseIx phase) {
    Setup s;
    s.seed = seed;
    s.phase = phase;
    return s;
  }

  void act(Verb verb, const std::string& supply) {
    for (std::size_t a = 0; a < p.actions.size(); ++a) {
      const auto& kind = p.actions[a];
      if (kind.verb != verb || !kind.supply || p.supply(kind.supply).id != supply) continue;
      Command c;
      c.at = run.now();
      c.person = me;
      c.action = ActionIx{a};
      return run.submit(c);
    }
    FAIL() << "no such action on " << supply;
  }

  const Event* first(What what, const std::string& step) const {
    for (const auto& e : run.session().events) {
      if (e.what == what && e.step == procedure::find(p, step)) return &e;
    }
    return nullptr;
  }

  scoring::Score score() {
    run.play_out();
    return scoring::score(p, run.session(), me);
  }

  bool sees(Field f) const { return run.world().field.test(static_cast<std::size_t>(f)); }
};

class Drills : public testing::TestWithParam<std::string> {};

INSTANTIATE_TEST_SUITE_P(Shipped, Drills, testing::ValuesIn(procedure::shelf),
                         procedure::test_name);

TEST_P(Drills, ExpertIsInTimeAndAbsentIsNotInTheWholeAndInEveryPhase) {
  const auto phases = scenario(GetParam()).phases.size();
  for (std::size_t phase = 0; phase <= phases; ++phase) {
    const auto which = phase < phases ? PhaseIx{phase} : PhaseIx{};
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
      EXPECT_GE(Drill(GetParam(), "expert", seed, which).score().total, 97) << phase;
      EXPECT_LT(Drill(GetParam(), "absent", seed, which).score().total, 40) << phase;
    }
  }
}

TEST_P(Drills, EveryHabitComesToTheEnd) {
  for (const auto* habit : {"expert", "late:3", "late:30", "forgetful:50", "shuffled:50",
                            "shuffled:100", "eager", "asked", "absent"}) {
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
      Drill d(GetParam(), habit, seed);
      d.run.play_out();
      EXPECT_TRUE(d.run.session().complete()) << habit << ' ' << seed;
    }
  }
}

/// Which signals happened, as bits.
unsigned happened(const Session& session) {
  unsigned bits = 0;
  for (const auto& e : session.events) {
    if (e.what == What::signal_shown) bits |= 1u << e.signal.at();
  }
  return bits;
}

/// A practised assistant who, asked for a second applicator at the primer, hands one out for the
/// adhesive before the adhesive itself. trade.md, *common practice*: "If the clinician needs a
/// second applicator at the primer, two are needed at the adhesive."
class Foresighted final : public Controller {
 public:
  Foresighted(const Procedure& p, PersonIx me, std::uint64_t seed)
      : spare_(procedure::find(p, "pass-applicator-adhesive")),
        after_(procedure::find(p, "air-primer")),
        me_(me),
        bot_(me, {}, seed, std::make_shared<timing::WindowFinder>(p)) {}

  bool decide(const Procedure& p, const World& w, Command& out) override {
    const auto adhesive = p.action_of[procedure::find(p, "pass-adhesive").at()];
    const bool still_open = w.step(spare_).state == StepState::waiting;
    if (still_open && w.finished(after_)) {
      out.op = Op::act;
      out.action = p.action_of[spare_.at()];
      return may_i(p, w, me_, out.action) == Reason::none;
    }
    const bool decides = bot_.decide(p, w, out);
    return decides && !(still_open && out.op == Op::act && out.action == adhesive);
  }
  Ms wake(const Procedure& p, const World& w) override { return bot_.wake(p, w); }

 private:
  StepIx spare_, after_;
  PersonIx me_;
  Bot bot_;
};

TEST(ASecondApplicator, ForetoldAtThePrimerMayBeOutBeforeTheAdhesive) {
  for (const auto* id : {"class-ii-composite", "core-build-up"}) {
    Procedure p = scenario(id);
    for (auto& signal : p.signals)
      if (signal.id == "second-at-primer") signal.likely_percent = 100;
    const auto me = p.who(Role::assistant);
    drill::Run run(p, Drill::setup(3, {}));
    cast(run, Habit{});
    run.control(me, std::make_unique<Foresighted>(p, me, 3));
    run.play_out();
    const auto spare = procedure::find(p, "pass-applicator-adhesive");
    const auto coat = procedure::find(p, "coat"), again = procedure::find(p, "coat-again");
    EXPECT_LT(run.world().step(spare).ended, run.world().step(coat).started) << id;
    const auto score = scoring::score(p, run.session(), me);
    for (const auto& e : score.errors) EXPECT_NE(e.step, spare) << id << ": " << e.what;
    EXPECT_EQ(score.order.cost, 0) << id;
    for (const auto& need : score.needs) {
      if (need.step == again) EXPECT_DOUBLE_EQ(need.credit, 1) << id;
    }
  }
}

TEST_P(Drills, ThereIsAProvenPlanWithoutSignalsWithEachAloneAndWithAll) {
  const auto p = scenario(GetParam());
  std::vector<timing::PlanRequest> requests(1);
  timing::PlanRequest all;
  for (std::size_t i = 0; i < p.signals.size(); ++i) {
    timing::PlanRequest alone;
    alone.happened = {SignalIx{i}};
    requests.push_back(alone);
    all.happened.emplace_back(i);
  }
  requests.push_back(all);
  for (const auto& request : requests) EXPECT_TRUE(timing::plan(p, request).proven());
}

// Seeds are tried until each signal has come alone, where it can, and all have come together.
TEST_P(Drills, ExpertIsInTimeWithEachSignalAloneAndWithAll) {
  const auto& signals = scenario(GetParam()).signals;
  std::set<unsigned> open;
  for (std::size_t i = 0; i < signals.size(); ++i) {
    const bool foretells = std::any_of(signals.begin(), signals.end(), [&](const auto& later) {
      return std::any_of(later.foretold.begin(), later.foretold.end(),
                         [&](const auto& f) { return f.by.at() == i && f.likely_percent == 100; });
    });
    if (!foretells) open.insert(1u << i);
  }
  if (!signals.empty()) open.insert((1u << signals.size()) - 1);
  for (std::uint64_t seed = 1; seed <= 300 && !open.empty(); ++seed) {
    Drill d(GetParam(), "expert", seed);
    const auto total = d.score().total;
    if (open.erase(happened(d.run.session())) > 0) {
      EXPECT_GE(total, 97) << seed;
    }
  }
  EXPECT_TRUE(open.empty()) << "a combination of signals never came";
}

TEST(ClassIIDrill, ClampPassedWithoutFlossIsUnsafe) {
  Drill d("class-ii-composite", "human", 1);
  d.act(Verb::pass, "dam-clamp");
  const auto* event = d.first(What::unready_start, "pass-clamp");
  ASSERT_TRUE(event);
  EXPECT_EQ(event->value, 1);
  EXPECT_EQ(d.score().verdict, scoring::Verdict::repeat);
}

TEST(FissureSealantDrill, LightBeforeTheShieldIsUnsafe) {
  Drill d("fissure-sealant", "human", 1);
  d.act(Verb::light, "curing-light");
  const auto* event = d.first(What::unready_start, "cure");
  ASSERT_TRUE(event);
  EXPECT_EQ(event->value, 1);
  EXPECT_EQ(d.score().verdict, scoring::Verdict::repeat);
}

TEST(FissureSealantDrill, SealantOpenedAtTheBeginningHasSetWhenItIsWanted) {
  Drill d("fissure-sealant", "human", 1);
  d.act(Verb::open, "sealant");
  d.run.advance_to(46s);
  const auto* opened = d.first(What::prepared, "open-sealant");
  ASSERT_TRUE(opened);
  EXPECT_EQ(d.run.world().supply(opened->supply).state, procedure::SupplyState::set);
}

TEST(ClassIIDrill, WithNobodyAtTheSuctionTheDentineIsOverEtched) {
  Drill d("class-ii-composite", "absent", 1);
  d.run.play_out();
  const auto* event = d.first(What::lag_overrun, "rinse-etch");
  ASSERT_TRUE(event);
  EXPECT_EQ(event->cause, procedure::find(d.p, "etch-dentine"));
}

TEST(ClassIIDrill, BloodShowsFromTheSignalUntilItIsStopped) {
  int bled = 0;
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    Drill d("class-ii-composite", "expert", seed);
    d.run.play_out();
    const auto* stopped = d.first(What::step_done, "stop-bleeding");
    if (!stopped) continue;
    ++bled;
    Drill again("class-ii-composite", "expert", seed);
    again.run.advance_to(stopped->at - 1ms);
    EXPECT_TRUE(again.sees(Field::bleeding));
    again.run.advance_to(stopped->at);
    EXPECT_FALSE(again.sees(Field::bleeding));
  }
  EXPECT_GE(bled, 1);
}

// ---- the others of the shelf -------------------------------------------------------------------

struct Harm {
  const char *scenario, *phase, *supply, *step;
  Verb verb;
};

// Each is the first thing somebody who knows no order might do in that phase.
constexpr Harm harms[] = {
    {"rubber-dam", "preparing", "dam-clamp", "load-clamp", Verb::load},
    {"simple-extraction", "", "anaesthetic", "pass-anaesthetic", Verb::pass},
    {"crown-preparation", "", "anaesthetic", "pass-anaesthetic", Verb::pass},
    {"room-turnover", "", "used-cassette", "close-cassette", Verb::put_away},
    {"room-turnover", "cleaning", "disinfectant", "disinfect", Verb::use},
    {"room-turnover", "reprocessing", "pouch", "pack", Verb::use},
};

TEST(ShelfDrill, WhatHarmsAtTheChairIsUnsafe) {
  for (const auto& harm : harms) {
    const auto p = scenario(harm.scenario);
    PhaseIx phase;
    for (std::size_t i = 0; i < p.phases.size(); ++i) {
      if (p.phases[i].id == harm.phase) phase = PhaseIx{i};
    }
    Drill d(harm.scenario, "human", 1, phase);
    d.act(harm.verb, harm.supply);
    const auto* event = d.first(What::unready_start, harm.step);
    ASSERT_TRUE(event) << harm.scenario;
    EXPECT_EQ(event->value, 1) << harm.scenario;
    EXPECT_EQ(d.score().verdict, scoring::Verdict::repeat) << harm.scenario;
  }
}

// Common practice: a practised pair takes about eight minutes from the check radiograph until the
// dam is off, a margin that bleeds included or not.
TEST(CoreDrill, FromCheckRadiographToDamOffTakesAboutEightMinutes) {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    Drill d("core-build-up", "expert", seed);
    d.run.play_out();
    const auto* off = d.first(What::step_done, "remove-dam");
    ASSERT_TRUE(off);
    EXPECT_GE(off->at, 7min);
    EXPECT_LE(off->at, 9min + 20s);
  }
}

// The same of the plan: proven, with and without the margin that bleeds.
TEST(CoreDrill, IsPlannedToAboutEightMinutesFromCheckRadiographToDamOff) {
  const auto p = scenario("core-build-up");
  ASSERT_EQ(p.signals.front().id, "bleeding");
  for (const bool bleeds : {false, true}) {
    timing::PlanRequest request;
    if (bleeds) request.happened = {SignalIx{0}};
    const auto plan = timing::plan(p, request);
    ASSERT_TRUE(plan.proven());
    const auto from = plan.steps[procedure::find(p, "show-radiograph").at()].start;
    const auto to = plan.steps[procedure::find(p, "remove-dam").at()].end;
    EXPECT_GE(to - from, 7min) << bleeds;
    EXPECT_LE(to - from, 9min) << bleeds;
  }
}

TEST(CoreDrill, PasteMixedAtTheBeginningHasSetWhenItIsWanted) {
  Drill d("core-build-up", "human", 1);
  d.act(Verb::mix, "core-paste");
  d.run.advance_to(3min);
  const auto* mixed = d.first(What::prepared, "mix-core");
  ASSERT_TRUE(mixed);
  EXPECT_EQ(d.run.world().supply(mixed->supply).state, procedure::SupplyState::set);
}

// Resuscitation Council UK 2021: again after five minutes when it goes on. Within the sixth minute
// is this scenario's bound.
TEST(EmergencyDrill, SecondDoseComesAtFiveMinutes) {
  int repeated = 0;
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    Drill d("chair-emergency", "expert", seed);
    d.run.play_out();
    const auto *first = d.first(What::step_started, "inject-1"),
               *second = d.first(What::step_started, "inject-2");
    ASSERT_TRUE(first);
    EXPECT_LE(first->at, 90s + 30s) << "the first dose does not wait";
    if (!second) continue;
    ++repeated;
    EXPECT_GE(second->at - first->at, 5min);
    EXPECT_LE(second->at - first->at, 6min);
  }
  EXPECT_GE(repeated, 1);
}

// Planning estimate of five to ten minutes from one patient's leaving to calling the next.
TEST(TurnoverDrill, RoomIsReadyInFiveToTenMinutes) {
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    Drill d("room-turnover", "expert", seed);
    d.run.play_out();
    const auto *from = d.first(What::step_started, "farewell"),
               *to = d.first(What::step_started, "call-next");
    ASSERT_TRUE(from && to);
    EXPECT_GE(to->at - from->at, 5min);
    EXPECT_LE(to->at - from->at, 10min);
  }
}

// ---- laying the tray and clearing up -----------------------------------------------------------

/// The tray as it is asked for: what belongs on it, in order of use.
std::vector<SetUpItem> tray_of(const procedure::Procedure& p) {
  auto items = set_up_of(p, {}, {}, 1);
  std::erase_if(items, [](const SetUpItem& item) { return item.belongs != Belongs::tray; });
  std::sort(items.begin(), items.end(), [](const SetUpItem& a, const SetUpItem& b) {
    return a.first_use.at() < b.first_use.at();
  });
  return items;
}

Ms planned_use(const procedure::Procedure& p, const timing::Plan& plan, SupplyIx supply) {
  Ms first = never;
  const auto uses = procedure::lives(p);
  for (const StepIx step : uses[supply.at()])
    if (plan.steps[step.at()].happens()) first = std::min(first, plan.steps[step.at()].start);
  return first;
}

// Instruments lie in order of use (four-handed dentistry, Finkbeiner 2000), and that order is the
// reference plan's. What differs is meant: the adhesive is mixed while the etch works, as its cue
// says, which the plan does as late as it can to have it fresh; the primer is held ready while the
// pellet still blots, and used after it; and dam punch and floss may change places.
TEST(Tray, LiesInTheOrderOfTheReferencePlan) {
  std::set<std::string> differ;
  for (const auto& id : procedure::shelf) {
    const auto p = scenario(id);
    const auto plan = timing::plan(p);
    const auto tray = tray_of(p);
    for (std::size_t i = 1; i < tray.size(); ++i)
      if (planned_use(p, plan, tray[i - 1].supply) > planned_use(p, plan, tray[i].supply))
        differ.insert(id + ": " + tray[i - 1].name + " before " + tray[i].name);
  }
  EXPECT_EQ(differ, (std::set<std::string>{
                        "class-ii-composite: Cotton pellet before Primer on its applicator",
                        "class-ii-composite: Two-part adhesive before Cotton pellet",
                        "core-build-up: Cotton pellet before Primer on its applicator",
                        "core-build-up: Two-part adhesive before Cotton pellet",
                        "rubber-dam: Dam punch before Floss for the clamp"}));
}

/// What was used in a drill, lies about still, and is not asked for when clearing up.
std::set<std::string> not_asked_for(const std::string& id) {
  Drill d(id, "expert", 1);
  d.run.play_out();
  std::set<std::string> names;
  std::set<std::size_t> asked;
  for (const auto& left : leftovers(d.p, d.run.world(), d.run.session()))
    asked.insert(left.supply.at());
  const auto uses = procedure::lives(d.p);
  for (std::size_t i = 0; i < uses.size(); ++i) {
    const auto& supply = d.p.supplies[i];
    const auto& now = d.run.world().supplies[i];
    const bool used = std::any_of(uses[i].begin(), uses[i].end(), [&](StepIx step) {
      return d.run.world().step(step).state == StepState::done;
    });
    const bool put = now.state == procedure::SupplyState::discarded || now.place == supply.ends;
    const bool patient = d.p.place(supply.at).kind == procedure::PlaceKind::patient;
    if (used && !put && !patient && !asked.contains(i)) names.insert(supply.name);
  }
  return names;
}

// Everything that was at the mouth or in used gloves is cleared away, but for paper and pictures,
// what goes to the laboratory or home with the patient, the container that sharps go into, and what
// more than one thing happens to: of an air-water syringe the tip is changed and the rest wiped, a
// shade guide and an emergency kit go by their own instructions (*common practice*).
TEST(ClearingUp, LeavesOutOnlyWhatIsMeant) {
  using Names = std::set<std::string>;
  const std::map<std::string, Names> meant{
      {"class-ii-composite", {"Air-water syringe", "Record and radiograph"}},
      {"rubber-dam", {"Air-water syringe", "Record with allergies"}},
      {"simple-extraction",
       {"Checklist", "Instructions for home", "Radiograph", "Record and consent",
        "Sharps container"}},
      {"crown-preparation",
       {"Disinfectant bath", "Impression tray with heavy body", "Laboratory bag", "Putty key",
        "Record", "Shade guide", "Sharps container"}},
      {"core-build-up", {"Air-water syringe", "Check radiograph and record"}},
      {"chair-emergency",
       {"Defibrillator", "Emergency kit", "Emergency record", "Front door", "Sharps container",
        "Time sheet"}}};
  for (const auto& id : procedure::shelf) {
    if (id == "room-turnover") continue;  // clearing up is what it is about
    const auto found = meant.find(id);
    EXPECT_EQ(not_asked_for(id), found == meant.end() ? Names{} : found->second) << id;
  }
}

}  // namespace
}  // namespace beforehand::drill
