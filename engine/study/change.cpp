// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/change.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "procedure/edit.hpp"
#include "study/phrases.hpp"

namespace beforehand::study {
namespace {

using procedure::Link;
using procedure::Motion;
using procedure::PlaceKind;
using procedure::Procedure;
using procedure::Role;
using procedure::Step;
using procedure::Verb;

bool clinicians(const Procedure& p, PersonIx who) { return p.person(who).role == Role::clinician; }

std::string by_list(const Procedure& p, const std::vector<PersonIx>& by) {
  std::string list;
  for (const auto who : by) list += (list.empty() ? "[" : ", ") + p.person(who).id;
  return list + "]";
}

// Handing something over takes two, so nobody hands over to himself or herself.
bool takes_two(const Step& s) { return s.verb == Verb::pass || s.verb == Verb::take_back; }

// Written links come first, as they are in the file; what is derived follows.
std::size_t written_links(const Step& s) {
  return static_cast<std::size_t>(
      std::count_if(s.after.begin(), s.after.end(), [](const Link& l) { return !l.implied; }));
}

class Finder {
 public:
  explicit Finder(const Procedure& p) : p_(p), say_(phrases(p.language)) {}

  std::vector<Change> find() {
    for (const auto& step : p_.steps) {
      other_roles(step);
      before_the_patient(step);
      earlier_cues(step);
    }
    for (std::size_t i = 0; i < p_.supplies.size(); ++i) nearer_supply(SupplyIx{i});
    for (std::size_t i = 0; i < p_.places.size(); ++i) nearer_place(PlaceIx{i});
    return std::move(found_);
  }

 private:
  void add(Change::Kind kind, std::string words, std::string_view caution,
           std::vector<Edit> edits) {
    found_.push_back({kind, std::move(words), std::string(caution), std::move(edits)});
  }

  void give_to(const Step& s, std::vector<PersonIx> by, std::string words) {
    add(Change::Kind::other_role, std::move(words), say_.other_caution,
        {{fmt::format("steps/{}/by", s.id), by_list(p_, by)}});
  }

  void other_roles(const Step& s) {
    if (s.verb == Verb::work) return;
    if (s.supply && p_.supply(s.supply).cleans_hands) return;  // everybody cleans their own
    for (std::size_t i = 1; i < s.by.size(); ++i) {
      auto by = s.by;
      std::rotate(by.begin(), by.begin() + static_cast<std::ptrdiff_t>(i),
                  by.begin() + static_cast<std::ptrdiff_t>(i) + 1);
      give_to(s, by,
              filled(say_.other_first, p_.person(by[0]).name, s.title, p_.person(by[1]).name));
    }
    if (std::all_of(s.by.begin(), s.by.end(), [&](PersonIx who) { return clinicians(p_, who); }))
      return;
    for (std::size_t i = 0; i < p_.people.size(); ++i) {
      const PersonIx other{i};
      if (std::find(s.by.begin(), s.by.end(), other) != s.by.end()) continue;
      if (clinicians(p_, other) && (takes_two(s) || s.is_cover())) continue;
      auto by = s.by;
      by.push_back(other);
      give_to(s, by,
              filled(say_.other_too, p_.person(other).name, s.title, p_.person(s.by.front()).name));
    }
  }

  // The path of a written link: a single one may stand without brackets.
  static std::string link_path(const Step& s, std::size_t i) {
    return fmt::format("steps/{}/after/{}", s.id, i);
  }

  void before_the_patient(const Step& s) {
    const bool prepares = procedure::prepares(s.verb);
    if (!prepares && s.verb != Verb::set_out) return;
    const auto& supply = p_.supply(s.supply);
    const bool first = std::none_of(p_.steps.begin(), p_.steps.end(),
                                    [&](const Step& o) { return o.supply == s.supply && &o < &s; });
    if (!first || supply.working_time != never || !s.when.empty() || !s.unless.empty()) return;
    if (written_links(s) > 0) return;  // what it comes after would come loose
    std::vector<Edit> edits{
        {fmt::format("supplies/{}/starts", supply.id), prepares ? "prepared" : "set-out"}};
    for (const auto& other : p_.steps) {
      for (std::size_t i = written_links(other); i-- > 0;)
        if (&p_.step(other.after[i].step) == &s) edits.push_back({link_path(other, i), ""});
    }
    edits.push_back({fmt::format("steps/{}", s.id), ""});
    add(Change::Kind::beforehand, filled(say_.beforehand, s.title),
        prepares ? say_.keeps_that_long : say_.keep_covered, std::move(edits));
  }

  void earlier_cues(const Step& s) {
    if (clinicians(p_, s.by.front()) || procedure::acts_on_patient(s.verb) || s.is_cover() ||
        s.verb == Verb::place || s.verb == Verb::remove || s.verb == Verb::suction ||
        s.verb == Verb::hold)
      return;
    for (std::size_t i = 0; i < written_links(s); ++i) {
      const Link& link = s.after[i];
      const Step& before = p_.step(link.step);
      if (link.unsafe || link.from == procedure::Anchor::start || link.at_least > Ms{0}) continue;
      if (!clinicians(p_, before.by.front()) || link.step == s.serves) continue;
      const bool plain = link.at_most == never && link.why.empty() && link.if_late.empty();
      const Edit edit =
          plain ? Edit{link_path(s, i), fmt::format("{{step: {}, from: start}}", before.id)}
                : Edit{link_path(s, i) + "/from", "start"};
      add(Change::Kind::earlier_cue, filled(say_.earlier, s.title, before.title),
          say_.keeps_until_used, {edit});
    }
  }

  bool reached_for(auto&& is_there) const {
    return std::any_of(p_.steps.begin(), p_.steps.end(),
                       [&](const Step& s) { return s.reach > Ms{0} && is_there(s); });
  }

  std::optional<PlaceIx> easier_place(PlaceIx than) const {
    std::optional<PlaceIx> best;
    for (std::size_t i = 0; i < p_.places.size(); ++i) {
      const auto& place = p_.places[i];
      if (place.kind != PlaceKind::tray && place.kind != PlaceKind::holder &&
          place.kind != PlaceKind::counter)
        continue;
      const Motion best_yet = best ? p_.place(*best).motion : p_.place(than).motion;
      const bool less = procedure::reach_time(place.motion) < procedure::reach_time(best_yet);
      if (less) best = PlaceIx{i};
    }
    return best;
  }

  void nearer_supply(SupplyIx ix) {
    const auto& supply = p_.supply(ix);
    const auto used = [&](const Step& s) {
      return s.supply == ix && s.verb != Verb::set_out && s.verb != Verb::put_away;
    };
    if (!reached_for(used)) return;
    const auto nearer = easier_place(supply.at);
    if (!nearer) return;
    const auto &now = p_.place(supply.at), &then = p_.place(*nearer);
    add(Change::Kind::nearer_supply,
        filled(say_.nearer_supply, supply.name, then.name, word(then.motion), now.name,
               word(now.motion)),
        say_.nearer_supply_caution, {{fmt::format("supplies/{}/at", supply.id), then.id}});
  }

  void nearer_place(PlaceIx ix) {
    const auto& place = p_.place(ix);
    const auto there = [&](const Step& s) {
      if (!s.supply) return false;
      const auto& supply = p_.supply(s.supply);
      return (s.verb == Verb::set_out    ? supply.stored
              : s.verb == Verb::put_away ? supply.ends
                                         : supply.at) == ix;
    };
    if (procedure::reach_time(place.motion) == Ms{0} || !reached_for(there)) return;
    add(Change::Kind::nearer_place, filled(say_.nearer_place, place.name, word(place.motion)),
        say_.nearer_place_caution, {{fmt::format("places/{}/motion", place.id), "II"}});
  }

  const Procedure& p_;
  const Phrases& say_;
  std::vector<Change> found_;
};

std::string with_edit(const std::string& yaml, const Edit& e) {
  if (!e.value.empty()) return procedure::with_value(yaml, e.path, e.value);
  return procedure::without(yaml, e.path);
}

// "steps/x/after/0" is "steps/x/after" where a single link stands without brackets, or alone.
std::optional<Edit> of_single_link(const Edit& e) {
  const auto at = e.path.find("/after/0");
  if (at == std::string::npos) return std::nullopt;
  auto path = e.path;
  path.erase(at + 6, 2);
  return Edit{path, e.value};
}

}  // namespace

std::string_view word(Change::Kind k) {
  constexpr std::string_view words[]{"other-role", "beforehand", "nearer-supply", "nearer-place",
                                     "earlier-cue"};
  return words[static_cast<std::size_t>(k)];
}

std::vector<Change> possible_changes(const Procedure& p) { return Finder(p).find(); }

std::string applied(std::string yaml, const Change& change) {
  for (const auto& edit : change.edits) try {
      yaml = with_edit(yaml, edit);
    } catch (const procedure::EditError&) {
      const auto single = of_single_link(edit);
      if (!single) throw;
      yaml = with_edit(yaml, *single);
    }
  return yaml;
}

}  // namespace beforehand::study
