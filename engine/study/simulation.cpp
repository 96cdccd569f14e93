// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/simulation.hpp"

#include <algorithm>
#include <mutex>

namespace beforehand::study {
namespace {

constexpr std::size_t runs_a_piece = 50;

/// The waiting at every need of a procedure. Whole numbers, so that the order of adding is nothing.
class Ledger {
 public:
  explicit Ledger(const Procedure& p) {
    for (std::size_t s = 0; s < p.steps.size(); ++s) {
      first_.push_back(entries_.size());
      for (std::size_t n = 0; n < p.steps[s].needs.size(); ++n)
        entries_.push_back({StepIx{s}, static_cast<std::uint8_t>(n), p.steps[s].needs[n].from});
    }
  }

  void add(const scoring::NeedScore& need) {
    Waiting& w = entries_[first_[need.step.at()] + need.need];
    ++w.arose;
    w.waited += need.wait > Ms{0};
    w.asked += need.requested;
    w.wait += need.wait;
  }

  void add(const Ledger& other) {
    for (std::size_t i = 0; i < entries_.size(); ++i) {
      entries_[i].arose += other.entries_[i].arose;
      entries_[i].waited += other.entries_[i].waited;
      entries_[i].asked += other.entries_[i].asked;
      entries_[i].wait += other.entries_[i].wait;
    }
  }

  std::vector<Waiting> arisen() && {
    std::erase_if(entries_, [](const Waiting& w) { return w.arose == 0; });
    return std::move(entries_);
  }

 private:
  std::vector<std::size_t> first_;  // by step
  std::vector<Waiting> entries_;
};

Watch in_runs(const Watch& watch, std::size_t wanted) {
  Watch pieces = watch;
  if (watch.progress)
    pieces.progress = [&watch, wanted](std::size_t done, std::size_t) {
      watch.progress(std::min(done * runs_a_piece, wanted), wanted);
    };
  return pieces;
}

}  // namespace

std::vector<double> Simulation::sample(Measure m) const {
  std::vector<double> values;
  values.reserve(outcomes.size());
  for (const auto& o : outcomes) values.push_back(o[m]);
  return values;
}

Simulation simulate(const Procedure& p, const drill::Habit& habit, const Runs& runs) {
  Simulation all;
  all.wanted = runs.count;
  all.outcomes.resize(runs.count);
  Ledger ledger(p);
  std::mutex mutex;
  const auto hire = [&]() -> Work {
    return [&, player = std::make_shared<Player>(p, habit)](std::size_t piece) {
      Ledger own(p);
      const auto end = std::min((piece + 1) * runs_a_piece, runs.count);
      for (std::size_t run = piece * runs_a_piece; run < end; ++run) {
        player->play(runs.seed + run);
        all.outcomes[run] = player->outcome();
        for (const auto& need : player->score().needs) own.add(need);
      }
      const std::lock_guard lock(mutex);
      ledger.add(own);
    };
  };
  const auto pieces = (runs.count + runs_a_piece - 1) / runs_a_piece;
  const auto done = share_out(pieces, runs.threads, hire, in_runs(runs.watch, runs.count));
  all.outcomes.resize(std::min(runs.count, done * runs_a_piece));
  all.waiting = std::move(ledger).arisen();
  return all;
}

}  // namespace beforehand::study
