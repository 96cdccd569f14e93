// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "records.hpp"
#include "records/verify.hpp"
#include "records_json.hpp"

// The commands of the store that only read.

namespace beforehand::command {
namespace {

using nlohmann::ordered_json;
using records::Person;
using records::Store;
using Part = Person::Part;

std::string short_time(records::Moment t) {
  auto text = moment_text(t);
  if (text.size() > 16) text[10] = ' ', text.resize(16);
  return text;
}

void print_sessions(const std::vector<records::SessionRecord>& list) {
  if (list.empty()) {
    fmt::print("No drill is saved yet. Practise in the window, or with: drill FILE --save\n");
    return;
  }
  fmt::print("{:<36}  {:<16}  {:<22}  {:<8}  {:>6}  {}\n", "session", "started (UTC)", "scenario",
             "level", "total", "verdict");
  for (const auto& s : list)
    fmt::print("{:<36}  {:<16}  {:<22}  {:<8}  {:>6.1f}  {}{}{}\n", s.id, short_time(s.started),
               s.scenario, drill::word(s.level), s.total, scoring::word(s.verdict),
               s.complete ? "" : ", interrupted", s.phase.empty() ? "" : ", only " + s.phase);
}

void print_summaries(const std::vector<records::Summary>& list) {
  if (list.empty()) {
    fmt::print("Nobody has practised yet. Add somebody with: records trainee add NAME\n");
    return;
  }
  fmt::print("{:<28}  {:<22}  {:>8}  {:>6}  {:>6}  {:>6}  {:<9}  {}\n", "trainee", "scenario",
             "sessions", "last", "best", "trend", "verdict", "signed off");
  for (const auto& s : list)
    fmt::print("{:<28}  {:<22}  {:>8}  {:>6.1f}  {:>6.1f}  {:>+6.1f}  {:<9}  {}\n", s.trainee_name,
               s.scenario, s.sessions, s.last, s.best, s.trend, scoring::word(s.last_verdict),
               s.signed_off ? "yes" : "no");
}

template <class List>
ordered_json json_of(const List& list) {
  auto all = ordered_json::array();
  for (const auto& item : list) all.push_back(to_json(item));
  return all;
}

int list(Store& store, const RecordsOptions& o) {
  const bool json = o.format == "json";
  if (!o.trainee.empty()) {
    records::SessionQuery q;
    q.trainee = required_trainee(store, o, o.trainee).id;
    q.scenario = o.scenario;
    q.limit = o.limit;
    const auto found = store.sessions(q);
    json ? print_json({{"sessions", json_of(found)}}) : print_sessions(found);
    return done;
  }
  required_trainer(store, o);
  records::SummaryQuery q;
  q.scenario = o.scenario;
  q.search = o.name;
  const auto found = store.summaries(q);
  json ? print_json({{"trainees", json_of(found)}}) : print_summaries(found);
  return done;
}

void print_session(const records::SessionRecord& s, const records::Evidence& e) {
  print_sessions({s});
  fmt::print(
      "\nanticipation {:.3f}   idle {:.3f}   sequence {:.3f}   chair time {} (reference {}{})\n"
      "clinician waited {}   requests {}   errors {}{}\nplayed by {}, seed {}, program {}\n\n",
      s.anticipation, s.idle, s.sequence, duration_text(s.chair_time),
      duration_text(s.reference.chair_time), s.reference.proven ? ", proven" : "",
      duration_text(s.clinician_wait), s.requests, s.errors, s.unsafe ? ", one of them unsafe" : "",
      s.assistant, s.seed, s.program);
  for (const auto& n : e.needs)
    fmt::print("  {:>6}  {:<28}  for {:<24}  lead {:>+7.1f} s{}{}\n", clock_text(n.due_at), n.need,
               n.step, to_seconds(n.lead()), n.requested ? ", asked for" : "",
               n.helped ? ", fetched by the clinician" : "");
}

int show(Store& store, const RecordsOptions& o) {
  const auto s = store.session(o.session);
  // Whoever may not see it is not told that it exists.
  if (!s) {
    if (!o.trainer.empty()) required_trainer(store, o);
    throw Failure(input_at_fault, "the store has no session " + o.session);
  }
  required_trainee(store, o, s->trainee);
  const auto e = store.evidence(s->id);
  if (o.format != "json") {
    print_session(*s, e);
    return done;
  }
  auto j = to_json(*s);
  j.update(to_json(e));
  print_json(j);
  return done;
}

std::vector<records::SessionRecord> every_session(const Store& store, const records::Id& trainee) {
  records::SessionQuery q;
  q.trainee = trainee;
  q.oldest_first = true;
  q.limit = 1'000'000;
  return store.sessions(q);
}

int person(Store& store, const RecordsOptions& o) {
  const auto who = required_trainee(store, o, o.name);
  records::SummaryQuery q;
  q.trainee = who.id;
  q.with_history = true;
  const auto summaries = store.summaries(q);
  const auto sessions = every_session(store, who.id);
  const auto sign_offs = store.sign_offs(who.id);
  const auto notes = store.notes(who.id);
  if (o.format != "json") {
    fmt::print("{} ({}), added {}\n\n", who.name, who.id, short_time(who.added));
    print_summaries(summaries);
    fmt::print("\n");
    print_sessions(sessions);
    for (const auto& s : sign_offs)
      fmt::print("\nsign-off {} for {} by {}, {}{}\n{}{}\n", s.id, s.scenario, s.trainer_name,
                 short_time(s.at), s.stands() ? "" : ", revoked: " + s.revoked_why, s.criteria,
                 s.note);
    for (const auto& n : notes) fmt::print("\nnote, {}: {}\n", short_time(n.at), n.text);
    return done;
  }
  auto all = ordered_json::array();
  for (const auto& s : sessions) {
    auto j = to_json(s);
    j.update(to_json(store.evidence(s.id)));
    all.push_back(std::move(j));
  }
  print_json({{"person", to_json(who)},
              {"standing", json_of(summaries)},
              {"sessions", all},
              {"sign_offs", json_of(sign_offs)},
              {"notes", json_of(notes)}});
  return done;
}

void print_verification(const records::Verification& v) {
  fmt::print("{} links: {} sessions, {} sign-offs, {} erased\n", v.links, v.sessions, v.sign_offs,
             v.erased);
  for (const auto& f : v.findings)
    fmt::print("{}: {} {}{}\n", word(f.kind),
               f.position > 0 ? fmt::format("link {},", f.position) : "", f.record,
               (f.record.empty() ? "" : ": ") + f.what);
  fmt::print("{}\nhead {} {}\n",
             v.sound() ? "Sound: every record is as it was saved."
                       : "NOT sound: do not rely on the records above; compare with a backup.",
             v.head.position, v.head.hash);
}

int verify(Store& store, const RecordsOptions& o) {
  records::VerifyOptions options;
  options.recompute = !o.hashes_only;
  options.expect = o.expect;
  const auto v = records::verify(store, options);
  if (o.format == "json") {
    auto findings = ordered_json::array();
    for (const auto& f : v.findings)
      findings.push_back({{"kind", word(f.kind)},
                          {"position", f.position},
                          {"record", f.record},
                          {"what", f.what}});
    print_json({{"sound", v.sound()},
                {"links", v.links},
                {"sessions", v.sessions},
                {"sign_offs", v.sign_offs},
                {"erased", v.erased},
                {"head", {{"position", v.head.position}, {"hash", v.head.hash}}},
                {"findings", findings}});
  } else {
    print_verification(v);
  }
  if (o.mend) store.mend_summaries();
  return v.sound() ? done : input_at_fault;
}

int people(Store& store, const RecordsOptions& o, Part part) {
  // Names of trainees are shown to whoever may pick one in the window; nothing else is.
  const auto list = store.people(part);
  if (o.format == "json") {
    print_json({{"people", json_of(list)}});
    return done;
  }
  if (list.empty())
    fmt::print("No {} yet. Add one with: records {} add NAME\n", word(part), word(part));
  for (const auto& p : list) fmt::print("{}  {}{}\n", p.id, p.name, p.locked ? "  (passcode)" : "");
  return done;
}

}  // namespace

int records_list(const RecordsOptions& o) {
  return with_store(o, [&](Store& s) { return list(s, o); });
}
int records_show(const RecordsOptions& o) {
  return with_store(o, [&](Store& s) { return show(s, o); });
}
int records_person(const RecordsOptions& o) {
  return with_store(o, [&](Store& s) { return person(s, o); });
}
int records_verify(const RecordsOptions& o) {
  return with_store(o, [&](Store& s) { return verify(s, o); });
}
int records_people(const RecordsOptions& o, Part part) {
  return with_store(o, [&](Store& s) { return people(s, o, part); });
}

}  // namespace beforehand::command
