// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/need_lines.hpp"

namespace beforehand::stage {
namespace {

constexpr Ms noticeable{1000};  // an unhurried hand-over takes about that, so less is no wait

const char* alone_key(const procedure::Procedure& procedure, const scoring::NeedScore& score) {
  using Kind = procedure::Need::Kind;
  const auto kind = procedure.step(score.step).needs[score.need].kind;
  if (kind == Kind::supply) return "need.fetched";
  return kind == Kind::cover ? "need.managed" : "need.taken-over";
}

// A cover that was there before it was asked for was let go in between.
bool let_go(const procedure::Procedure& procedure, const scoring::NeedScore& score) {
  const auto& need = procedure.step(score.step).needs[score.need];
  return need.kind == procedure::Need::Kind::cover && score.requested &&
         score.ready_at < score.asked_at;
}

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

std::string lead_text(const procedure::Procedure& procedure, const scoring::NeedScore& need,
                      const Strings& t) {
  if (need.helped) return t(alone_key(procedure, need), {duration_text(need.wait)});
  if (let_go(procedure, need)) return t("need.let-go");
  std::string text = t("need.on-time");
  if (need.lead() < -noticeable) text = t("need.waited", {duration_text(need.wait)});
  if (need.lead() >= noticeable) text = t("need.early", {duration_text(need.lead())});
  return need.requested ? t("need.and-asked", {text}) : text;
}

}  // namespace beforehand::stage
