// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/need_lines.hpp"

namespace beforehand::stage {
namespace {

constexpr Ms noticeable{1000};  // an unhurried hand-over takes about that, so less is no wait

}  // namespace

std::string name_of(const procedure::Procedure& procedure, const scoring::NeedScore& score) {
  const auto& need = procedure.step(score.step).needs[score.need];
  if (need.kind == procedure::Need::Kind::supply) return procedure.supply(need.supply).name;
  const auto& from = procedure.step(need.from);
  return from.supply ? procedure.supply(from.supply).name : from.title;
}

bool went_well(const scoring::NeedScore& need) {
  return !need.requested && !need.helped && need.lead() >= -noticeable;
}

std::string lead_text(const scoring::NeedScore& need, const Strings& t) {
  if (need.helped) return t("need.helped", {duration_text(need.wait)});
  std::string text = t("need.on-time");
  if (need.lead() < -noticeable) text = t("need.waited", {duration_text(need.wait)});
  if (need.lead() >= noticeable) text = t("need.early", {duration_text(need.lead())});
  return need.requested ? t("need.and-asked", {text}) : text;
}

}  // namespace beforehand::stage
