// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <algorithm>

#include "procedure/forms.hpp"
#include "procedure/texts.hpp"

namespace beforehand::procedure {
namespace {

class Slots {
 public:
  explicit Slots(Procedure& p) : p_(p) {}

  std::vector<TextSlot> collect() {
    title("title", p_.title);
    title("card-title", p_.card_title);
    prose("summary", p_.summary);
    prose("announces", p_.plan);
    for (std::size_t i = 0; i < p_.cautions.size(); ++i)
      prose(fmt::format("cautions/{}", i), p_.cautions[i]);
    for (auto& x : p_.people) title("people/" + x.id + "/name", x.name);
    for (auto& x : p_.places) title("places/" + x.id + "/name", x.name);
    for (auto& x : p_.devices) title("devices/" + x.id + "/name", x.name);
    for (auto& x : p_.supplies) add(x);
    for (auto& x : p_.signals) add(x);
    for (auto& x : p_.phases) title("phases/" + x.id + "/title", x.title);
    for (auto& x : p_.steps) add(x);
    return std::move(slots_);
  }

 private:
  void title(std::string path, std::string& text) {
    if (!text.empty()) slots_.push_back({std::move(path), &text, longest_title});
  }
  void prose(std::string path, std::string& text) {
    if (!text.empty()) slots_.push_back({std::move(path), &text, longest_prose});
  }

  void add(Supply& s) {
    const auto at = "supplies/" + s.id;
    title(at + "/name", s.name);
    if (s.working_time != never) title(at + "/sets-as", s.sets_as);
    prose(at + "/caution", s.caution);
  }

  void add(Signal& s) {
    const auto at = "signals/" + s.id;
    title(at + "/title", s.title);
    prose(at + "/cue", s.cue);
    prose(at + "/why", s.why);
  }

  void add(Step& s) {
    const auto at = "steps/" + s.id;
    title(at + "/title", s.title);
    prose(at + "/says", s.says);
    prose(at + "/cue", s.cue);
    prose(at + "/why", s.why);
    prose(at + "/caution", s.caution);
    std::vector<StepIx> told;
    for (Link& link : s.after) {
      if (link.implied || (link.if_late.empty() && link.why.empty())) continue;
      const auto before = std::count(told.begin(), told.end(), link.step);
      told.push_back(link.step);
      auto path = at + "/after/" + p_.step(link.step).id;
      if (before > 0) path += fmt::format("-{}", before + 1);
      title(path + "/if-late", link.if_late);
      prose(path + "/why", link.why);
    }
  }

  Procedure& p_;
  std::vector<TextSlot> slots_;
};

}  // namespace

std::vector<TextSlot> text_slots(Procedure& p) { return Slots(p).collect(); }

}  // namespace beforehand::procedure
