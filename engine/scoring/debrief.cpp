// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "scoring/debrief.hpp"

#include <algorithm>
#include <cmath>

#include "scoring/phrases.hpp"

namespace beforehand::scoring {
namespace {

constexpr std::size_t most_advice = 3;
constexpr double worth_saying = 0.5;  // points of 100

std::string_view rule(const Phrases& say, ErrorKind kind, Cause cause) {
  if (kind == ErrorKind::late) return say.late_habits[static_cast<std::size_t>(cause)];
  return say.habits[static_cast<std::size_t>(kind)];
}

/// Shares the lost points out among the errors that lost them, and gathers errors of one habit.
class Gathering {
 public:
  Gathering(const Procedure& p, const Score& s)
      : p_(p), s_(s), say_(phrases(p.language)), points_(s.errors.size(), 0.0) {}

  std::vector<Advice> advice() {
    share_anticipation();
    share_idle();
    share_sequence();
    for (std::size_t i = 0; i < s_.errors.size(); ++i) gather(i);
    add_idle_habit();
    choose();
    return std::move(advice_);
  }

 private:
  double full(int weight) const {
    const auto& w = p_.weights;
    return 100.0 * weight / (w.anticipation + w.idle + w.sequence);
  }

  static bool touches(const Error& e, StepIx s) {
    return e.step == s ||
           std::find(e.followed_by.begin(), e.followed_by.end(), s) != e.followed_by.end();
  }

  /// The error that a loss at `s` belongs to; late errors only where `late`.
  double* belongs(StepIx s) {
    for (std::size_t i = 0; i < s_.errors.size(); ++i)
      if (touches(s_.errors[i], s)) return &points_[i];
    for (std::size_t i = 0; i < s_.errors.size(); ++i) {
      const StepIx e = s_.errors[i].step;
      if (e && p_.precedes(s, e) && p_.step(s).supply && p_.step(s).supply == p_.step(e).supply)
        return &points_[i];
    }
    return nullptr;
  }

  void share_anticipation() {
    double weights = 0;
    for (const auto& n : s_.needs) weights += weight(n.severity);
    for (const auto& n : s_.needs) {
      if (n.credit >= 1) continue;
      const double lost =
          full(p_.weights.anticipation) * weight(n.severity) * (1 - n.credit) / weights;
      if (double* at = belongs(n.from)) *at += lost;
    }
  }

  void share_idle() {
    Ms sum{0};
    for (const auto& s : s_.stretches)
      if (s.kind == Stretch::Kind::avoidable) sum += s.to - s.from;
    for (const auto& s : s_.stretches) {
      if (s.kind != Stretch::Kind::avoidable) continue;
      const double lost = full(p_.weights.idle) * (1 - s_.idle) *
                          static_cast<double>((s.to - s.from).count()) /
                          static_cast<double>(sum.count());
      if (double* at = belongs(s.step)) {
        *at += lost;
        continue;
      }
      idle_points_ += lost;
      idle_times_ += 1;
      if (!longest_idle_.step || s.to - s.from > longest_idle_.to - longest_idle_.from)
        longest_idle_ = s;
    }
  }

  void share_sequence() {
    double weights = 0;
    for (const auto& e : s_.errors)
      if (e.kind != ErrorKind::late) weights += share(e);
    for (std::size_t i = 0; i < s_.errors.size(); ++i)
      if (s_.errors[i].kind != ErrorKind::late)
        points_[i] += full(p_.weights.sequence) * (1 - s_.sequence) * share(s_.errors[i]) / weights;
  }

  static double share(const Error& e) {
    return weight(e.severity) * (1.0 + static_cast<double>(e.followed_by.size()));
  }

  void gather(std::size_t i) {
    const Error& e = s_.errors[i];
    const std::string change(rule(say_, e.kind, e.late_because));
    for (auto& a : advice_)
      if (a.change == change) {
        a.times += 1;
        a.points += points_[i];
        return;
      }
    advice_.push_back({e.kind, change, e.what, e.why, e.instead, e.at, e.step, 1, points_[i]});
  }

  void add_idle_habit() {
    if (!longest_idle_.step) return;
    const auto step = filled(say_.title, p_.step(longest_idle_.step).title);
    advice_.push_back(
        {ErrorKind::late, std::string(say_.use_quiet_moments),
         filled(say_.stood_by_while, duration_text(longest_idle_.to - longest_idle_.from), step),
         std::string(say_.holds_up_the_rest), filled(say_.begin_here, step), longest_idle_.from,
         longest_idle_.step, idle_times_, idle_points_});
  }

  void choose() {
    const auto unsafe = [](const Advice& a) { return a.kind == ErrorKind::unsafe; };
    std::erase_if(advice_, [&](const Advice& a) { return a.points < worth_saying && !unsafe(a); });
    std::stable_sort(advice_.begin(), advice_.end(), [&](const Advice& a, const Advice& b) {
      return unsafe(a) != unsafe(b) ? unsafe(a) : a.points > b.points;
    });
    if (advice_.size() > most_advice) advice_.resize(most_advice);
  }

  const Procedure& p_;
  const Score& s_;
  const Phrases& say_;
  std::vector<double> points_;  ///< by error
  double idle_points_ = 0;      ///< lost by idleness that made nobody wait but the end
  int idle_times_ = 0;
  Stretch longest_idle_;
  std::vector<Advice> advice_;
};

bool on_time(const NeedScore& n) { return n.credit >= 1; }

std::size_t longest_run(const std::vector<NeedScore>& needs) {
  std::size_t longest = 0, run = 0;
  for (const auto& n : needs) longest = std::max(longest, run = on_time(n) ? run + 1 : 0);
  return longest;
}

void praise_needs(const Phrases& say, const Score& s, std::vector<std::string>& well) {
  const auto good =
      static_cast<std::size_t>(std::count_if(s.needs.begin(), s.needs.end(), on_time));
  if (s.needs.empty() || good == 0) return;
  if (good == s.needs.size())
    well.emplace_back(say.all_in_time);
  else if (good * 2 >= s.needs.size())
    well.push_back(filled(say.some_in_time, good, s.needs.size()));
  if (const std::size_t run = longest_run(s.needs); run >= 5 && run < s.needs.size())
    well.push_back(filled(say.in_a_row, run));
}

void praise_critical(const Phrases& say, const Score& s, std::vector<std::string>& well) {
  std::size_t critical = 0, good = 0;
  for (const auto& n : s.needs)
    if (n.severity == Severity::critical) {
      ++critical;
      good += on_time(n) ? 1 : 0;
    }
  if (critical > 0 && good == critical && good < s.needs.size())
    well.emplace_back(say.critical_in_time);
}

void praise_order(const Phrases& say, const Score& s, std::vector<std::string>& well) {
  if (s.order.steps == 0) return;
  if (s.order.cost == 0)
    well.emplace_back(say.all_in_place);
  else if (s.order.kept == s.order.steps)
    well.emplace_back(say.all_done);  // and more than that
  else if (s.order.kept * 10 >= s.order.steps * 8)
    well.push_back(filled(say.some_in_place, s.order.kept, s.order.steps));
}

}  // namespace

Debrief debrief(const Procedure& procedure, const Score& score) {
  const Phrases& say = phrases(procedure.language);
  Debrief d;
  d.verdict = say.verdicts[static_cast<std::size_t>(score.verdict)];
  praise_needs(say, score, d.well);
  praise_critical(say, score, d.well);
  praise_order(say, score, d.well);
  if (score.order.actions > 0 && score.idle >= 0.95)
    d.well.emplace_back(score.idle == 1 ? say.never_idle : say.seldom_idle);
  if (d.well.empty()) d.well.emplace_back(say.saw_it_all);
  d.change = Gathering(procedure, score).advice();
  return d;
}

Quantiles quantiles(std::vector<Ms> values) {
  if (values.empty()) return {};
  std::sort(values.begin(), values.end());
  const auto at = [&](double share) {
    const double position = share * static_cast<double>(values.size() - 1);
    const auto below = static_cast<std::size_t>(position);
    const std::size_t above = std::min(below + 1, values.size() - 1);
    const double part = position - static_cast<double>(below);
    const auto gap = static_cast<double>((values[above] - values[below]).count());
    return values[below] + Ms{std::llround(part * gap)};
  };
  return {at(0.1), at(0.5), at(0.9)};
}

Quantiles leads(const Score& score) {
  std::vector<Ms> values;
  for (const auto& n : score.needs)
    if (n.ready_at != never) values.push_back(n.lead());
  return quantiles(std::move(values));
}

Quantiles waits(const Score& score) {
  std::vector<Ms> values;
  for (const auto& n : score.needs) values.push_back(n.wait);
  return quantiles(std::move(values));
}

Ms request_time(const Score& score) {
  Ms sum{0};
  for (const auto& n : score.needs)
    if (n.requested) sum += std::max(Ms{0}, n.need_at + n.wait - n.asked_at);
  return sum;
}

}  // namespace beforehand::scoring
