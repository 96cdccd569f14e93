// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/exact_windows.hpp"

#include <gtest/gtest.h>

#include <functional>
#include <random>

#include "generated.hpp"
#include "sketch.hpp"
#include "timing/feasible.hpp"
#include "timing/windows.hpp"

namespace beforehand::timing {
namespace {

std::vector<StartRange> ranges(const Procedure& p) {
  const auto found = plan(p);
  EXPECT_TRUE(found.proven());
  return exact_windows(p, {}, found).value();
}

// Etch 15 s, with a gel passed in 2 s, after an opening of 60 s.
struct EtchAfterOpening : Sketch {
  StepIx open = step("open", {clinician}, s(60));
  StepIx etch = step("etch", {clinician}, s(15), {open});
  StepIx set_out = step("set out", {assistant}, s(5));
  StepIx pass_gel = pass(supply("gel"), etch, s(2), {set_out});
};

TEST(ExactWindows, APrepMayStartFromWhenItIsOfUseToWhenNobodyWaits) {
  const EtchAfterOpening e;
  const auto r = ranges(e.p);
  EXPECT_EQ(r[e.set_out.at()].earliest, s(0));
  EXPECT_EQ(r[e.set_out.at()].latest, s(53));
  EXPECT_EQ(r[e.pass_gel.at()].earliest, s(60 - 10 - 2)) << "held longer it only blocks a hand";
  EXPECT_EQ(r[e.pass_gel.at()].latest, s(58));
  EXPECT_EQ(r[e.etch.at()].earliest, s(60));
  EXPECT_EQ(r[e.etch.at()].latest, s(60));
}

// Two things in any order before the filling: the plan does them in one, the windows know both.
TEST(ExactWindows, DoNotHangOnTheOrderOfThePlan) {
  Sketch k;
  const auto open = k.step("open", {clinician}, s(30));
  const auto a = k.step("a", {assistant}, s(10)), b = k.step("b", {assistant}, s(5));
  k.step("fill", {clinician}, s(10), {open, a, b});
  const auto r = ranges(k.p);
  EXPECT_EQ(r[a.at()].latest, s(20));
  EXPECT_EQ(r[b.at()].latest, s(25));
}

TEST(ExactWindows, SomebodyWhoIsBusyMustBeginEarlier) {
  Sketch k;  // 42 s of the assistant's work, then 1 s: no moment to lose
  const auto open = k.step("open", {clinician}, s(30));
  const auto a = k.step("a", {assistant}, s(10), {});
  const auto hold = k.step("hold", {assistant}, s(12), {});
  k.step("fill", {clinician}, s(10), {open, a});
  const auto cure = k.step("cure", {assistant}, s(20), {hold});
  k.step("finish", {clinician}, s(1), {cure});
  const auto r = ranges(k.p);
  EXPECT_EQ(r[a.at()].latest, s(12)) << "between the holding and the curing";
  EXPECT_EQ(r[hold.at()].latest, s(10)) << "or after it";
  std::vector<Window> alone;
  windows(k.p, std::vector<StepTime>(k.p.steps.size()), Ms{0}, alone);
  EXPECT_EQ(alone[a.at()].latest, s(20)) << "what the network knows of, without the other work";
}

TEST(ExactWindows, AreNotGivenWithoutAProofOrInTime) {
  const EtchAfterOpening e;
  PlanRequest request;
  EXPECT_FALSE(exact_windows(e.p, request, Plan{}));
  const auto found = plan(e.p);
  request.stopped = [] { return true; };
  EXPECT_FALSE(exact_windows(e.p, request, found));
}

// Every assignment of start times in whole seconds, and of who does what: which are as good as the
// best plan, and where each step starts in them. Shares no code with the solver.
class Enumeration {
 public:
  Enumeration(const Procedure& p, const Plan& best) : p_(p), plan_(best) {
    for (auto& s : plan_.steps) {
      s.earliest = Ms{0};
      s.latest = never;
    }
    all_.resize(p.steps.size());
    useful_.resize(p.steps.size());
    from(0);
  }

  Ms earliest(std::size_t i) const {
    return useful_[i].earliest == never ? all_[i].earliest : useful_[i].earliest;
  }
  Ms latest(std::size_t i) const { return all_[i].latest; }
  int plans() const { return plans_; }

 private:
  void from(std::size_t i) {
    if (i == p_.steps.size()) return consider();
    const auto& step = p_.steps[i];
    for (const auto who : step.by) {
      for (Ms start{0}; start <= plan_.chair_time; start += s(1)) {
        plan_.steps[i].by = who;
        plan_.steps[i].start = start;
        plan_.steps[i].end = start + step.takes.usual;
        if (!step.is_cover() && plan_.steps[i].end > plan_.chair_time) break;
        if (fits_so_far(i)) from(i + 1);
      }
    }
  }

  // Only what makes the enumeration short.
  bool fits_so_far(std::size_t i) const {
    for (const auto& link : p_.steps[i].after) {
      if (link.step.at() < i && link.from == Anchor::end &&
          plan_.steps[link.step.at()].end + link.at_least > plan_.steps[i].start)
        return false;
    }
    return true;
  }

  void consider() {
    for (std::size_t i = 0; i < p_.steps.size(); ++i) {
      for (const auto covered : p_.steps[i].covers) {
        auto& end = plan_.steps[i].end;
        end = std::max(end, plan_.steps[covered.at()].end);
      }
    }
    if (!violations(p_, {}, plan_).empty()) return;
    ++plans_;
    for (std::size_t i = 0; i < p_.steps.size(); ++i) {
      const Ms start = plan_.steps[i].start;
      note(all_[i], start);
      const StepIx user = p_.steps[i].serves;
      if (user && plan_.steps[user.at()].start - plan_.steps[i].end <= p_.offer)
        note(useful_[i], start);
    }
  }

  static void note(StartRange& range, Ms start) {
    range.earliest = std::min(range.earliest, start);
    range.latest = range.latest == never ? start : std::max(range.latest, start);
  }

  const Procedure& p_;
  Plan plan_;
  std::vector<StartRange> all_, useful_;
  int plans_ = 0;
};

// Two own steps of the clinician, three preps and one step that both may do, at random.
Procedure tiny(std::mt19937& random) {
  const auto up_to = [&](unsigned n) { return static_cast<double>(1 + random() % n); };
  Sketch k;
  k.p.offer = s(2);
  const auto open = k.step("open", {clinician}, s(up_to(4)));
  const auto mix = k.step("mix", {assistant}, s(up_to(3)));
  k.at(mix).verb = Verb::mix;
  const auto fill = k.step("fill", {clinician}, s(up_to(3)), {open});
  const auto keeps = random() % 2 ? never : s(4 + up_to(4));
  k.pass(k.supply("paste", keeps), fill, s(1), {mix}, mix);
  const auto cure = k.step("cure", {assistant, clinician}, s(up_to(3)));
  if (random() % 2) k.at(cure).attention = false;
  const auto wipe = k.step("wipe", {assistant}, s(up_to(3)));
  if (random() % 2) k.link(cure, open);
  if (random() % 2) k.link(fill, cure);
  if (random() % 2) k.link(wipe, random() % 2 ? open : mix, s(0), random() % 2 ? s(3) : never);
  return k.p;
}

TEST(ExactWindows, AreThoseOfAllBestPlansCountedOut) {
  std::mt19937 random(11);
  int wider = 0;
  for (int round = 0; round < 40; ++round) {
    const auto p = tiny(random);
    const auto best = plan(p);
    ASSERT_TRUE(best.proven()) << round;
    const Enumeration all(p, best);
    ASSERT_GT(all.plans(), 0) << round;
    const auto found = exact_windows(p, {}, best).value();
    for (std::size_t i = 0; i < found.size(); ++i) {
      EXPECT_EQ(found[i].earliest, all.earliest(i)) << round << ' ' << p.steps[i].id;
      EXPECT_EQ(found[i].latest, all.latest(i)) << round << ' ' << p.steps[i].id;
      wider += found[i].latest > best.steps[i].latest;
    }
  }
  EXPECT_GT(wider, 0) << "some window is wider than the plan's own order leaves";
}

TEST(ExactWindows, OfGeneratedProceduresHoldThePlanItself) {
  for (unsigned seed = 1; seed <= 2; ++seed) {
    const auto p = generated(seed, 30);
    const auto best = plan(p);
    const auto found = exact_windows(p, {}, best).value();
    for (std::size_t i = 0; i < found.size(); ++i) {
      EXPECT_LE(found[i].earliest, best.steps[i].start) << p.steps[i].id;
      EXPECT_GE(found[i].latest, best.steps[i].latest) << p.steps[i].id;
    }
  }
}

}  // namespace
}  // namespace beforehand::timing
