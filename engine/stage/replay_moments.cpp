// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/replay_moments.hpp"

#include <algorithm>

#include "picture/chart_build.hpp"
#include "stage/action_cards.hpp"
#include "stage/captions.hpp"
#include "stage/need_lines.hpp"

namespace beforehand::stage {
namespace {

using drill::Event;
using drill::What;
using Kind = ReplayMoment::Kind;

std::string joined(const std::vector<std::string>& items) {
  std::string all;
  for (const auto& item : items) all += (all.empty() ? "" : "; ") + item;
  return all;
}

class Collector {
 public:
  Collector(const Played& played, const scoring::Score& score, const Strings& t)
      : played_(played), p_(*played.procedure), score_(score), t_(t) {}

  std::vector<ReplayMoment> all() {
    for (const auto& event : played_.session.events) take(event);
    for (const auto& need : score_.needs) take(need);
    for (std::size_t i = 0; i < score_.errors.size(); ++i)
      moments_.push_back({Kind::error, score_.errors[i].at, std::to_string(i + 1),
                          error_line(score_.errors[i], t_), true, i});
    std::stable_sort(moments_.begin(), moments_.end(),
                     [](const auto& a, const auto& b) { return a.at < b.at; });
    return std::move(moments_);
  }

 private:
  void add(Kind kind, const Event& event, const std::string& sign, const std::string& text,
           bool bad = false) {
    moments_.push_back({kind, event.at, sign, text, bad, {}});
  }

  void take(const Event& e) {
    const bool by_trainee = e.person == played_.trainee();
    switch (e.what) {
      case What::step_started:
        add(by_trainee ? Kind::action : Kind::step, e, "▸", who_does(e.person, title(e)));
        break;
      case What::action_started:
      case What::cover_started:
        if (!by_trainee) break;
        add(Kind::action, e, "▸", who_does(e.person, title_of(p_, e.action, t_)));
        break;
      case What::cover_stopped:
        if (by_trainee && e.action)
          add(Kind::action, e, "▸", t_("replay.stops", {title_of(p_, e.action, t_)}));
        break;
      case What::asked:
        add(Kind::request, e, picture::request_letters(requests_++),
            t_("drill.asks", {request_of(p_, e, t_)}), true);
        break;
      case What::helping:
        add(Kind::request, e, "✗", helping_line(p_, e, t_), true);
        break;
      case What::signal_shown:
        add(Kind::signal, e, "!", t_("drill.sees", {p_.signal(e.signal).cue}));
        break;
      case What::ended:
        add(Kind::end, e, "■", t_("replay.end"));
        break;
      default:
        break;
    }
  }

  void take(const scoring::NeedScore& need) {
    const bool well = went_well(need);
    moments_.push_back(
        {Kind::need,
         need.need_at,
         well ? "✓" : "✗",
         t_("replay.need", {name_of(p_, need), p_.step(need.step).title, lead_text(p_, need, t_)}),
         !well,
         {}});
  }

  std::string title(const Event& e) const { return p_.step(e.step).title; }

  std::string who_does(PersonIx who, const std::string& what) const {
    const auto name = who == played_.trainee() ? t_("chart.you") : p_.person(who).name;
    return t_("replay.does", {name, what});
  }

  const Played& played_;
  const procedure::Procedure& p_;
  const scoring::Score& score_;
  const Strings& t_;
  std::vector<ReplayMoment> moments_;
  std::size_t requests_ = 0;
};

}  // namespace

std::vector<ReplayMoment> moments_of(const Played& played, const scoring::Score& score,
                                     const Strings& t) {
  return Collector(played, score, t).all();
}

std::string error_line(const scoring::Error& error, const Strings& t) {
  std::string kind = "error.", severity = "severity.";
  kind.append(scoring::word(error.kind));
  severity.append(procedure::word(error.severity));
  return t("replay.error", {t(kind), t(severity), error.what});
}

ErrorWords words_under(const procedure::Procedure& p, const scoring::Error& error,
                       const Strings& t) {
  ErrorWords words;
  if (!error.why.empty()) words.why = t("coach.why", {error.why});
  if (!error.instead.empty()) words.instead = t("debrief.instead", {error.instead});
  std::vector<std::string> steps;
  for (const auto step : error.followed_by) steps.push_back(p.step(step).title);
  if (!steps.empty()) words.followed = t("debrief.followed", {joined(steps)});
  return words;
}

}  // namespace beforehand::stage
