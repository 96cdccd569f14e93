// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "timing/explain.hpp"

namespace beforehand::timing {

namespace {

std::string in_quotes(const Procedure& p, StepIx step) {
  return fmt::format("\"{}\"", p.step(step).title);
}

std::string name(const Procedure& p, PersonIx who) {
  const auto& person = p.person(who);
  return person.name.empty() ? person.id : person.name;
}

std::string lag_in_words(const Procedure& p, const ChainLink& link) {
  const auto after = in_quotes(p, link.after);
  switch (link.because.kind) {
    case Because::Kind::need:
      return fmt::format("needs {}", after);
    case Because::Kind::signal:
      return fmt::format("waits to see what shows after {}", after);
    case Because::Kind::within:
      return fmt::format("may not come earlier, or {} would come too long after it", after);
    case Because::Kind::working_time:
      return fmt::format("may not come earlier, or it would have set before the end of {}", after);
    case Because::Kind::cover:
      return fmt::format("goes on until {} ends", after);
    default:
      return fmt::format("follows {}", after);
  }
}

std::string why(const Procedure& p, const ChainLink& link) {
  if (!link.after) return "starts at once";
  switch (link.kind) {
    case ChainLink::Kind::attention:
      return fmt::format("{} is busy until then with {}", name(p, PersonIx{link.of}),
                         in_quotes(p, link.after));
    case ChainLink::Kind::hands:
      return fmt::format("{} has no hand free before {}", name(p, PersonIx{link.of}),
                         in_quotes(p, link.after));
    case ChainLink::Kind::device:
      return fmt::format("{} is in use until {} ends", p.devices[link.of].name,
                         in_quotes(p, link.after));
    default:
      return lag_in_words(p, link);
  }
}

// "Clinician: 40 s free in 2 stretches, 25 s of it waiting for somebody else".
std::string free_in_all(const Procedure& p, const Explanation& e, PersonIx who) {
  Ms sum{0}, waiting{0};
  int count = 0;
  for (const auto& gap : e.gaps) {
    if (gap.who != who) continue;
    ++count;
    sum += gap.to - gap.from;
    if (gap.waiting_for) waiting += gap.to - gap.from;
  }
  auto line = fmt::format("{}: {} free in {} {}", name(p, who), duration_text(sum), count,
                          count == 1 ? "stretch" : "stretches");
  if (waiting > Ms{0})
    line += fmt::format(", {} of it waiting for somebody else", duration_text(waiting));
  return line;
}

// What matters most comes first; what costs nothing is only named.
std::vector<std::string> roles_in_words(const Procedure& p, const Explanation& e) {
  auto roles = e.roles;
  std::stable_sort(roles.begin(), roles.end(),
                   [](const auto& a, const auto& b) { return a.longer > b.longer; });
  std::vector<std::string> lines, free;
  for (const auto& r : roles) {
    const auto who = name(p, r.instead);
    if (!r.possible) {
      lines.push_back(fmt::format("{} cannot be done by {} here", in_quotes(p, r.step), who));
    } else if (r.longer > Ms{0}) {
      lines.push_back(fmt::format("if {} does {} instead of {}, chair time grows by {}", who,
                                  in_quotes(p, r.step), name(p, r.by), duration_text(r.longer)));
    } else {
      free.push_back(in_quotes(p, r.step));
    }
  }
  if (!free.empty()) {
    free.erase(std::unique(free.begin(), free.end()), free.end());
    lines.push_back(
        fmt::format("it costs no chair time to give any one of these to somebody else who may do "
                    "it: {}",
                    list_text(free)));
  }
  return lines;
}

// The steps whose shortening helps most; then how many more there are that help at all.
std::vector<std::string> shortenings_in_words(const Procedure& p, const Explanation& e) {
  std::vector<std::string> lines;
  constexpr std::size_t most = 3;
  const bool alone = e.shortenings.size() > 1 && e.shortenings[0].gain > e.shortenings[1].gain;
  for (std::size_t i = 0; i < std::min(most, e.shortenings.size()); ++i) {
    const auto& s = e.shortenings[i];
    const auto& takes = p.step(s.step).takes;
    lines.push_back(fmt::format("{} in {} instead of {}: chair time falls by {} or more{}",
                                in_quotes(p, s.step), duration_text(takes.least),
                                duration_text(takes.usual), duration_text(s.gain),
                                i == 0 && alone ? " (what helps most)" : ""));
  }
  if (e.shortenings.size() > most) {
    lines.push_back(fmt::format("{} more steps help when they are quicker, each by {} or less",
                                e.shortenings.size() - most,
                                duration_text(e.shortenings[most].gain)));
  }
  return lines;
}

}  // namespace

std::vector<std::string> chain_in_words(const Procedure& p, const Plan& plan,
                                        const Explanation& e) {
  std::vector<std::string> lines;
  for (const auto& link : e.chain) {
    const auto& s = plan.steps[link.step.at()];
    lines.push_back(fmt::format("{} {} ({}, {}): {}", clock_text(s.start), in_quotes(p, link.step),
                                name(p, s.by), duration_text(s.end - s.start), why(p, link)));
  }
  return lines;
}

std::vector<std::string> gaps_in_words(const Procedure& p, const Explanation& e) {
  std::vector<std::string> lines;
  PersonIx who;
  for (const auto& gap : e.gaps) {
    if (gap.who != who) lines.push_back(free_in_all(p, e, gap.who));
    who = gap.who;
    auto line =
        fmt::format("  {:>5}  {:>12}", clock_text(gap.from), duration_text(gap.to - gap.from));
    line += gap.until ? fmt::format("  before {}", in_quotes(p, gap.until)) : "  to the end";
    if (gap.waiting_for) line += fmt::format(", waiting for {}", in_quotes(p, gap.waiting_for));
    lines.push_back(std::move(line));
  }
  return lines;
}

std::vector<std::string> advice_in_words(const Procedure& p, const Explanation& e) {
  auto lines = roles_in_words(p, e);
  for (auto& line : shortenings_in_words(p, e)) lines.push_back(std::move(line));
  return lines;
}

}  // namespace beforehand::timing
