// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/report_words.hpp"

#include <fmt/format.h>

#include <cmath>

namespace beforehand::picture {

using records::Law;

std::string verdict_text(scoring::Verdict v) {
  switch (v) {
    case scoring::Verdict::ready:
      return "ready";
    case scoring::Verdict::nearly:
      return "nearly ready";
    case scoring::Verdict::practise:
      return "practise on";
    case scoring::Verdict::repeat:
      return "repeat: unsafe act";
  }
  return "";
}

std::string law_text(const records::LearningCurve& c) {
  if (c.law == Law::level)
    return fmt::format("No learning can be told from chance: about {:.0f} points throughout.",
                       100 - c.floor);
  const auto slower =
      c.law == Law::exponential
          ? fmt::format("{:.0f} % of them go from drill to drill", 100 * (1 - std::exp(-c.rate)))
          : fmt::format("{:.0f} % of them go with each doubling of the drills",
                        100 * (1 - std::exp2(-c.rate)));
  return fmt::format(
      "{} law of practice: {:.0f} points to gain at the first drill, {}, towards {:.0f} of 100. "
      "Chosen by the corrected Akaike criterion (level {:.1f}, exponential {:.1f}, power {:.1f}; "
      "the smallest is best).",
      c.law == Law::exponential ? "Exponential" : "Power", c.gain, slower, 100 - c.floor,
      c.aicc_level, c.aicc_exponential, c.aicc_power);
}

std::string test_text(const records::CompetenceTest& t) {
  constexpr int attempts = 30;
  return fmt::format(
      "A step's evidence is complete when its attempts tell a failure rate of {:.0f} % from one of "
      "{:.0f} % (LC-CUSUM with the limit {:.1f}). Somebody who still fails {:.0f} % of the time "
      "gets "
      "there by chance within {} attempts in {:.1f} % of cases; somebody who fails {:.0f} % gets "
      "there in {:.0f} %. Afterwards failures close together take the evidence away again.",
      100 * t.adequate, 100 * t.inadequate, t.limit, 100 * t.inadequate, attempts,
      100 * records::signal_chance(t, t.inadequate, attempts), 100 * t.adequate,
      100 * records::signal_chance(t, t.adequate, attempts));
}

std::string standing_text(const records::Standing& s) {
  if (s.competent()) return fmt::format("complete since attempt {}", s.signal_at);
  const int more = records::passes_to_signal(s);
  if (s.lapsed_at > 0)
    return fmt::format("lapsed at attempt {}; {} more in a row", s.lapsed_at, more);
  return fmt::format("{} more right in a row", more);
}

std::string share_text(int passed, int attempts) {
  return attempts == 0 ? "–" : fmt::format("{} of {}", passed, attempts);
}

}  // namespace beforehand::picture
