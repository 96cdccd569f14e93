// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include "base/random.hpp"
#include "procedure/scenario_reader.hpp"

namespace beforehand::procedure {
namespace {

// Hours at which a zone begins and how many it spans, boundaries included, for a right-handed
// operator (Finkbeiner 2000): operator 7-12, assistant 2-4, transfer 4-7, static 12-2.
struct Span {
  double from, hours;
};
constexpr Span span_of(Zone zone) {
  switch (zone) {
    case Zone::operator_zone:
      return {7, 5};
    case Zone::assistant_zone:
      return {2, 2};
    case Zone::transfer_zone:
      return {4, 3};
    case Zone::static_zone:
      break;
  }
  return {12, 2};
}

bool lies_in(double hour, Zone zone) {
  const auto [from, hours] = span_of(zone);
  const double after = hour - from;
  return (after < 0 ? after + 12 : after) <= hours || after == 12;
}

std::string figure(double hour) { return fmt::format("{}", hour); }

Said hours_text(Zone zone) {
  const auto [from, hours] = span_of(zone);
  return say("{} to {}", figure(from),
             figure(from + hours > 12 ? from + hours - 12 : from + hours));
}

}  // namespace

Said ScenarioReader::owner(const char* kind, const Node& key) const {
  return say("{} {}", kind, shown(key.text));
}

template <class Ix>
ScenarioReader::Entries ScenarioReader::index(const Node* section, Directory<Ix>& directory) {
  Entries entries;
  if (!section) return entries;
  if (section->kind != Node::Kind::map) {
    report_.error(section->mark, say("\"{}\" needs ids with their keys here, as in "
                                     "\"id: {name: ...}\"",
                                     directory.section()));
    return entries;
  }
  if (section->items.empty())
    report_.error(section->mark, say("no {}; add at least one", directory.section()));
  for (std::size_t i = 0; i < section->items.size(); i += 2) {
    const Node& key = *section->items[i];
    if (key.kind != Node::Kind::text || directory.contains(key.text)) continue;  // reported
    if (!directory.add(key.text)) {
      report_.error(key.mark, say("more than {} {}", directory.most(), directory.section()));
      break;
    }
    check_id(key, report_);
    entries.push_back({&key, section->items[i + 1]});
  }
  return entries;
}

void ScenarioReader::read_parts(Fields& fields, const Node* steps) {
  const auto people = index(fields.demand("people"), people_);
  const auto places = index(fields.demand("places"), places_);
  const auto devices = index(fields.find("devices"), devices_);
  const auto supplies = index(fields.demand("supplies"), supplies_);
  const auto signals = index(fields.find("signals"), signals_);
  const auto phases = index(fields.demand("phases"), phases_);
  index_steps(steps);
  read_people(people);
  read_places(places);
  read_devices(devices);
  read_supplies(supplies);
  read_signals(signals);
  read_phases(phases);
}

void ScenarioReader::read_people(const Entries& entries) {
  for (const auto& [key, value] : entries) {
    Fields f(*value, owner("person", *key), report_);
    Person person;
    person.id = key->text;
    person.mark = key->mark;
    const Node* role = f.demand("role");
    const auto known_role = role ? Form<Role>::read(*role, report_) : std::nullopt;
    person.name = f.required<Title>("name");
    person.hands = f.optional<Count>("hands", 2);
    f.finish();
    if (person.hands < 1 || person.hands > 2)
      report_.error(key->mark, say("{} has 1 or 2 hands, not {}", f.owner(), person.hands));
    if (known_role && p_.who(*known_role))
      report_.error(key->mark,
                    say("{} is a second {}; each role stands once", f.owner(), word(*known_role)));
    person.role = known_role.value_or(Role::second_assistant);
    roles_are_known_ = roles_are_known_ && known_role;
    p_.people.push_back(std::move(person));
  }
  if (roles_are_known_ && !entries.empty()) check_roles(entries.front().key->mark);
}

void ScenarioReader::check_roles(Mark mark) {
  for (const Role role : {Role::clinician, Role::assistant}) {
    if (!p_.who(role))
      report_.error(mark, say("nobody has the role \"{}\"; add a person who has", word(role)));
  }
}

void ScenarioReader::read_places(const Entries& entries) {
  for (const auto& [key, value] : entries) {
    Fields f(*value, owner("place", *key), report_);
    Place place;
    place.id = key->text;
    place.mark = key->mark;
    place.name = f.required<Title>("name");
    place.clock_hour = f.required<Clock>("clock");
    const Node* zone = f.demand("zone");
    const auto known_zone = zone ? Form<Zone>::read(*zone, report_) : std::nullopt;
    place.motion = f.required<Motion>("motion");
    place.kind = f.required<PlaceKind>("kind");
    if (const Node* inside = f.find("inside")) place.inside = supplies_.find(*inside, report_);
    f.finish();
    if (known_zone) place.zone = *known_zone;
    if (known_zone && place.clock_hour > 0 && !lies_in(place.clock_hour, place.zone))
      report_.slip(zone->mark,
                   say("{} o'clock does not lie in the {} zone, which goes from "
                       "{} o'clock",
                       figure(place.clock_hour), word(place.zone), hours_text(place.zone)));
    p_.places.push_back(std::move(place));
  }
}

void ScenarioReader::read_devices(const Entries& entries) {
  for (const auto& [key, value] : entries) {
    Fields f(*value, owner("device", *key), report_);
    p_.devices.push_back({key->text, f.required<Title>("name"), key->mark});
    f.finish();
  }
}

void ScenarioReader::read_supplies(const Entries& entries) {
  const auto place = [&](const Node* node) {
    return node ? places_.find(*node, report_) : PlaceIx{};
  };
  for (const auto& [key, value] : entries) {
    Fields f(*value, owner("supply", *key), report_);
    Supply s;
    s.id = key->text;
    s.mark = key->mark;
    s.name = f.required<Title>("name");
    s.icon = f.required<Id>("icon");
    s.stored = place(f.find("stored"));
    s.at = place(f.demand("at"));
    s.ends = place(f.find("ends"));
    const Node* starts = f.find("starts");
    starts_is_given_.push_back(starts != nullptr);
    if (starts) s.starts = Form<SupplyState>::read(*starts, report_).value_or(s.starts);
    s.after_use = f.optional<AfterUse>("after-use", AfterUse::soiled);
    s.working_time = f.optional<Ms>("working-time", never);
    s.material = f.optional<Id>("material");
    take_working_time(s);
    s.sets_as = f.optional<Title>("sets-as", std::string("set"));
    read_set<Hazard>(f.find("hazards"), s.hazards);
    s.cleans_hands = f.optional<bool>("cleans-hands", false);
    s.caution = f.optional<Prose>("caution");
    f.finish();
    p_.supplies.push_back(std::move(s));
  }
}

void ScenarioReader::take_working_time(Supply& s) {
  const auto* material = materials_ && !s.material.empty() ? materials_->find(s.material) : nullptr;
  const auto time = material ? material->time(MaterialTime::working) : std::nullopt;
  if (!time || *time == s.working_time) return;
  s.working_time = *time;
  note_taken(s.id, *time);
}

// What a materials file changes belongs to what was played; what it leaves does not.
void ScenarioReader::note_taken(const std::string& id, Ms time) {
  p_.fingerprint = fnv1a(fmt::format("{}={};", id, time.count()), p_.fingerprint);
}

void ScenarioReader::read_signals(const Entries& entries) {
  for (const auto& [key, value] : entries) {
    Fields f(*value, owner("signal", *key), report_);
    Signal s;
    s.id = key->text;
    s.mark = key->mark;
    s.title = f.required<Title>("title");
    s.cue = f.required<Prose>("cue");
    s.why = f.optional<Prose>("why");
    s.likely_percent = f.required<Percent>("likely");
    if (const Node* after = f.demand("after")) s.after = steps_.find(*after, report_);
    s.from_start = f.optional<Anchor>("from", Anchor::end) == Anchor::start;
    s.delay = f.optional<Ms>("delay", Ms{0});
    for_each_item(f.find("foretold"), [&](const Node& item) { read_foretold(item, s); });
    read_set<Field>(f.find("leaves"), s.leaves);
    f.finish();
    p_.signals.push_back(std::move(s));
  }
}

void ScenarioReader::read_foretold(const Node& node, Signal& signal) {
  Fields f(node, "foretold", report_);
  Foretold foretold;
  if (const Node* by = f.demand("by")) foretold.by = signals_.find(*by, report_);
  foretold.likely_percent = f.required<Percent>("likely");
  f.finish();
  if (foretold.by) signal.foretold.push_back(foretold);
}

void ScenarioReader::read_phases(const Entries& entries) {
  for (const auto& [key, value] : entries) {
    Fields f(*value, owner("phase", *key), report_);
    p_.phases.push_back({key->text, f.required<Title>("title"), key->mark});
    f.finish();
  }
}

}  // namespace beforehand::procedure
