// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/review.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace beforehand::records {
namespace {

using procedure::Procedure;

bool counts(const SessionRecord& s) { return s.complete && s.phase.empty(); }

std::string outcomes_text(const std::vector<Attempt>& attempts) {
  std::string text;
  for (const auto& a : attempts) text += a.passed ? '1' : '0';
  return text;
}

StepReview step_review(const procedure::Step& step, const std::vector<Attempt>& attempts) {
  StepReview r{step.id, step.title, step.severity, standing(outcomes_text(attempts)), {}, 0, 0};
  const auto from = attempts.size() - std::min<std::size_t>(attempts.size(), looked_back);
  for (auto i = from; i < attempts.size(); ++i) {
    ++r.recent;
    r.recent_passed += attempts[i].passed;
  }
  r.share = wilson(r.recent_passed, r.recent);
  return r;
}

HeatMap::Cell cell_of(const std::string& outcomes) {
  const auto recent =
      outcomes.substr(outcomes.size() - std::min<std::size_t>(outcomes.size(), looked_back));
  return {static_cast<int>(recent.size()),
          static_cast<int>(std::count(recent.begin(), recent.end(), '1')),
          standing(outcomes).competent()};
}

struct Calendar {
  std::chrono::year_month_day day;
  std::chrono::hh_mm_ss<std::chrono::milliseconds> time;
};
Calendar calendar(Moment m) {
  const auto day = std::chrono::floor<std::chrono::days>(m);
  return {std::chrono::year_month_day(day), std::chrono::hh_mm_ss(m - day)};
}

}  // namespace

std::string_view word(Readiness r) {
  switch (r) {
    case Readiness::none:
      return "not started";
    case Readiness::practising:
      return "practising";
    case Readiness::evidence:
      return "evidence complete";
    case Readiness::signed_off:
      return "signed off";
  }
  return "";
}

Readiness readiness(const Summary& s, const std::vector<std::string>& critical) {
  if (s.signed_off) return Readiness::signed_off;
  if (s.completed == 0) return Readiness::none;
  const auto signalled = [](const StepHistory& h) { return standing(h.outcomes).competent(); };
  const auto of = [&](const std::string& step) {
    const auto at = std::find_if(s.history.begin(), s.history.end(),
                                 [&](const StepHistory& h) { return h.step == step; });
    return at != s.history.end() && signalled(*at);
  };
  const bool all = critical.empty() ? !s.history.empty() &&
                                          std::all_of(s.history.begin(), s.history.end(), signalled)
                                    : std::all_of(critical.begin(), critical.end(), of);
  return all ? Readiness::evidence : Readiness::practising;
}

std::vector<std::string> critical_steps(const Procedure& p) {
  const auto trainee = p.who(procedure::Role::assistant);
  std::vector<std::string> ids;
  for (const auto& step : p.steps)
    if (step.by.front() == trainee && step.severity >= p.sign_off.competent_from)
      ids.push_back(step.id);
  return ids;
}

Moment due(const Summary& s, Readiness r) {
  const int days = r == Readiness::signed_off ? 90 : r == Readiness::evidence ? 30 : 7;
  return s.last_at + std::chrono::days{days};
}

ScenarioReview review(const Procedure& p, std::vector<SessionRecord> sessions, bool signed_off,
                      Moment now) {
  ScenarioReview r;
  r.scenario = p.id;
  r.title = p.title;
  std::vector<double> totals;
  std::string outcomes;
  for (const auto& s : sessions) {
    if (!counts(s)) continue;
    r.counted.push_back(s);
    totals.push_back(s.total);
    if (s.level != drill::Level::guided)
      outcomes += s.verdict == scoring::Verdict::ready ? '1' : '0';
  }
  r.curve = learning_curve(totals);
  r.whole = standing(outcomes);
  const auto attempts = attempts_by_step(p, sessions);
  Summary summary;
  summary.completed = static_cast<int>(totals.size());
  summary.signed_off = signed_off;
  const auto trainee = p.who(procedure::Role::assistant);
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    if (p.steps[i].by.front() != trainee) continue;
    r.steps.push_back(step_review(p.steps[i], attempts[i]));
    if (!attempts[i].empty())
      summary.history.push_back({p.steps[i].id, outcomes_text(attempts[i])});
  }
  r.next = practise_next(p, sessions, now);
  r.readiness = readiness(summary, critical_steps(p));
  r.sessions = std::move(sessions);
  return r;
}

HeatMap heat_map(const std::vector<Summary>& summaries) {
  HeatMap map;
  std::map<std::string, std::size_t> where;
  for (const auto& s : summaries) {
    const auto column = map.trainees.size();
    map.trainees.push_back(s.trainee_name);
    for (const auto& h : s.history) {
      const auto [at, added] = where.try_emplace(h.step, map.steps.size());
      if (added) {
        map.steps.push_back(h.step);
        map.cells.emplace_back();
      }
      auto& row = map.cells[at->second];
      row.resize(column + 1);
      row[column] = cell_of(h.outcomes);
    }
  }
  for (auto& row : map.cells) row.resize(map.trainees.size());
  return map;
}

std::vector<NeedPair> side_by_side(const std::vector<NeedRecord>& first,
                                   const std::vector<NeedRecord>& second) {
  std::vector<NeedPair> pairs;
  for (const auto& n : first) pairs.push_back({n.step, n.from, n.need, n, {}});
  for (const auto& n : second) {
    const auto same = std::find_if(pairs.begin(), pairs.end(), [&](const NeedPair& p) {
      return !p.second && p.step == n.step && p.from == n.from && p.need == n.need;
    });
    if (same != pairs.end()) {
      same->second = n;
    } else {
      pairs.push_back({n.step, n.from, n.need, {}, n});
    }
  }
  return pairs;
}

std::string day_text(Moment m) {
  const auto c = calendar(m);
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(c.day.year()),
                     static_cast<unsigned>(c.day.month()), static_cast<unsigned>(c.day.day()));
}

std::string minute_text(Moment m) {
  const auto c = calendar(m);
  return fmt::format("{} {:02}:{:02}", day_text(m), c.time.hours().count(),
                     c.time.minutes().count());
}

std::string iso_text(Moment m) {
  const auto c = calendar(m);
  return fmt::format("{}T{:02}:{:02}:{:02}.{:03}Z", day_text(m), c.time.hours().count(),
                     c.time.minutes().count(), c.time.seconds().count(),
                     c.time.subseconds().count());
}

}  // namespace beforehand::records
