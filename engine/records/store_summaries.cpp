// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "records/names.hpp"
#include "records/packing.hpp"
#include "records/store_state.hpp"

namespace beforehand::records {
namespace {

using soci::into;
using soci::use;

constexpr std::size_t trend_points = 8;

// What the summary needs of one session; bots' sessions are left out.
struct Played {
  std::string level, phase, assistant, verdict, outcomes;
  long long started = 0, total = 0;
  int complete = 0, unsafe = 0;
  bool counts() const { return complete != 0 && phase.empty(); }
};

std::vector<Played> played(soci::session& sql, const Id& trainee, const std::string& scenario) {
  std::vector<Played> list;
  Played p;
  soci::statement st =
      (sql.prepare
           << "SELECT level, phase, assistant, verdict, outcomes, started, total, complete, unsafe "
              "FROM session WHERE trainee = :t AND scenario = :c ORDER BY started, id",
       use(trainee), use(scenario), into(p.level), into(p.phase), into(p.assistant),
       into(p.verdict), into(p.outcomes), into(p.started), into(p.total), into(p.complete),
       into(p.unsafe));
  st.execute();
  while (st.fetch())
    if (counts_for_standing(p.assistant)) list.push_back(p);
  return list;
}

// Least-squares slope over the position of the last totals, in thousandths of a point a session.
long long slope(const std::vector<long long>& totals) {
  const std::size_t n = std::min(totals.size(), trend_points), first = totals.size() - n;
  if (n < 2) return 0;
  const double middle = (static_cast<double>(n) - 1) / 2;
  double above = 0, below = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const double x = static_cast<double>(i) - middle;
    above += x * static_cast<double>(totals[first + i]);
    below += x * x;
  }
  return std::llround(above / below);
}

struct Totals {
  int sessions = 0, completed = 0, passes = 0, unsafe = 0;
  long long last_at = 0, last = 0, best = 0, first = 0, trend = 0;
  std::string last_verdict{scoring::word(scoring::Verdict::practise)};
  friend bool operator==(const Totals&, const Totals&) = default;
};

Totals totals_of(const std::vector<Played>& list) {
  Totals t;
  std::vector<long long> points;
  for (const auto& p : list) {
    ++t.sessions;
    t.unsafe += p.unsafe;
    if (!p.counts()) continue;
    const bool pass = p.level == drill::word(drill::Level::assessed) &&
                      p.verdict == scoring::word(scoring::Verdict::ready);
    t.passes += pass;
    points.push_back(p.total);
    t.last_at = p.started;
    t.last_verdict = p.verdict;
  }
  t.completed = static_cast<int>(points.size());
  if (points.empty()) return t;
  t.first = points.front();
  t.last = points.back();
  t.best = *std::max_element(points.begin(), points.end());
  t.trend = slope(points);
  return t;
}

// Every session counts here that has outcomes, single phases and interrupted ones too: a step that
// was done was done.
std::string history_of(const std::vector<Played>& list) {
  std::vector<StepHistory> steps;
  std::map<std::string, std::size_t> where;
  for (const auto& p : list) {
    for (auto& o : unpack_outcomes(p.outcomes)) {
      const auto [at, added] = where.try_emplace(o.step, steps.size());
      if (added) steps.push_back({std::move(o.step), {}});
      steps[at->second].outcomes += o.passed ? '1' : '0';
    }
  }
  return pack(steps);
}

const char* column(SummaryQuery::Order order) {
  switch (order) {
    case SummaryQuery::Order::name:
      return "p.folded";
    case SummaryQuery::Order::last:
      return "s.last";
    case SummaryQuery::Order::best:
      return "s.best";
    case SummaryQuery::Order::trend:
      return "s.trend";
    case SummaryQuery::Order::last_at:
      return "s.last_at";
  }
  return "p.folded";
}

// The text as a LIKE pattern that finds it anywhere, taken literally.
std::string pattern_of(const std::string& search) {
  std::string pattern = "%";
  for (const char c : folded(search)) {
    if (c == '%' || c == '_' || c == '\\') pattern += '\\';
    pattern += c;
  }
  return pattern + "%";
}

std::string rest_of(const SummaryQuery& q) {
  std::string rest = "WHERE 1 = 1";
  if (!q.trainee.empty()) rest += " AND s.trainee = :t";
  if (!q.scenario.empty()) rest += " AND s.scenario = :c";
  if (!q.search.empty()) rest += " AND p.folded LIKE :f ESCAPE '\\'";
  rest += fmt::format(" ORDER BY {} {}, s.trainee, s.scenario LIMIT :l OFFSET :o", column(q.order),
                      q.descending ? "DESC" : "ASC");
  return rest;
}

}  // namespace

namespace {

// A row of the summary and its history, as it is or as it should be.
struct Standing {
  Totals totals;
  int signed_off = 0;
  std::string steps;
  friend bool operator==(const Standing&, const Standing&) = default;
};

Standing standing_given(soci::session& sql, const Id& trainee, const std::string& scenario) {
  const auto list = played(sql, trainee, scenario);
  Standing s{totals_of(list), 0, history_of(list)};
  sql << "SELECT count(*) FROM sign_off WHERE trainee = :t AND scenario = :c AND revoked_at = 0",
      use(trainee), use(scenario), into(s.signed_off);
  s.signed_off = s.signed_off > 0;
  return s;
}

Standing standing_kept(soci::session& sql, const Id& trainee, const std::string& scenario) {
  Standing s;
  auto& t = s.totals;
  sql << "SELECT sessions, completed, passes, unsafe, last_at, last, best, first, trend, "
         "last_verdict, signed_off FROM summary WHERE scenario = :c AND trainee = :t",
      use(scenario), use(trainee), into(t.sessions), into(t.completed), into(t.passes),
      into(t.unsafe), into(t.last_at), into(t.last), into(t.best), into(t.first), into(t.trend),
      into(t.last_verdict), into(s.signed_off);
  sql << "SELECT steps FROM history WHERE scenario = :c AND trainee = :t", use(scenario),
      use(trainee), into(s.steps);
  return s;
}

}  // namespace

void Store::State::summarise(const Id& trainee, const std::string& scenario) {
  const auto [t, signed_off, steps] = standing_given(sql(), trainee, scenario);
  sql() << "DELETE FROM summary WHERE scenario = :c AND trainee = :t", use(scenario), use(trainee);
  sql()
      << "INSERT INTO summary (scenario, trainee, sessions, completed, passes, unsafe, last_at, "
         "last, best, first, trend, last_verdict, signed_off) VALUES (:c, :t, :s, :d, :p, :u, :a, "
         ":l, :b, :f, :e, :v, :o)",
      use(scenario), use(trainee), use(t.sessions), use(t.completed), use(t.passes), use(t.unsafe),
      use(t.last_at), use(t.last), use(t.best), use(t.first), use(t.trend), use(t.last_verdict),
      use(signed_off);
  sql() << "DELETE FROM history WHERE scenario = :c AND trainee = :t", use(scenario), use(trainee);
  sql() << "INSERT INTO history (scenario, trainee, steps) VALUES (:c, :t, :s)", use(scenario),
      use(trainee), use(steps);
}

std::vector<Summary> Store::State::wrong_summaries() {
  std::vector<Summary> all, wrong;
  Summary s;
  soci::statement st =
      (sql().prepare << "SELECT k.trainee, p.name, k.scenario FROM (SELECT trainee, scenario FROM "
                        "session UNION SELECT trainee, scenario FROM summary UNION SELECT trainee, "
                        "scenario FROM sign_off) k JOIN person p ON p.id = k.trainee ORDER BY 3, 1",
       into(s.trainee), into(s.trainee_name), into(s.scenario));
  st.execute();
  while (st.fetch()) all.push_back(s);
  for (const auto& row : all)
    if (standing_given(sql(), row.trainee, row.scenario) !=
        standing_kept(sql(), row.trainee, row.scenario))
      wrong.push_back(row);
  return wrong;
}

std::vector<Summary> Store::wrong_summaries() const {
  return state_->read([&] { return state_->wrong_summaries(); });
}

void Store::mend_summaries() {
  state_->write([&] {
    for (const auto& s : state_->wrong_summaries()) state_->summarise(s.trainee, s.scenario);
  });
}

std::vector<Summary> Store::summaries(const SummaryQuery& q) const {
  std::vector<Summary> list;
  Summary s;
  std::string verdict, steps;
  long long last_at = 0, last = 0, best = 0, first = 0, trend = 0;
  int signed_off = 0;
  const auto pattern = pattern_of(q.search);
  const std::string history =
      q.with_history ? "LEFT JOIN history h ON h.scenario = s.scenario AND h.trainee = s.trainee "
                     : "";
  state_->read([&] {
    auto prepared =
        (state_->sql().prepare << fmt::format(
             "SELECT s.trainee, p.name, s.scenario, s.sessions, s.completed, s.passes, s.unsafe, "
             "s.last_at, s.last, s.best, s.first, s.trend, s.last_verdict, s.signed_off, {} FROM "
             "summary s JOIN person p ON p.id = s.trainee {}{}",
             q.with_history ? "h.steps" : "''", history, rest_of(q)),
         into(s.trainee), into(s.trainee_name), into(s.scenario), into(s.sessions),
         into(s.completed), into(s.assessed_passes), into(s.unsafe_acts), into(last_at), into(last),
         into(best), into(first), into(trend), into(verdict), into(signed_off), into(steps));
    if (!q.trainee.empty()) prepared, use(q.trainee);
    if (!q.scenario.empty()) prepared, use(q.scenario);
    if (!q.search.empty()) prepared, use(pattern);
    prepared, use(q.limit), use(q.offset);
    soci::statement st(prepared);
    st.execute();
    while (st.fetch()) {
      s.last_at = moment(last_at);
      s.last = from_thousandths(last);
      s.best = from_thousandths(best);
      s.first = from_thousandths(first);
      s.trend = from_thousandths(trend);
      s.signed_off = signed_off != 0;
      for (const auto v : {scoring::Verdict::ready, scoring::Verdict::nearly,
                           scoring::Verdict::practise, scoring::Verdict::repeat})
        if (scoring::word(v) == verdict) s.last_verdict = v;
      s.history = unpack_history(steps);
      list.push_back(s);
    }
  });
  return list;
}

}  // namespace beforehand::records
