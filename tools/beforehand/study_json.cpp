// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study_json.hpp"

#include <nlohmann/json.hpp>

namespace beforehand::command {

using nlohmann::ordered_json;

ordered_json interval_json(const study::Interval& i) {
  return ordered_json::array({i.low, i.high});
}

ordered_json summary_json(const study::Summary& s) {
  ordered_json j{{"mean", s.mean},           {"mean_95", interval_json(s.mean_sure)},
                 {"deviation", s.deviation}, {"least", s.least},
                 {"most", s.most},           {"quantiles", ordered_json::array()}};
  for (const auto& q : s.quantiles)
    j["quantiles"].push_back({{"p", q.p}, {"value", q.value}, {"value_95", interval_json(q.sure)}});
  return j;
}

std::string_view unit(study::Measure m) {
  return m == study::Measure::requests || m == study::Measure::total ? "" : " s";
}

}  // namespace beforehand::command
