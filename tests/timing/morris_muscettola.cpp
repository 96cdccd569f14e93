// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "morris_muscettola.hpp"

#include <algorithm>
#include <map>

namespace beforehand::timing {

namespace {

constexpr std::int64_t none = std::int64_t{1} << 40;

// The labelled distance graph as matrices: ordinary edges, and for each contingent link the
// upper-case edges, which all lead to its start.
class Reductions {
 public:
  explicit Reductions(const UncertainNetwork& n)
      : n_(n),
        ordinary_(n.points, Row(n.points, none)),
        upper_(n.points, Row(n.contingent.size(), none)) {
    for (std::size_t i = 0; i < n.points; ++i) ordinary_[i][i] = 0;
    for (const auto& c : n.constraints) {
      if (c.at_most != never) lower(ordinary_[c.from][c.to], c.at_most.count());
      if (c.at_least != -never) lower(ordinary_[c.to][c.from], -c.at_least.count());
    }
    for (std::size_t l = 0; l < n.contingent.size(); ++l) {
      const auto& c = n.contingent[l];
      lower(ordinary_[c.from][c.to], c.most.count());
      lower(ordinary_[c.to][c.from], -c.least.count());
      lower(upper_[c.to][l], -c.most.count());
    }
  }

  bool run() {
    do {
      if (!longest_case_consistent()) return false;
    } while (reduce());
    return true;
  }

 private:
  using Row = std::vector<std::int64_t>;

  bool lower(std::int64_t& entry, std::int64_t value) {
    if (value >= entry) return false;
    entry = value;
    return true;
  }

  // All contingent links at their longest: labels of upper-case edges taken off.
  bool longest_case_consistent() const {
    auto d = ordinary_;
    for (std::size_t i = 0; i < n_.points; ++i) {
      for (std::size_t l = 0; l < n_.contingent.size(); ++l) {
        auto& entry = d[i][n_.contingent[l].from];
        entry = std::min(entry, upper_[i][l]);
      }
    }
    for (std::size_t k = 0; k < n_.points; ++k) {
      for (std::size_t i = 0; i < n_.points; ++i) {
        for (std::size_t j = 0; j < n_.points; ++j) d[i][j] = std::min(d[i][j], d[i][k] + d[k][j]);
      }
    }
    for (std::size_t i = 0; i < n_.points; ++i) {
      if (d[i][i] < 0) return false;
    }
    return true;
  }

  bool reduce() {
    bool changed = false;
    const auto points = n_.points, links = n_.contingent.size();
    for (std::size_t i = 0; i < points; ++i) {
      for (std::size_t k = 0; k < points; ++k) {
        if (ordinary_[i][k] >= none) continue;
        for (std::size_t j = 0; j < points; ++j) {  // no case
          if (ordinary_[k][j] < none) {
            changed = lower(ordinary_[i][j], ordinary_[i][k] + ordinary_[k][j]) || changed;
          }
        }
        for (std::size_t l = 0; l < links; ++l) {  // upper case
          if (upper_[k][l] < none)
            changed = lower(upper_[i][l], ordinary_[i][k] + upper_[k][l]) || changed;
        }
      }
    }
    for (std::size_t m = 0; m < links; ++m) {
      const auto& c = n_.contingent[m];
      for (std::size_t j = 0; j < points; ++j) {  // lower case
        const auto x = ordinary_[c.to][j];
        if (x < 0) {
          changed = lower(ordinary_[c.from][j], x + c.least.count()) || changed;
        }
      }
      for (std::size_t l = 0; l < links; ++l) {  // cross case
        const auto x = upper_[c.to][l];
        if (l != m && x < 0) changed = lower(upper_[c.from][l], x + c.least.count()) || changed;
      }
      for (std::size_t i = 0; i < points; ++i) {  // label removal
        const auto z = upper_[i][m];
        if (z < none && z >= -c.least.count()) changed = lower(ordinary_[i][c.from], z) || changed;
      }
    }
    return changed;
  }

  const UncertainNetwork& n_;
  std::vector<Row> ordinary_, upper_;
};

// Each millisecond, the others end what contingent links they like (and must, at the longest), then
// the player times what points he likes.
class Play {
 public:
  Play(const UncertainNetwork& n, int horizon)
      : n_(n), horizon_(horizon), contingent_(n.points, false) {
    for (const auto& c : n.contingent) contingent_[c.to] = true;
  }

  bool run() {
    Times times(n_.points, -1);
    times[0] = 0;
    return player_wins(times, 0);
  }

 private:
  using Times = std::vector<int>;

  bool holds(const Times& t) const {
    return std::all_of(n_.constraints.begin(), n_.constraints.end(), [&](const auto& c) {
      if (t[c.from] < 0 || t[c.to] < 0) return true;
      const Ms gap{t[c.to] - t[c.from]};
      return gap >= c.at_least && gap <= c.at_most;
    });
  }

  // At moment `now`, after the others have moved: some choice of points to time now wins.
  bool player_wins(const Times& times, int now) {
    if (!holds(times)) return false;
    if (std::find(times.begin(), times.end(), -1) == times.end()) return true;
    if (now >= horizon_) return false;
    const auto [entry, fresh] = known_.try_emplace({times, now}, false);
    if (!fresh) return entry->second;
    std::vector<std::size_t> open;
    for (std::size_t p = 0; p < n_.points; ++p) {
      if (times[p] < 0 && !contingent_[p]) open.push_back(p);
    }
    bool wins = false;
    for (unsigned choice = 0; choice < (1u << open.size()) && !wins; ++choice) {
      auto next = times;
      for (std::size_t i = 0; i < open.size(); ++i) {
        if (choice >> i & 1u) next[open[i]] = now;
      }
      wins = holds(next) && others_lose(next, now + 1);
    }
    known_[{times, now}] = wins;
    return wins;
  }

  bool others_lose(const Times& times, int now) {
    if (std::find(times.begin(), times.end(), -1) == times.end()) return true;
    std::vector<std::size_t> may;
    unsigned must = 0;
    for (const auto& c : n_.contingent) {
      if (times[c.from] < 0 || times[c.to] >= 0) continue;
      const Ms gone{now - times[c.from]};
      if (gone < c.least) continue;
      if (gone == c.most) must |= 1u << may.size();
      may.push_back(c.to);
    }
    for (unsigned choice = 0; choice < (1u << may.size()); ++choice) {
      if ((choice & must) != must) continue;
      auto next = times;
      for (std::size_t i = 0; i < may.size(); ++i) {
        if (choice >> i & 1u) next[may[i]] = now;
      }
      if (!player_wins(next, now)) return false;
    }
    return true;
  }

  const UncertainNetwork& n_;
  int horizon_;
  std::vector<bool> contingent_;
  std::map<std::pair<Times, int>, bool> known_;
};

}  // namespace

bool controllable_by_reductions(const UncertainNetwork& n) { return Reductions(n).run(); }
bool controllable_by_play(const UncertainNetwork& n, int horizon) { return Play(n, horizon).run(); }

}  // namespace beforehand::timing
