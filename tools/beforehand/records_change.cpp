// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "procedure/reader.hpp"
#include "records.hpp"
#include "records/queue.hpp"
#include "records/save.hpp"
#include "records/sign_off.hpp"
#include "records_json.hpp"
#include "stage/app.hpp"

// The commands of the store that add, sign, revoke and erase.

namespace beforehand::command {
namespace {

using records::Person;
using records::Store;
using Part = Person::Part;

void say(const RecordsOptions& o, const nlohmann::ordered_json& j, const std::string& text) {
  if (o.format == "json")
    print_json(j);
  else
    fmt::print("{}\n", text);
}

int add(Store& store, const RecordsOptions& o, Part part) {
  const bool trainer = part == Part::trainer;
  // The first trainer of a store is whoever sets it up.
  if (trainer && !store.people(Part::trainer).empty()) required_trainer(store, o);
  const auto passcode = trainer || o.locked ? new_passcode(o.name) : "";
  const auto p = store.add_person(part, o.name, passcode);
  say(o, to_json(p), fmt::format("Added the {} {} ({}).", word(part), p.name, p.id));
  return done;
}

int set_passcode(Store& store, const RecordsOptions& o, Part part) {
  const auto p = store.person(part, o.name);
  // Their own old one, or any trainer's word.
  if (o.trainer.empty() && p.locked)
    prove(store, p, o);
  else
    required_trainer(store, o);
  store.set_passcode(p.id, new_passcode(p.name));
  say(o, to_json(store.person(part, p.id)), fmt::format("{} has a new passcode.", p.name));
  return done;
}

int sign(Store& store, const RecordsOptions& o) {
  const auto trainer = required_trainer(store, o);
  const auto trainee = store.person(Part::trainee, o.trainee);
  const auto p = load_scenario(find_scenario(o.scenario));
  const auto text = procedure::load_text(find_scenario(o.scenario));
  const auto list = records::criteria(p, store, trainee.id);
  const auto words = records::in_words(p, list);
  if (!records::all_met(list) && !o.although_unmet)
    throw Failure(input_at_fault,
                  fmt::format("{} was not signed off for {}:\n{}To sign all the same, add "
                              "--although-unmet and say why with --note",
                              trainee.name, p.title, words));
  if (!records::all_met(list) && o.note.empty()) throw Failure(wrong_usage, "say why with --note");
  records::SignOff s;
  s.trainee = trainee.id;
  s.trainer = trainer.id;
  s.scenario = p.id;
  s.scenario_hash = records::scenario_hash(text);
  s.criteria = words;
  s.note = o.note;
  s = store.sign(s);
  s.trainer_name = trainer.name;
  say(o, to_json(s),
      fmt::format("{} is signed off for {} by {} ({}).\n{}", trainee.name, p.title, trainer.name,
                  s.id, words));
  return done;
}

int revoke(Store& store, const RecordsOptions& o) {
  const auto trainer = required_trainer(store, o);
  store.revoke(o.sign_off, trainer.id, o.note);
  say(o, {{"revoked", o.sign_off}}, "Revoked. The sign-off stays on record as revoked.");
  return done;
}

int note(Store& store, const RecordsOptions& o) {
  const auto trainer = required_trainer(store, o);
  records::Note n;
  n.trainee = store.person(Part::trainee, o.trainee).id;
  n.trainer = trainer.id;
  n.session = o.session;
  n.text = o.note;
  n = store.add_note(n);
  say(o, to_json(n), "Noted.");
  return done;
}

int erase(Store& store, const RecordsOptions& o) {
  required_trainer(store, o);
  const auto p = store.person(Part::trainee, o.name);
  if (!o.sure)
    throw Failure(wrong_usage,
                  fmt::format("this removes {} and every drill, note and sign-off of theirs for "
                              "good; hand them a copy first (records person), then add --yes",
                              p.name));
  store.erase(p.id);
  say(o, {{"erased", p.id}},
      fmt::format("{} was erased from this store. Backups, merged stores, exports and the "
                  "recordings folder are separate: see to them too.",
                  p.name));
  return done;
}

int backup(Store& store, const RecordsOptions& o) {
  if (!store.people(Part::trainer).empty()) required_trainer(store, o);
  store.backup(o.file);
  say(o, {{"backup", o.file}}, "The store was copied to " + o.file);
  return done;
}

int merge(Store& store, const RecordsOptions& o) {
  required_trainer(store, o);
  const auto other = Store::open(o.file, [] { return wall_clock(); });
  const auto m = store.merge(other);
  auto erased = nlohmann::ordered_json::array();
  for (const auto& p : m.erased_there) erased.push_back(to_json(p));
  std::string text = fmt::format("{} sessions, {} people, {} sign-offs and {} notes came over.",
                                 m.sessions, m.people, m.sign_offs, m.notes);
  for (const auto& id : m.damaged)
    text += fmt::format("\nnot taken: session {} does not fit its hash there", id);
  for (const auto& id : m.differing)
    text += fmt::format("\ndiffers: session {} is not the same there; ours stays", id);
  for (const auto& p : m.erased_there)
    text +=
        fmt::format("\nerased there: {} ({}); erase here too if that was asked for", p.name, p.id);
  say(o,
      {{"sessions", m.sessions},
       {"people", m.people},
       {"sign_offs", m.sign_offs},
       {"notes", m.notes},
       {"damaged", m.damaged},
       {"differing", m.differing},
       {"erased_there", erased}},
      text);
  return m.damaged.empty() && m.differing.empty() ? done : input_at_fault;
}

}  // namespace

int records_add(const RecordsOptions& o, Part part) {
  return with_store(o, [&](Store& s) { return add(s, o, part); });
}
int records_passcode(const RecordsOptions& o, Part part) {
  return with_store(o, [&](Store& s) { return set_passcode(s, o, part); });
}
int records_sign(const RecordsOptions& o) {
  return with_store(o, [&](Store& s) { return sign(s, o); });
}
int records_revoke(const RecordsOptions& o) {
  return with_store(o, [&](Store& s) { return revoke(s, o); });
}
int records_note(const RecordsOptions& o) {
  return with_store(o, [&](Store& s) { return note(s, o); });
}
int records_erase(const RecordsOptions& o) {
  return with_store(o, [&](Store& s) { return erase(s, o); });
}
int records_backup(const RecordsOptions& o) {
  return with_store(o, [&](Store& s) { return backup(s, o); });
}
int records_merge(const RecordsOptions& o) {
  return with_store(o, [&](Store& s) { return merge(s, o); });
}

int records_deliver(const RecordsOptions& o) {
  const auto address = required_address(o.store);
  const auto d =
      records::Queue(stage::data_folder() + "/queue").deliver(address, [] { return wall_clock(); });
  std::string text = fmt::format("{} drills saved ({} of them interrupted), {} wait.", d.saved,
                                 d.interrupted, d.waiting);
  for (const auto& problem : d.problems) text += "\n" + problem;
  say(o,
      {{"saved", d.saved},
       {"interrupted", d.interrupted},
       {"waiting", d.waiting},
       {"problems", d.problems}},
      text);
  return d.problems.empty() ? done : environment_at_fault;
}

}  // namespace beforehand::command
