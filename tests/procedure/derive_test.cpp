// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/derive.hpp"

#include <rapidcheck.h>

#include "base/random.hpp"
#include "scenario_files.hpp"

namespace beforehand::procedure {
namespace {

class Tiny : public testing::Test {
 protected:
  StepIx ix(std::string_view id) const { return step_named(p, id); }
  const Step& step(std::string_view id) const { return p.step(ix(id)); }

  const Link* link(std::string_view from, std::string_view to) const {
    for (const Link& l : step(to).after) {
      if (l.step == ix(from)) return &l;
    }
    return nullptr;
  }
  const Need* need(std::string_view of, Need::Kind kind, std::string_view from) const {
    for (const Need& n : step(of).needs) {
      if (n.kind == kind && n.from == ix(from)) return &n;
    }
    return nullptr;
  }

  std::string text = tiny_text();
  Procedure p = read_well(text);
};

TEST_F(Tiny, IsReadAsWritten) {
  ASSERT_EQ(p.steps.size(), 10u);
  EXPECT_EQ(p.id, "tiny");
  EXPECT_EQ(p.fingerprint, fnv1a(text));
  EXPECT_EQ(p.patience, Ms{4000});
  EXPECT_EQ(p.weights.anticipation, 45);
  EXPECT_EQ(step("rinse").title, "Rinses the cavity");
  EXPECT_EQ(step("rinse").takes.least, Ms{8000});
  EXPECT_EQ(step("rinse").takes.usual, Ms{10'000});
  EXPECT_EQ(step("rinse").takes.most, Ms{14'000});
  EXPECT_EQ(step("rinse").verb, Verb::work);
  EXPECT_TRUE(step("rinse").attention);
  EXPECT_FALSE(step("suction-rinse").attention);
  EXPECT_TRUE(step("rinse").leaves.test(static_cast<std::size_t>(Field::wet)));
  EXPECT_EQ(link("rinse", "apply")->at_most, Ms{120'000});
  EXPECT_EQ(link("rinse", "apply")->if_late, "stained again");
  EXPECT_EQ(p.signals[0].likely_percent, 50);
  EXPECT_EQ(p.signals[0].delay, Ms{1000});
  EXPECT_EQ(p.supplies[2].working_time, Ms{90'000});
}

TEST_F(Tiny, SuppliesStartWhereTheStepsNeedThem) {
  EXPECT_EQ(p.supplies[0].starts, SupplyState::set_out);  // no step sets the suction tip out
  EXPECT_EQ(p.supplies[2].starts, SupplyState::stored);
  EXPECT_TRUE(p.supplies[2].needs_preparing);
  EXPECT_FALSE(p.supplies[1].needs_preparing);
}

TEST_F(Tiny, TheStepsThatHandleOneSupplyFollowOneAnother) {
  EXPECT_TRUE(link("set-out-liner", "mix-liner")->implied);
  EXPECT_TRUE(link("mix-liner", "pass-liner")->implied);
  EXPECT_TRUE(link("pass-liner", "apply")->implied);
  EXPECT_FALSE(link("apply", "take-back-liner")->implied);  // written, and not added again
  EXPECT_EQ(step("take-back-liner").after.size(), 1u);
  EXPECT_EQ(link("suction-rinse", "rinse")->from, Anchor::start);
}

TEST_F(Tiny, NeedsKnowWhoServesThem) {
  EXPECT_EQ(need("apply", Need::Kind::supply, "pass-liner")->prepared_by, ix("mix-liner"));
  EXPECT_TRUE(need("rinse", Need::Kind::cover, "suction-rinse"));
  EXPECT_EQ(step("rinse").covered_by, std::vector{ix("suction-rinse")});
  EXPECT_TRUE(need("blot", Need::Kind::supply, "pass-gauze"));
  EXPECT_TRUE(need("take-back-liner", Need::Kind::done, "apply"));
  EXPECT_EQ(step("apply").needs.size(), 1u);  // what comes before it is its own person's work
  EXPECT_EQ(step("look").needs.size(), 0u);
}

TEST_F(Tiny, OrderIsTransitive) {
  EXPECT_TRUE(p.precedes(ix("set-out-liner"), ix("take-back-liner")));
  EXPECT_TRUE(p.precedes(ix("suction-rinse"), ix("look")));
  EXPECT_FALSE(p.precedes(ix("look"), ix("take-back-liner")));
  EXPECT_FALSE(p.precedes(ix("rinse"), ix("rinse")));
  EXPECT_FALSE(p.precedes(ix("rinse"), ix("mix-liner")));
  ASSERT_EQ(p.topological.size(), p.steps.size());
  for (std::size_t i = 0; i < p.topological.size(); ++i) {
    for (std::size_t j = 0; j <= i; ++j)
      EXPECT_FALSE(p.precedes(p.topological[i], p.topological[j]));
  }
}

TEST_F(Tiny, ActionsAreKindsOfSteps) {
  EXPECT_FALSE(p.action_of[ix("rinse").at()]);
  const auto mix = p.action_of[ix("mix-liner").at()];
  ASSERT_TRUE(mix);
  EXPECT_EQ(p.action(mix).verb, Verb::mix);
  EXPECT_EQ(p.action(mix).steps, std::vector{ix("mix-liner")});
  EXPECT_TRUE(p.action(p.action_of[ix("suction-rinse").at()]).cover);
}

TEST_F(Tiny, ReachIsAddedFromTheAssistantsSeat) {
  EXPECT_EQ(step("set-out-liner").reach, reach_time(Motion::iv));  // out of the cabinet
  EXPECT_EQ(step("mix-liner").reach, Ms{0});                       // on the tray
}

TEST_F(Tiny, DerivingAgainChangesNothing) {
  const Procedure once = p;
  EXPECT_TRUE(derive(p).empty());
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    EXPECT_EQ(p.steps[i].after.size(), once.steps[i].after.size());
    EXPECT_EQ(p.steps[i].needs.size(), once.steps[i].needs.size());
    EXPECT_EQ(p.steps[i].covered_by, once.steps[i].covered_by);
  }
  EXPECT_EQ(p.before, once.before);
  EXPECT_EQ(p.actions.size(), once.actions.size());
}

// apply comes after blot alone, and blot may not take place: what comes before blot still must.
TEST_F(Tiny, OrderDoesNotHangOnAStepThatMayNotApply) {
  p = read_well(with(text,
                     "{step: rinse, at-most: 2 min, if-late: stained again, why: \"Left open "
                     "it gets wet.\"}, ",
                     ""));
  ASSERT_TRUE(link("rinse", "apply"));
  EXPECT_TRUE(link("rinse", "apply")->implied);
  EXPECT_EQ(link("rinse", "apply")->from, Anchor::end);
  EXPECT_FALSE(link("pass-gauze", "apply"));  // skipped together with blot
}

TEST_F(Tiny, ATakeBackThatMustFreeAHandIsWaitedFor) {
  p = read_well(with(text, "takes: 6 s, after: [apply]", "takes: 6 s, hands: 2, after: [apply]"));
  EXPECT_TRUE(link("take-back-liner", "look")->implied);
  EXPECT_TRUE(need("look", Need::Kind::done, "take-back-liner"));
}

TEST_F(Tiny, WhatIsKeptNeedsNoSecondPass) {
  text = with(text, "    needs: [liner]\n", "    needs: [liner]\n    keeps: [liner]\n");
  text = with(text, "takes: 6 s, after: [apply]", "takes: 6 s, needs: [liner], after: [apply]");
  const auto take_back = text.find("  - {id: take-back-liner");
  const auto look = text.find("  - {id: look");
  text = text.substr(0, take_back) + text.substr(look) + text.substr(take_back, look - take_back);
  p = read_well(text);
  const Need& kept = step("look").needs.at(0);
  EXPECT_FALSE(kept.from);
  EXPECT_EQ(kept.prepared_by, ix("mix-liner"));
}

// Passed by one step when it bleeds and by another when it does not: every case is served.
TEST_F(Tiny, TwoPassesMayShareTheCases) {
  const std::string pass =
      "  - {id: pass-liner, title: Passes the lining paste, phase: line, by: "
      "assistant, does: pass,\n     supply: liner, for: apply, takes: 2 s, ";
  const std::string after = "after: [rinse], ";
  auto both = with(text, pass, pass + after + "when: [bleeding], ");
  both = with(
      both, "  - id: apply\n",
      with(pass, "pass-liner", "pass-liner-dry") + after + "unless: [bleeding]}\n  - id: apply\n");
  p = read_well(both);
  EXPECT_TRUE(need("apply", Need::Kind::supply, "pass-liner"));
  EXPECT_TRUE(need("apply", Need::Kind::supply, "pass-liner-dry"));
}

// Random graphs: the order relation against a plain closure (Warshall 1962), cycles against it too.
TEST(Derive, OrderIsTheClosureOfTheLinks) {
  EXPECT_TRUE(rc::check("order", [] {
    const auto n = *rc::gen::inRange<std::size_t>(1, 90);
    Procedure p;
    p.people.push_back({"c", "C", Role::clinician, 2, {}});
    p.steps.resize(n);
    std::vector<std::vector<bool>> reach(n, std::vector<bool>(n));
    for (auto& s : p.steps) {
      s.by = {PersonIx{0}};
      s.takes = {Ms{1000}, Ms{1000}, Ms{1000}};
    }
    const auto links = *rc::gen::inRange<std::size_t>(0, 2 * n);
    for (std::size_t i = 0; i < links; ++i) {
      const auto from = *rc::gen::inRange<std::size_t>(0, n);
      const auto to = *rc::gen::inRange<std::size_t>(0, n);
      if (from == to || (from > to && *rc::gen::inRange(0, 20) != 0)) continue;
      Link link;
      link.step = StepIx{from};
      p.steps[to].after.push_back(link);
      reach[from][to] = true;
    }
    for (std::size_t k = 0; k < n; ++k) {
      for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = 0; j < n; ++j)
          if (reach[i][k] && reach[k][j]) reach[i][j] = true;
      }
    }
    bool cyclic = false;
    for (std::size_t i = 0; i < n; ++i) cyclic = cyclic || reach[i][i];
    const auto problems = derive(p);
    RC_ASSERT(problems.empty() != cyclic);
    RC_ASSERT(p.topological.empty() == cyclic);
    for (std::size_t i = 0; !cyclic && i < n; ++i) {
      for (std::size_t j = 0; j < n; ++j)
        RC_ASSERT(p.precedes(StepIx{i}, StepIx{j}) == reach[i][j]);
    }
  }));
}

}  // namespace
}  // namespace beforehand::procedure
