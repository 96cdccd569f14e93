// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "procedure/procedure.hpp"
#include "timing/controllability.hpp"

namespace beforehand::timing {

using procedure::Procedure;

/// The temporal network of a procedure, unfolded for the signals that happen, with what each
/// constraint says. Durations lie between least and most.
struct Unfolded {
  struct Says {
    enum class Kind : std::uint8_t {
      duration,      ///< of `to`
      link,          ///< `to` follows `from` by so long at least
      within,        ///< `to` follows `from` by so long at most
      need,          ///< `to` needs `from`
      working_time,  ///< what `from` prepares must be used up by the end of `to`
      cover,         ///< the cover `from` lasts until the end of `to`
      at_once,       ///< the clinician can start `to` so long after `from`, and would like to
    } kind = Kind::link;
    StepIx from, to;
    bool from_start = false;
    Ms bound{0};
  };

  /// Who decides how long steps take.
  enum class Durations : std::uint8_t {
    free,       ///< anything between least and most, as it suits
    contingent  ///< the clinician's are what they turn out to be, the others' are as usual; and the
                ///< clinician goes on at once, as far as preps made without delay allow
  };

  Unfolded(const Procedure&, const std::vector<SignalIx>& happened, Durations);

  UncertainNetwork network;
  std::vector<Says> says;          ///< by constraint of the network
  std::vector<StepIx> contingent;  ///< by contingent link of the network

 private:
  void add(TemporalNetwork::Constraint, Says);
  void add_durations(const Procedure&, Durations);
  void add_links(const Procedure&, StepIx);
  void add_needs(const Procedure&, StepIx);
  void add_at_once(const Procedure&);

  TemporalNetwork::Point start(StepIx i) const { return points_[i.at()]; }
  TemporalNetwork::Point end(StepIx i) const {
    return static_cast<TemporalNetwork::Point>(points_[i.at()] + 1);
  }
  bool happens(StepIx i) const { return points_[i.at()] != 0; }

  std::vector<TemporalNetwork::Point> points_;  // by step: its start; its end follows
};

}  // namespace beforehand::timing
