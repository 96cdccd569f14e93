// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/observed_durations.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "procedure/edit.hpp"
#include "procedure/reader.hpp"

namespace beforehand::study {
namespace {

using procedure::Procedure;

// Of a binomial variable with n and 1/2: no more than k.
double at_most(std::size_t k, std::size_t n) {
  const auto a = static_cast<double>(n - k), b = static_cast<double>(k + 1);
  return k >= n ? 1 : incomplete_beta(a, b, 0.5);
}

void mark_outliers(std::vector<SeenDuration>& seen) {
  if (seen.size() < 4) return;
  std::vector<double> values;
  for (const auto& s : seen) values.push_back(to_seconds(s.takes));
  const auto q = summarize(values).quantiles;
  const double fence = 1.5 * (q[3].value - q[1].value);
  for (auto& s : seen) {
    const double v = to_seconds(s.takes);
    s.outlier = v < q[1].value - fence || v > q[3].value + fence;
  }
}

ObservedStep summed_up(StepIx step, std::vector<SeenDuration> seen) {
  ObservedStep o;
  o.step = step;
  std::stable_sort(seen.begin(), seen.end(),
                   [](const auto& a, const auto& b) { return a.takes < b.takes; });
  const auto n = seen.size();
  const Ms median = (seen[(n - 1) / 2].takes + seen[n / 2].takes) / 2;
  o.estimate = {seen.front().takes, median, seen.back().takes};
  const auto ranks = median_ranks(n);
  o.usual_sure_s = {to_seconds(seen[ranks.low].takes), to_seconds(seen[ranks.high].takes)};
  o.usual_confidence = ranks.confidence;
  o.next_within = static_cast<double>(n - 1) / static_cast<double>(n + 1);
  mark_outliers(seen);
  o.seen = std::move(seen);
  return o;
}

std::string duration_yaml(Ms tenths) {
  const auto text = fmt::format("{:.1f}", to_seconds(tenths));
  return (text.ends_with(".0") ? text.substr(0, text.size() - 2) : text) + " s";
}

Ms own(Ms seen, Ms reach) {  // to a tenth of a second, at least one
  const Ms rest = std::max(Ms{100}, seen - reach);
  return Ms{(rest.count() + 50) / 100 * 100};
}

// Above the line in which the step begins, indented as it is.
std::string with_remark(const std::string& yaml, int line, const std::string& remark) {
  std::size_t at = 0;
  for (int i = 1; i < line; ++i) at = yaml.find('\n', at) + 1;
  const auto indent = yaml.find_first_not_of(' ', at) - at;
  return yaml.substr(0, at) + std::string(indent, ' ') + "# " + remark + "\n" + yaml.substr(at);
}

}  // namespace

RankInterval median_ranks(std::size_t n) {
  if (n < 2) return {0, 0, 0};
  RankInterval best{0, n - 1, 1 - 2 * at_most(0, n)};
  for (std::size_t low = 1; low < n - 1 - low; ++low) {
    const double confidence = 1 - 2 * at_most(low, n);
    if (confidence < 0.95) break;
    best = {low, n - 1 - low, confidence};
  }
  return best;
}

double share_within(std::size_t n, double confidence) {
  if (n < 2) return 0;
  double low = 0, high = 1;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (incomplete_beta(static_cast<double>(n - 1), 2, middle) < 1 - confidence ? low : high) = middle;
  }
  return (low + high) / 2;
}

std::vector<ObservedStep> observed(const std::vector<CaseFigures>& cases,
                                   const std::vector<std::string>& names, const Procedure& p) {
  std::vector<std::vector<SeenDuration>> seen(p.steps.size());
  for (std::size_t c = 0; c < cases.size(); ++c)
    for (const auto& w : cases[c].work)
      if (w.step && !p.step(w.step).is_cover())
        seen[w.step.at()].push_back({names[c], w.end - w.start, false});
  std::vector<ObservedStep> out;
  for (std::size_t s = 0; s < seen.size(); ++s)
    if (!seen[s].empty()) out.push_back(summed_up(StepIx{s}, std::move(seen[s])));
  return out;
}

std::string with_observed(std::string yaml, const Procedure& p,
                          const std::vector<ObservedStep>& steps, const std::string& origin) {
  for (const auto& o : steps) {
    const auto& step = p.step(o.step);
    const auto part = [&](Ms t) { return duration_yaml(own(t, step.reach)); };
    yaml = procedure::with_value(
        yaml, fmt::format("steps/{}/takes", step.id),
        fmt::format("{{least: {}, usual: {}, most: {}}}", part(o.estimate.least),
                    part(o.estimate.usual), part(o.estimate.most)));
  }
  const auto reading = procedure::read(yaml);
  if (!reading.procedure)
    throw procedure::EditError(reading.problems.empty()
                                   ? "cannot be read again"
                                   : reading.problems.front().message.english());
  for (auto o = steps.rbegin(); o != steps.rend();
       ++o) {  // from below, so that lines keep their number
    const auto& step = reading.procedure->step(o->step);
    const auto outliers =
        std::count_if(o->seen.begin(), o->seen.end(), [](const auto& s) { return s.outlier; });
    yaml = with_remark(
        yaml, step.mark.line,
        fmt::format("takes: {}, seen {}{}{}", origin,
                    o->seen.size() == 1 ? "once" : fmt::format("{} times", o->seen.size()),
                    step.reach > Ms{0} ? ", without the reach" : "",
                    outliers > 0 ? fmt::format(", {} of them far out", outliers) : ""));
  }
  const auto again = procedure::read(yaml);
  if (!again.procedure || again.procedure->steps.size() != p.steps.size())
    throw procedure::EditError("the steps are written in a way that takes no remarks");
  return yaml;
}

}  // namespace beforehand::study
