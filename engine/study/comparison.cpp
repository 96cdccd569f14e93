// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/comparison.hpp"

#include <algorithm>
#include <memory>
#include <mutex>

#include "study/step_shares.hpp"

namespace beforehand::study {
namespace {

constexpr std::size_t pairs_a_piece = 50, pairs_a_round = 1000;

/// The pairs played so far.
class Pairs {
 public:
  Pairs(const Procedure& a, const Procedure& b, const drill::Habit& habit, const Runs& runs)
      : a_(a), b_(b), habit_(habit), runs_(runs), shares_(a, b) {}

  /// Plays on to `count` pairs; false when stopped before. `whole` is what progress is told of.
  bool play_to(std::size_t count, std::size_t whole) {
    const auto first = in_a_.size();
    in_a_.resize(count);
    in_b_.resize(count);
    Watch watch = runs_.watch;
    if (watch.progress)
      watch.progress = [&](std::size_t done, std::size_t) {
        runs_.watch.progress(std::min(first + done * pairs_a_piece, count), whole);
      };
    const auto pieces = (count - first + pairs_a_piece - 1) / pairs_a_piece;
    const auto done = share_out(
        pieces, runs_.threads, [&] { return worker(first, count); }, watch);
    in_a_.resize(std::min(count, first + done * pairs_a_piece));
    in_b_.resize(in_a_.size());
    return in_a_.size() == count;
  }

  std::size_t size() const { return in_a_.size(); }
  Summary difference(Measure m) const {
    std::vector<double> sample;
    for (std::size_t i = 0; i < in_a_.size(); ++i) sample.push_back(in_b_[i][m] - in_a_[i][m]);
    return summarize(std::move(sample));
  }
  Difference compared(Measure m) const {
    Difference d{m, one(in_a_, m), one(in_b_, m), difference(m), 0.5, {}};
    double better = 0;
    for (std::size_t i = 0; i < in_a_.size(); ++i) {
      const double gain = (in_a_[i][m] - in_b_[i][m]) * (less_is_better(m) ? 1 : -1);
      better += gain > 0 ? 1 : gain < 0 ? 0 : 0.5;
    }
    const auto n = static_cast<double>(in_a_.size());
    if (n > 0) d.b_better = better / n;
    d.b_better_sure = probability_interval(better, n);
    return d;
  }
  std::vector<StepShare> shares() const { return shares_.shares(in_a_.size()); }

 private:
  Work worker(std::size_t first, std::size_t count) {
    const auto a = std::make_shared<Player>(a_, habit_), b = std::make_shared<Player>(b_, habit_);
    return [this, first, count, a, b](std::size_t piece) {
      StepShares own(a_, b_);
      const auto from = first + piece * pairs_a_piece;
      for (auto i = from; i < std::min(from + pairs_a_piece, count); ++i) {
        a->play(runs_.seed + i);
        b->play(runs_.seed + i);
        in_a_[i] = a->outcome();
        in_b_[i] = b->outcome();
        own.add(*a, *b);
      }
      const std::lock_guard lock(mutex_);
      shares_.add(own);
    };
  }

  static Summary one(const std::vector<Outcome>& outcomes, Measure m) {
    std::vector<double> sample;
    for (const auto& o : outcomes) sample.push_back(o[m]);
    return summarize(std::move(sample));
  }

  const Procedure &a_, &b_;
  drill::Habit habit_;
  const Runs& runs_;
  StepShares shares_;
  std::vector<Outcome> in_a_, in_b_;
  std::mutex mutex_;
};

// How many it is likely to take until the interval is that narrow.
std::size_t likely_size(const Summary& s, double within, std::size_t most) {
  const double ratio = s.mean_sure.half_width() / within;
  const double needed = static_cast<double>(s.n) * ratio * ratio;
  return needed >= static_cast<double>(most) ? most
                                             : std::max(s.n, static_cast<std::size_t>(needed));
}

}  // namespace

Comparison compare(const Procedure& a, const Procedure& b, const drill::Habit& habit,
                   const CompareRequest& request) {
  const auto most = request.runs.count;
  Pairs pairs(a, b, habit, request.runs);
  Comparison c;
  c.wanted = most;
  if (request.within_s <= 0) {
    pairs.play_to(most, most);
  } else {
    auto whole = std::min(most, pairs_a_round);
    while (!c.close_enough && pairs.size() < most &&
           pairs.play_to(std::min(most, pairs.size() + pairs_a_round), whole)) {
      const auto sure = pairs.difference(Measure::chair_time);
      c.close_enough = sure.mean_sure.half_width() <= request.within_s;
      whole = likely_size(sure, request.within_s, most);
    }
    if (c.close_enough) c.wanted = pairs.size();
  }
  c.runs = pairs.size();
  for (const auto m : measures) c.differences.push_back(pairs.compared(m));
  c.steps = pairs.shares();
  return c;
}

}  // namespace beforehand::study
