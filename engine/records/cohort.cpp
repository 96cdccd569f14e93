// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/cohort.hpp"

#include <algorithm>

#include "records/names.hpp"

namespace beforehand::records {
namespace {

using Column = CohortView::Column;
using Only = CohortView::Only;

template <class T>
int order(const T& a, const T& b) {
  return a < b ? -1 : b < a ? 1 : 0;
}

// The best verdict first.
int rank(const Summary& s) { return s.completed == 0 ? 9 : static_cast<int>(s.last_verdict); }

int compare(const CohortRow& a, const CohortRow& b, Column by) {
  const auto &s = a.summary, &t = b.summary;
  switch (by) {
    case Column::standing:
      return order(a.readiness, b.readiness);
    case Column::verdict:
      return order(rank(s), rank(t));
    case Column::last:
      return order(s.last, t.last);
    case Column::best:
      return order(s.best, t.best);
    case Column::trend:
      return order(s.trend, t.trend);
    case Column::due:
      return order(a.due, b.due);
    case Column::drills:
      return order(s.sessions, t.sessions);
    case Column::scenario:
      return a.title.compare(b.title);
    case Column::trainee:
      break;
  }
  return 0;
}

}  // namespace

CohortTable::CohortTable(std::vector<CohortRow> rows, Moment now)
    : rows_(std::move(rows)), now_(now) {
  folded_.reserve(rows_.size());
  for (const auto& r : rows_) folded_.push_back(folded(r.summary.trainee_name + "\n" + r.title));
  show({});
}

bool CohortTable::belongs(const CohortRow& r, Only only) const {
  switch (only) {
    case Only::to_sign_off:
      return r.readiness == Readiness::evidence;
    case Only::practising:
      return r.readiness == Readiness::practising || r.readiness == Readiness::none;
    case Only::due:
      return r.due <= now_;
    case Only::signed_off:
      return r.readiness == Readiness::signed_off;
    case Only::everybody:
      break;
  }
  return true;
}

void CohortTable::show(const CohortView& view) {
  if (!fresh_ && view == view_) return;
  fresh_ = false;
  view_ = view;
  const auto wanted = folded(view.search);
  shown_.clear();
  counts_ = {};
  for (std::size_t i = 0; i < rows_.size(); ++i) {
    ++looked_at_;
    if (folded_[i].find(wanted) == std::string::npos) continue;
    for (std::size_t k = 0; k < CohortView::onlys; ++k)
      counts_[k] += belongs(rows_[i], static_cast<Only>(k));
    if (belongs(rows_[i], view.only)) shown_.push_back(i);
  }
  sort();
}

// Those alike keep the order of their names, whichever way round.
void CohortTable::sort() {
  std::stable_sort(shown_.begin(), shown_.end(), [&](std::size_t a, std::size_t b) {
    int by = view_.by == Column::trainee ? order(folded_[a], folded_[b])
                                         : compare(rows_[a], rows_[b], view_.by);
    if (view_.descending) by = -by;
    return by != 0 ? by < 0 : folded_[a] < folded_[b];
  });
}

}  // namespace beforehand::records
