// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "procedure/procedure.hpp"
#include "records/record.hpp"
#include "scoring/score.hpp"
#include "stage/flow.hpp"
#include "stage/played.hpp"

namespace beforehand::stage {

/// A figure as it is shown: without a fraction.
std::string whole_number(double value);

/// The figures of one attempt that another is compared by.
struct Figures {
  double total = 0;                                 ///< 0..100
  double anticipation = 0, idle = 0, sequence = 0;  ///< 0..1
  Ms chair_time{0}, clinician_wait{0};
  int requests = 0, errors = 0;
};
Figures figures_of(const scoring::Score&);
Figures figures_of(const records::SessionRecord&);

/// One figure of two attempts, in words.
struct FigureRow {
  enum class Change { same, better, worse };
  std::string name, now, then;
  std::string change;  ///< of `now` against `then`: "▲ better by 12", "=  the same"
  Change kind = Change::same;
};
std::vector<FigureRow> compared(const Figures& now, const Figures& then, const Strings&);

/// A need that went differently in two sessions.
struct NeedDifference {
  std::string need;           ///< what, and for which step
  std::string first, second;  ///< "ready in time", "asked for, 6 s late"
};
/// In the first session's order; the steps and supplies are called as in its procedure.
std::vector<NeedDifference> differences(const Played& first, const scoring::Score& of_first,
                                        const Played& second, const scoring::Score& of_second,
                                        const Strings&);

/// How one stretch of a procedure went: what it needed, and the errors in it.
struct StretchFigures {
  int needs = 0, in_time = 0;  ///< in time: unasked, and nobody waited
  int requests = 0, errors = 0;
  Ms wait{0};
};
StretchFigures stretch_of(const procedure::Procedure&, const scoring::Score&, PhaseIx phase);
std::vector<FigureRow> compared(const StretchFigures& now, const StretchFigures& then,
                                const Strings&);

/// Another attempt to lay beside: what it is called, and the figures against it. All that lie side
/// by side have the same rows with the same `now`.
struct Attempt {
  std::string name;
  std::vector<FigureRow> rows;
};

/// A table: a figure a line, the attempt called `now` first, then each other one with the change
/// against it. Change is told by sign and word, not by colour alone.
void write_comparison(Pen&, Flow&, const std::string& now, const std::vector<Attempt>& others);

}  // namespace beforehand::stage
