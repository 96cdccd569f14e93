// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "team.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

namespace beforehand::command {

using nlohmann::ordered_json;
using procedure::Procedure;

ordered_json team_json(const Procedure& p, const study::TeamDebrief& d) {
  ordered_json waits = ordered_json::array(), nobody = ordered_json::array(),
               hand_overs = ordered_json::array(), change = ordered_json::object();
  for (const auto& w : d.waits)
    waits.push_back({{"who", p.person(w.who).id},
                     {"for_whom", p.person(w.for_whom).id},
                     {"step", p.step(w.step).id},
                     {"waits_for", p.step(w.from).id},
                     {"at_s", to_seconds(w.at)},
                     {"wait_s", to_seconds(w.wait)},
                     {"asked", w.asked},
                     {"why", w.why}});
  for (const auto& n : d.nobody_busy)
    nobody.push_back({{"from_s", to_seconds(n.from)}, {"to_s", to_seconds(n.to)}});
  for (const auto& h : d.hand_overs)
    hand_overs.push_back({{"by", p.person(h.by).id},
                          {"step", p.step(h.step).id},
                          {"serves", p.step(h.from).id},
                          {"at_s", to_seconds(h.at)},
                          {"unasked", h.unasked}});
  for (std::size_t i = 0; i < p.people.size(); ++i) change[p.people[i].id] = d.change[i];
  return {{"waits", waits},        {"both_idle_s", to_seconds(d.both_idle)},
          {"nobody_busy", nobody}, {"hand_overs", hand_overs},
          {"unasked", d.unasked},  {"change", change}};
}

std::string team_text(const Procedure& p, const study::TeamDebrief& d) {
  std::string out =
      fmt::format("\nThe team\n  unasked: {} of {} hand-overs and helps; nobody at work for {}\n",
                  d.unasked, d.hand_overs.size(), duration_text(d.both_idle));
  for (std::size_t i = 0; i < p.people.size(); ++i) {
    out += fmt::format("  To change: {}\n", p.people[i].name);
    for (const auto& c : d.change[i]) out += fmt::format("    - {}\n", c);
    if (d.change[i].empty()) out += "    nothing stands out\n";
  }
  out += d.waits.empty() ? "  Nobody waited.\n" : "  Who waited for whom\n";
  for (const auto& w : d.waits) {
    out +=
        fmt::format("    {:>5}  {} waited {} to begin \"{}\"{}, for {}: {}\n", clock_text(w.at),
                    p.person(w.who).name, duration_text(w.wait), p.step(w.step).title,
                    w.asked ? " and asked" : "", p.person(w.for_whom).name, p.step(w.from).title);
    if (!w.why.empty()) out += fmt::format("           {}\n", w.why);
  }
  return out;
}

}  // namespace beforehand::command
