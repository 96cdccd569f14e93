// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "base/time.hpp"
#include "procedure/procedure.hpp"
#include "scoring/score.hpp"

// A real case, timed: who did what, from when to when. Nothing about a patient has a place in it.

namespace beforehand::study {

/// One piece of work, as it was written down.
struct SeenWork {
  std::string person, step;
  Ms start{0}, end{0};
};

struct TimedCase {
  std::string name;            ///< of the file, or as numbered
  std::vector<SeenWork> seen;  ///< by start
};

struct CaseReading {
  TimedCase timed;                ///< whole only without errors
  std::vector<Problem> problems;  ///< by place
};

/// Reads comma-separated values (RFC 4180): a first line `person,step,start,end`, then one line a
/// piece of work; times as `75`, `75.5` (seconds), `1:15`, `1:15.5` or `0:01:15`, counted from
/// whenever the clock was started. Strict: every line that is not so is a problem, all of them at
/// once; a text that a spreadsheet would take for a formula (beginning with = + - @) is one too. At
/// most 1 MiB, 10,000 lines and 12 hours. `name` is the case's.
CaseReading read_case(std::string_view csv, std::string name);

/// Whose lane, which step: a case laid beside a protocol.
struct Placed {
  std::size_t lane = 0;
  StepIx step;          ///< none: not in the protocol
  bool beside = false;  ///< goes on beside what has the attention: a cover, holding the light
  Ms start{0}, end{0};
  std::string label;
};

/// One stretch of a lane in which nothing has the attention.
struct Apart {
  std::size_t lane = 0;
  Ms from{0}, to{0};
  bool waiting = false;  ///< it ended as somebody else's work did: that was waited for
  std::string for_what;  ///< the label of what was waited for
};

/// A lag that was not kept.
struct LagSeen {
  StepIx step, before;  ///< started too soon, or too late, after that one
  Ms off{0};            ///< too late by so much; negative: too soon
};

/// What a case comes to: the figures and the order check that a drill gets.
struct CaseFigures {
  std::vector<std::string>
      lanes;                 ///< the protocol's people first, in its order; others as they come
  std::vector<Placed> work;  ///< by start; the first begins at 0
  std::vector<Apart> apart;  ///< by lane, then time
  std::vector<scoring::TimeSplit> time;  ///< by lane; avoidable stays 0: a case has no windows
  Ms chair_time{0}, both_idle{0};
  std::size_t people_known = 0;  ///< lanes that are the protocol's

  // The order check; without a protocol there is none.
  bool checked = false;
  scoring::Order order;
  std::vector<std::size_t> out_of_order;  ///< positions in work
  std::vector<std::size_t> repeated, extra;
  std::vector<StepIx> omitted;
  std::vector<LagSeen> lags;
};

/// A step is the protocol's when what was written is its id or title, a person when it is the
/// person's id, name or role, whatever the case of the letters; titles and names also as they stand
/// in `in_other_words`, the protocol in other languages (procedure/texts.hpp). A gap of a person's
/// time counts as waiting when it ends within the hand-over allowance (scoring/hindsight.hpp) after
/// somebody else's work ended in it, else as standing by.
CaseFigures figures(const TimedCase&, const procedure::Procedure* protocol,
                    std::span<const procedure::Procedure> in_other_words = {});

}  // namespace beforehand::study
