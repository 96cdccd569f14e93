// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/captions.hpp"

#include "stage/action_cards.hpp"

namespace beforehand::stage {
namespace {

using drill::Event;
using drill::What;
using procedure::Procedure;

std::string supply_name(const Procedure& procedure, SupplyIx supply) {
  return supply ? procedure.supply(supply).name : std::string();
}

std::string touch_sentence(const Procedure& procedure, const Event& event, const Strings& t) {
  return t("told.soiled-touch", {supply_name(procedure, event.supply)});
}

// Clean hands are never in vain, whatever step asks for them.
bool cleans_hands(const Procedure& procedure, const Event& event) {
  const auto supply = procedure.action(event.action).supply;
  return supply && procedure.supply(supply).cleans_hands;
}

// At the patient, and for no step. (What is made or passed once more may be needed.)
bool is_uncalled_for(const Procedure& procedure, const Event& event) {
  return event.action && !event.step && !cleans_hands(procedure, event) &&
         corner_of(procedure.action(event.action).verb) == Corner::at_patient;
}

// What goes wrong by the trainee's own doing is told at once: in a clinic it would be seen.
std::string told_by(const Procedure& procedure, const Event& event, PersonIx trainee,
                    const Strings& t) {
  switch (event.what) {
    case What::has_set:
      return t("told.has-set",
               {supply_name(procedure, event.supply), procedure.supply(event.supply).sets_as});
    case What::soiled_touch:
      if (event.person == trainee) return touch_sentence(procedure, event, t);
      break;
    case What::action_done:
      if (event.person == trainee && event.action && event.value == 0 &&
          !cleans_hands(procedure, event))
        return t("told.too-early", {title_of(procedure, event.action, t)});
      break;
    case What::unready_start:
      if (event.person == trainee)
        return t(event.value == 1 ? "told.unsafe" : "told.unready",
                 {title_of(procedure, event.action, t), procedure.step(event.cause).title});
      break;
    case What::action_started:
      if (event.person == trainee && is_uncalled_for(procedure, event))
        return t("told.uncalled-for", {title_of(procedure, event.action, t)});
      break;
    case What::helping:
      return helping_line(procedure, event, t);
    default:
      break;
  }
  return {};
}

}  // namespace

std::string helping_line(const Procedure& procedure, const Event& event, const Strings& t) {
  const auto& step = procedure.step(event.step);
  const bool kept = static_cast<std::size_t>(event.value) >= step.needs.size();
  return t(kept ? "told.takes" : "told.helping", {step.title});
}

std::string request_for(const Procedure& procedure, const procedure::Need& need, const Strings& t) {
  if (need.kind == procedure::Need::Kind::supply)
    return t("asked.supply", {supply_name(procedure, need.supply)});
  const auto& step = procedure.step(need.from);
  if (step.supply) return t("asked.supply", {supply_name(procedure, step.supply)});
  return t("asked.done", {step.title});
}

std::string request_of(const Procedure& procedure, const Event& event, const Strings& t) {
  const auto& needs = procedure.step(event.step).needs;
  const auto which = static_cast<std::size_t>(event.value);
  if (which < needs.size()) return request_for(procedure, needs[which], t);
  if (event.supply) return t("asked.let-go", {supply_name(procedure, event.supply)});
  return event.action ? t("asked.let-go", {title_of(procedure, event.action, t)}) : std::string();
}

std::string sentence_of(const Procedure& procedure, drill::Reason reason, ActionIx action,
                        const Strings& t) {
  std::string key = "reason.";
  key.append(drill::word(reason));
  const auto& kind = procedure.action(action);
  return t(key, {supply_name(procedure, kind.supply), title_of(procedure, action, t)});
}

std::vector<Caption> captions_of(const Procedure& procedure, const Event& event, PersonIx trainee,
                                 const Strings& t) {
  std::vector<Caption> result;
  const auto add = [&](Caption::Kind kind, const std::string& text) {
    if (!text.empty()) result.push_back({kind, text, event.at});
  };
  if (event.what == What::step_started && event.person != trainee)
    add(Caption::Kind::said, procedure.step(event.step).says);
  if (event.what == What::asked) {
    add(Caption::Kind::asked, request_of(procedure, event, t));
  }
  if (event.what == What::signal_shown) add(Caption::Kind::cue, procedure.signal(event.signal).cue);
  if (event.what == What::refused && event.person == trainee && event.action)
    add(Caption::Kind::told,
        sentence_of(procedure, static_cast<drill::Reason>(event.value), event.action, t));
  add(Caption::Kind::told, told_by(procedure, event, trainee, t));
  return result;
}

}  // namespace beforehand::stage
