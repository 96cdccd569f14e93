// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <algorithm>

#include "timing/explain.hpp"

namespace beforehand::timing {

namespace {

std::string quoted(const Procedure& p, StepIx step) {
  return fmt::format("\"{}\"", p.step(step).title);
}

std::string name(const Procedure& p, PersonIx who) {
  const auto& person = p.person(who);
  return person.name.empty() ? person.id : person.name;
}

std::string lag_in_words(const Procedure& p, const ChainLink& link) {
  const auto after = quoted(p, link.after);
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
                         quoted(p, link.after));
    case ChainLink::Kind::hands:
      return fmt::format("{} has no hand free before {}", name(p, PersonIx{link.of}),
                         quoted(p, link.after));
    case ChainLink::Kind::device:
      return fmt::format("{} is in use until {} ends", p.devices[link.of].name,
                         quoted(p, link.after));
    default:
      return lag_in_words(p, link);
  }
}

}  // namespace

std::vector<std::string> chain_in_words(const Procedure& p, const Plan& plan,
                                        const Explanation& e) {
  std::vector<std::string> lines;
  for (const auto& link : e.chain) {
    const auto& s = plan.steps[link.step.at()];
    lines.push_back(fmt::format("{} {} ({}, {}): {}", clock_text(s.start), quoted(p, link.step),
                                name(p, s.by), duration_text(s.end - s.start), why(p, link)));
  }
  return lines;
}

std::vector<std::string> gaps_in_words(const Procedure& p, const Explanation& e) {
  std::vector<std::string> lines;
  for (const auto& gap : e.gaps) {
    auto line = fmt::format("{} {}: {} has {} free", clock_text(gap.from), clock_text(gap.to),
                            name(p, gap.who), duration_text(gap.to - gap.from));
    if (gap.until) line += fmt::format(" before {}", quoted(p, gap.until));
    if (gap.waiting_for) line += fmt::format(", waiting for {}", quoted(p, gap.waiting_for));
    lines.push_back(std::move(line));
  }
  return lines;
}

std::vector<std::string> advice_in_words(const Procedure& p, const Explanation& e) {
  std::vector<std::string> lines;
  for (const auto& r : e.roles) {
    const auto who = name(p, r.instead);
    if (!r.possible) {
      lines.push_back(fmt::format("{} cannot be done by {} here", quoted(p, r.step), who));
    } else if (r.longer > Ms{0}) {
      lines.push_back(fmt::format("if {} does {} instead of {}, chair time grows by {}", who,
                                  quoted(p, r.step), name(p, r.by), duration_text(r.longer)));
    }
  }
  const auto free = std::count_if(e.roles.begin(), e.roles.end(),
                                  [](const auto& r) { return r.possible && r.longer == Ms{0}; });
  if (free > 0) {
    lines.push_back(
        fmt::format("{} of the steps that several may do cost no chair time whoever "
                    "does them",
                    free));
  }
  constexpr std::size_t most = 3;
  for (std::size_t i = 0; i < std::min(most, e.shortenings.size()); ++i) {
    const auto& s = e.shortenings[i];
    lines.push_back(fmt::format("{} done {} quicker shortens the chair time by at least {}",
                                quoted(p, s.step), duration_text(s.shorter),
                                duration_text(s.gain)));
  }
  return lines;
}

}  // namespace beforehand::timing
