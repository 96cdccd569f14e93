// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/competence.hpp"

#include <cmath>

#include "records/learning_curve.hpp"
#include "records/practise_next.hpp"
#include "records/review.hpp"
#include "records/sign_off.hpp"
#include "stores.hpp"

namespace beforehand::records {
namespace {

using std::chrono::days;

constexpr Moment start{std::chrono::milliseconds{1'772'442'000'000}};

TEST(Competence, FourteenInARowSignalAndOneFailureDoesNotUndoIt) {
  EXPECT_FALSE(standing(std::string(13, '1')).competent());
  const auto s = standing(std::string(14, '1') + "0");
  EXPECT_EQ(s.signal_at, 14);
  EXPECT_EQ(s.lapsed_at, 0);
  EXPECT_EQ(s.passed, 14);
}

TEST(Competence, FailuresCloseTogetherTakeTheEvidenceAway) {
  const auto s = standing(std::string(14, '1') + "000");
  EXPECT_FALSE(s.competent());
  EXPECT_EQ(s.lapsed_at, 17);
  EXPECT_TRUE(standing(std::string(14, '1') + "000" + std::string(14, '1')).competent());
}

TEST(Competence, SaysHowManyPassesAreMissing) {
  for (const std::string outcomes : {"", "0", "1101", "11111111"}) {
    const int n = passes_to_signal(standing(outcomes));
    EXPECT_FALSE(
        standing(outcomes + std::string(static_cast<std::size_t>(n - 1), '1')).competent());
    EXPECT_TRUE(standing(outcomes + std::string(static_cast<std::size_t>(n), '1')).competent());
  }
}

TEST(Curve, FindsTheLawItWasMadeBy) {
  std::vector<double> exponential, power, flat;
  for (int n = 1; n <= 20; ++n) {
    const double wobble = n % 2 == 0 ? 0.3 : -0.3;
    exponential.push_back(100 - (8 + 60 * std::exp(-0.3 * (n - 1))) + wobble);
    power.push_back(100 - 70 * std::pow(n, -0.9) + wobble);
    flat.push_back(70 + 10 * wobble);
  }
  const auto e = learning_curve(exponential);
  EXPECT_EQ(e->law, Law::exponential);
  EXPECT_NEAR(e->rate, 0.3, 0.03);
  EXPECT_NEAR(e->floor, 8, 1);
  const auto p = learning_curve(power);
  EXPECT_EQ(p->law, Law::power);
  EXPECT_NEAR(p->rate, 0.9, 0.05);
  EXPECT_EQ(learning_curve(flat)->law, Law::level);
  EXPECT_FALSE(learning_curve(std::vector<double>(5, 50.0)).has_value());
}

TEST(Curve, TheBandHoldsTheCurveAndStaysAmongTotals) {
  const auto c = learning_curve(std::vector<double>{35, 52, 49, 71, 68, 80, 83, 82, 90}, 4);
  ASSERT_EQ(c->points.size(), 13u);
  for (const auto& p : c->points) {
    EXPECT_LE(0, p.low);
    EXPECT_LE(p.low, p.value);
    EXPECT_LE(p.value, p.high);
    EXPECT_LE(p.high, 100);
  }
}

TEST(Curve, HoldsForTotalsThatAreAllAlikeOrFall) {
  EXPECT_EQ(learning_curve(std::vector<double>(9, 100.0))->law, Law::level);
  EXPECT_EQ(learning_curve(std::vector<double>{90, 80, 70, 60, 50, 40, 30})->law, Law::level);
}

TEST(PractiseNext, ThePosteriorByHand) {
  const auto known = posterior({{start, true}, {start, false}, {start, true}}, start);
  EXPECT_NEAR(known.passes, 1 + 0.81 + 1, 1e-12);
  EXPECT_NEAR(known.failures, 1 + 0.9, 1e-12);
  const auto later = posterior({{start, true}}, start + days{120});
  EXPECT_NEAR(later.passes, 1.25, 1e-12) << "two half-lives";
  EXPECT_NEAR(posterior({}, start).mean(), 0.5, 1e-12);
  EXPECT_NEAR(posterior({}, start).spread(), std::sqrt(1.0 / 12), 1e-12);
}

SessionRecord session_of(const procedure::Procedure& p, const std::string& failed, Moment at) {
  SessionRecord s;
  s.scenario = p.id;
  s.started = at;
  s.complete = true;
  for (const auto& step : p.steps)
    if (step.by.front() == p.who(procedure::Role::assistant))
      s.outcomes.push_back({step.id, step.id != failed});
  return s;
}

TEST(PractiseNext, NamesThePhaseOfTheStepThatFails) {
  const auto p = test::tiny();
  const auto trainee = p.who(procedure::Role::assistant);
  int asked = 0;
  for (const auto& step : p.steps) {
    if (step.by.front() != trainee || !step.phase) continue;
    ++asked;
    std::vector<SessionRecord> sessions;
    for (int i = 0; i < 20; ++i) sessions.push_back(session_of(p, step.id, start));
    const auto parts = practise_next(p, sessions, start);
    ASSERT_FALSE(parts.empty());
    EXPECT_EQ(parts.front().phase, step.phase);
    EXPECT_EQ(p.step(parts.front().steps.front().step).id, step.id);
    EXPECT_NE(reason(p, parts.front()).find(step.title), std::string::npos);
    EXPECT_NE(reason(p, parts.front()).find("0 of the last 8"), std::string::npos);
  }
  EXPECT_GT(asked, 0);
}

TEST(PractiseNext, NothingWeakToday_ForgottenAfterAYear) {
  const auto p = test::tiny();
  std::vector<SessionRecord> sessions;
  for (int i = 0; i < 30; ++i) sessions.push_back(session_of(p, "", start));
  EXPECT_TRUE(practise_next(p, sessions, start).empty());
  EXPECT_FALSE(practise_next(p, sessions, start + days{365}).empty());
}

TEST(Review, ReadinessNeedsEveryCriticalStep) {
  Summary s;
  EXPECT_EQ(readiness(s), Readiness::none);
  s.completed = 14;
  s.history = {{"a", std::string(14, '1')}, {"b", "10101"}};
  EXPECT_EQ(readiness(s), Readiness::practising);
  EXPECT_EQ(readiness(s, {"a"}), Readiness::evidence);
  EXPECT_EQ(readiness(s, {"a", "c"}), Readiness::practising);
  s.signed_off = true;
  EXPECT_EQ(readiness(s), Readiness::signed_off);
  s.last_at = start;
  EXPECT_EQ(due(s, Readiness::practising), start + days{7});
}

// Nobody is shown as ready whom the sign-off then finds lacking.
TEST(Review, EvidenceIsAskedForInTheStepsThatTheSignOffCounts) {
  const auto p = test::tiny();
  const auto asked = critical_steps(p);
  const auto list = criteria(p, Summary{}, {});
  ASSERT_EQ(list[2].kind, Criterion::Kind::competence);
  EXPECT_EQ(list[2].steps, asked);
  Summary s;
  s.completed = 14;
  for (const auto& id : asked) s.history.push_back({id, std::string(14, '1')});
  EXPECT_EQ(readiness(s, asked) == Readiness::evidence, !asked.empty());
  EXPECT_TRUE(criteria(p, s, {})[2].met);
}

TEST(Review, TheHeatMapHasEveryTraineeInEveryRow) {
  Summary a, b;
  a.trainee_name = "Ana";
  a.history = {{"x", "0011"}};
  b.trainee_name = "Bo";
  b.history = {{"y", "1"}, {"x", std::string(20, '1')}};
  const auto map = heat_map({a, b});
  ASSERT_EQ(map.steps, (std::vector<std::string>{"x", "y"}));
  EXPECT_EQ(map.cells[0][0].passed, 2);
  EXPECT_TRUE(map.cells[0][1].competent);
  EXPECT_EQ(map.cells[0][1].attempts, looked_back);
  EXPECT_EQ(map.cells[1][0].attempts, 0);
}

TEST(Review, TwoSessionsSideBySide) {
  NeedRecord a{"s", "f", "x", Ms{1000}, Ms{900}};
  NeedRecord b{"t", "f", "x", Ms{2000}, never};
  const auto pairs = side_by_side({a}, {b, a});
  ASSERT_EQ(pairs.size(), 2u);
  EXPECT_TRUE(pairs[0].first && pairs[0].second);
  EXPECT_FALSE(pairs[1].first);
}

TEST(Review, MomentsAsText) {
  EXPECT_EQ(iso_text(start), "2026-03-02T09:00:00.000Z");
  EXPECT_EQ(minute_text(start + std::chrono::minutes{65}), "2026-03-02 10:05");
  EXPECT_EQ(day_text(Moment{}), "1970-01-01");
}

}  // namespace
}  // namespace beforehand::records
