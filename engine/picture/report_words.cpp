// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/report_words.hpp"

#include <fmt/format.h>

#include <cmath>

namespace beforehand::picture {

using records::Law;

namespace {

std::string whole_number(double value) { return fmt::format("{:.0f}", value); }
std::string one_decimal(double value) { return fmt::format("{:.1f}", value); }

}  // namespace

std::string law_words(const records::LearningCurve& c, const Strings& t) {
  if (c.law == Law::level) return t("report.law.level", {whole_number(100 - c.floor)});
  const bool exponential = c.law == Law::exponential;
  const double goes = exponential ? 1 - std::exp(-c.rate) : 1 - std::exp2(-c.rate);
  return t(exponential ? "report.law.exponential" : "report.law.power",
           {whole_number(c.gain), whole_number(100 * goes), whole_number(100 - c.floor)}) +
         " " +
         t("report.law.chosen",
           {one_decimal(c.aicc_level), one_decimal(c.aicc_exponential), one_decimal(c.aicc_power)});
}

std::string test_words(const Strings& t, const records::CompetenceTest& test) {
  constexpr int attempts = 30;
  return t("report.test",
           {whole_number(100 * test.adequate), whole_number(100 * test.inadequate),
            one_decimal(test.limit), std::to_string(attempts),
            one_decimal(100 * records::signal_chance(test, test.inadequate, attempts)),
            whole_number(100 * records::signal_chance(test, test.adequate, attempts))});
}

std::string evidence_words(const records::Standing& s, const Strings& t) {
  if (s.attempts == 0) return t("review.step.untried");
  if (s.competent()) return t("review.step.complete", {std::to_string(s.signal_at)});
  const auto more = std::to_string(records::passes_to_signal(s));
  if (s.lapsed_at > 0) return t("report.steps.lapsed", {std::to_string(s.lapsed_at), more});
  return t("report.steps.lacking", {more});
}

std::string share_words(int passed, int attempts, const Strings& t) {
  if (attempts == 0) return "–";
  return t("compare.of", {std::to_string(passed), std::to_string(attempts)});
}

std::string level_words(drill::Level level, const Strings& t) {
  return t("level." + std::string(drill::word(level)));
}

std::string severity_words(procedure::Severity severity, const Strings& t) {
  return t("severity." + std::string(procedure::word(severity)));
}

std::vector<std::string> texts(const Strings& t, std::string_view prefix,
                               const std::vector<std::string_view>& keys) {
  std::vector<std::string> found;
  for (const auto key : keys)
    found.push_back(key.find('.') == std::string_view::npos ? t(std::string(prefix).append(key))
                                                            : t(key));
  return found;
}

}  // namespace beforehand::picture
