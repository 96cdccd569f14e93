// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "score_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

#include "commands.hpp"
#include "scoring/debrief.hpp"
#include "team.hpp"

namespace beforehand::command {
namespace {

using procedure::Procedure;
using scoring::Score;

constexpr std::size_t columns = 80;

// Breaks at blanks; the first line begins with `first`, the others with as many blanks.
std::string wrapped(const std::string& first, const std::string& text) {
  std::string out = first;
  std::size_t at = first.size();
  std::istringstream words(text);
  for (std::string word; words >> word;) {
    if (at > first.size() && at + 1 + word.size() > columns) {
      out += '\n';
      out.append(first.size(), ' ');
      at = first.size();
    }
    if (at > first.size()) {
      out += ' ';
      ++at;
    }
    out += word;
    at += word.size();
  }
  return out + "\n";
}

std::string cut(std::string text, std::size_t width) {
  if (text.size() <= width) return text;
  text.resize(width - 1);
  while (!text.empty() && (static_cast<unsigned char>(text.back()) & 0xc0) == 0x80) text.pop_back();
  return text + "~";
}

std::string headline(const Procedure& p, const drill::Session& session, const Score& s) {
  std::string out = title_lines(p);
  out += fmt::format("{}, seed {}, assisted by {}{}\n\n", drill::word(session.setup.level),
                     session.setup.seed, session.setup.assistant,
                     session.complete() ? "" : " (not played to the end)");
  out += fmt::format("Total        {:5.1f} of 100   verdict: {}\n", s.total, word(s.verdict));
  const auto unasked = std::count_if(s.needs.begin(), s.needs.end(),
                                     [](const auto& n) { return !n.requested && !n.helped; });
  out += fmt::format("Anticipation {:5.1f} %        {} of {} needs met unasked, {} asked for\n",
                     100 * s.anticipation, unasked, s.needs.size(), s.requests);
  const auto lead = scoring::leads(s);
  out += fmt::format("  ready      {:+.1f} s at the median ({:+.1f} to {:+.1f} s for 80 %)\n",
                     to_seconds(lead.median), to_seconds(lead.p10), to_seconds(lead.p90));
  out += fmt::format("  held up    at {:.0f} % of the needs, {} in all\n", 100 * s.inconvenience,
                     duration_text(s.clinician_wait));
  const auto me = p.who(procedure::Role::assistant);
  out += fmt::format("Idle time    {:5.1f} %        {} avoidable\n", 100 * s.idle,
                     me ? duration_text(s.time[me.at()].avoidable) : "none");
  out += fmt::format("Sequence     {:5.1f} %        {} of {} actions in place, {} steps\n",
                     100 * s.sequence, s.order.kept, s.order.actions, s.order.steps);
  out += fmt::format("Chair time   {}; {} {}\n", clock_text(s.chair_time),
                     s.reference_proven ? "the best possible is" : "no plan can be shorter than",
                     clock_text(s.reference_chair_time));
  return out;
}

std::string changes(const scoring::Debrief& d) {
  std::string out;
  if (!d.well.empty()) out += "\nWhat went well\n";
  for (const auto& w : d.well) out += wrapped("  + ", w);
  if (!d.change.empty()) out += "\nWhat to change\n";
  int n = 0;
  for (const auto& c : d.change) {
    out += wrapped(fmt::format("  {} ", ++n),
                   fmt::format("{} ({}, costs {:.1f} points)", c.change,
                               c.times == 1 ? "once" : fmt::format("{} times", c.times), c.points));
    out += wrapped("    ", fmt::format("At {}: {}", clock_text(c.first), c.example));
    if (!c.why.empty()) out += wrapped("    Why: ", c.why);
    if (!c.instead.empty()) out += wrapped("    Instead: ", c.instead);
  }
  return out;
}

std::string time_use(const Procedure& p, const Score& s) {
  std::string out =
      "\nWhere the time went        work    cover  waiting  standby avoidable     busy\n";
  for (std::size_t i = 0; i < s.time.size(); ++i) {
    const auto& t = s.time[i];
    out += fmt::format("  {:<20} {:6.1f} s {:6.1f} s {:6.1f} s {:6.1f} s {:7.1f} s {:6.0f} %\n",
                       cut(p.people[i].name, 20), to_seconds(t.work), to_seconds(t.cover),
                       to_seconds(t.waiting), to_seconds(t.standby), to_seconds(t.avoidable),
                       100 * t.utilisation());
  }
  return out + fmt::format("  {:<20} {:6.1f} s\n", "nobody busy", to_seconds(s.both_idle));
}

std::string needs(const Procedure& p, const Score& s) {
  std::string out = "\nWhat the clinician needed of you\n";
  for (const auto& n : s.needs) {
    const auto& need = p.step(n.step).needs[n.need];
    const auto what = need.supply ? p.supply(need.supply).name : p.step(need.from).title;
    const auto lead = to_seconds(n.lead());
    const auto how = n.helped    ? std::string("got it alone")
                     : lead >= 0 ? fmt::format("{:.1f} s early", lead)
                                 : fmt::format("{:.1f} s late", -lead);
    out += fmt::format("  {:>5}  {:<28} {:<26} {}{}\n", clock_text(n.due_at), cut(what, 28),
                       cut(p.step(n.step).title, 26), how, n.requested ? ", asked" : "");
  }
  return out;
}

std::string errors(const Procedure& p, const Score& s) {
  if (s.errors.empty()) return "";
  std::string out = "\nErrors\n";
  for (const auto& e : s.errors) {
    out += wrapped(fmt::format("  {:>5}  ", clock_text(e.at)),
                   fmt::format("[{}, {}] {}", word(e.kind), procedure::word(e.severity), e.what));
    if (e.followed_by.empty()) continue;
    std::string after;
    for (const auto step : e.followed_by) {
      after += (after.empty() ? "" : "; ") + p.step(step).title;
    }
    out += wrapped("         what followed from it: ", after);
  }
  return out;
}

}  // namespace

std::string score_text(const Procedure& p, const drill::Session& session, const Score& s) {
  std::string out = headline(p, session, s) + changes(scoring::debrief(p, s)) + time_use(p, s) +
                    needs(p, s) + errors(p, s);
  if (study::is_rehearsal(session)) out += team_text(p, study::team_debrief(p, session));
  out += "\nPlease mind\n";
  for (const auto& c : p.cautions) out += wrapped("  ! ", c);
  return out;
}

}  // namespace beforehand::command
