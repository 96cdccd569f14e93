// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "study/timed_case.hpp"

// A case while it is timed: taps, written down one a line as they come, so that an observation can
// be closed at any moment and gone on with. The clock counts observed time only.

namespace beforehand::study {

struct Tap {
  enum class Kind : std::uint8_t {
    start,  ///< person, text: a step's title or what was typed
    end,    ///< person, text
    note,   ///< text
    shift,  ///< the last start or end was `by` later (negative: earlier) than tapped
    undo,   ///< takes the last tap before it away, undos apart
  };
  Kind kind = Kind::note;
  Ms at{0};
  std::string person, text;
  Ms by{0};
};

class CaseLog {
 public:
  /// Reads a log's text. A last line that was cut off is left out; anything else that is no tap is
  /// a problem with its place, all at once.
  static CaseLog parse(std::string_view text, std::vector<Problem>& problems);

  void add(Tap);
  bool goes_on(const std::string& person, const std::string& text) const;
  /// When it was started, of what goes on; never: it does not.
  Ms since(const std::string& person, const std::string& text) const;
  /// What goes on, the last started last.
  std::vector<SeenWork> going_on() const;
  bool seen(const std::string& text) const;
  /// What was done up to now; what still goes on ends now.
  TimedCase timed(Ms now, std::string name) const;
  /// The taps that count, moved as corrected.
  std::vector<Tap> taps() const;
  Ms last() const;  ///< of the latest tap
  bool empty() const { return kept_.empty(); }

 private:
  std::vector<Tap> kept_;
};

/// The first line of a log, and one line for a tap, both with their line ends.
std::string log_heading();
std::string log_line(const Tap&);
bool is_case_log(std::string_view text);

/// A case as the table that read_case() reads.
std::string to_csv(const TimedCase&);

}  // namespace beforehand::study
