// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>

#include "drill/recording.hpp"
#include "language.hpp"
#include "picture/report_words.hpp"
#include "picture/review_words.hpp"
#include "records.hpp"
#include "records/gather.hpp"
#include "records/verify.hpp"
#include "records_json.hpp"
#include "replay.hpp"

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
    fmt::print("Nothing practised yet. Practise in the window, or with: drill FILE --save\n");
    return;
  }
  fmt::print("{:<22}  {:>8}  {:>6}  {:>6}  {:>6}  {:<9}  {}\n", "scenario", "sessions", "last",
             "best", "trend", "verdict", "signed off");
  for (const auto& s : list)
    fmt::print("{:<22}  {:>8}  {:>6.1f}  {:>6.1f}  {:>+6.1f}  {:<9}  {}\n", s.scenario, s.sessions,
               s.last, s.best, s.trend, scoring::word(s.last_verdict), s.signed_off ? "yes" : "no");
}

template <class List>
ordered_json json_of(const List& list) {
  auto all = ordered_json::array();
  for (const auto& item : list) all.push_back(to_json(item));
  return all;
}

// The position of a word among those that the option takes.
template <std::size_t N>
std::size_t among(const std::array<std::string_view, N>& words, const std::string& word) {
  return static_cast<std::size_t>(std::find(words.begin(), words.end(), word) - words.begin());
}

records::CohortView view_of(const RecordsOptions& o) {
  static constexpr std::array<std::string_view, records::CohortView::columns> columns = {
      "trainee", "scenario", "standing", "verdict", "last", "best", "trend", "due", "drills"};
  static constexpr std::array<std::string_view, records::CohortView::onlys> onlys = {
      "everybody", "to-sign-off", "practising", "due", "signed-off"};
  return {o.name, static_cast<records::CohortView::Only>(among(onlys, o.only)),
          static_cast<records::CohortView::Column>(among(columns, o.sort)), o.reverse};
}

void print_cohort(const records::CohortTable& table) {
  if (table.all() == 0) {
    fmt::print("Nobody has practised yet. Add somebody with: records trainee add NAME\n");
    return;
  }
  fmt::print("{:<28}  {:<22}  {:<17}  {:<9}  {:>6}  {:>6}  {:>6}  {:<10}  {:>6}\n", "trainee",
             "scenario", "standing", "verdict", "last", "best", "trend", "due", "drills");
  for (std::size_t i = 0; i < table.size(); ++i) {
    const auto& r = table[i];
    const auto& s = r.summary;
    fmt::print("{:<28}  {:<22}  {:<17}  {:<9}  {:>6.1f}  {:>6.1f}  {:>+6.1f}  {:<10}  {:>6}\n",
               s.trainee_name, s.scenario, word(r.readiness), scoring::word(s.last_verdict), s.last,
               s.best, s.trend, s.completed > 0 ? records::day_text(r.due) : "-", s.sessions);
  }
  if (table.size() == 0) fmt::print("Nobody fits; leave out --search or --only.\n");
}

int list_everybody(Store& store, const RecordsOptions& o) {
  required_trainer(store, o);
  records::SummaryQuery q;
  q.scenario = o.scenario;
  records::Library library(store);
  records::CohortTable table(cohort_rows(store, library, q), store.now());
  table.show(view_of(o));
  if (o.format != "json") {
    print_cohort(table);
    return done;
  }
  auto rows = ordered_json::array();
  for (std::size_t i = 0; i < table.size(); ++i) {
    auto j = to_json(table[i].summary);
    j["standing"] = word(table[i].readiness);
    j["due"] = table[i].summary.completed > 0 ? ordered_json(moment_text(table[i].due)) : nullptr;
    rows.push_back(std::move(j));
  }
  print_json({{"trainees", rows}});
  return done;
}

int list(Store& store, const RecordsOptions& o) {
  if (o.trainee.empty()) return list_everybody(store, o);
  records::SessionQuery q;
  q.trainee = required_trainee(store, o, o.trainee).id;
  q.scenario = o.scenario;
  q.limit = o.limit;
  const auto found = store.sessions(q);
  o.format == "json" ? print_json({{"sessions", json_of(found)}}) : print_sessions(found);
  return done;
}

int steps(Store& store, const RecordsOptions& o) {
  required_trainer(store, o);
  records::SummaryQuery q;
  q.scenario = o.scenario;
  q.search = o.name;
  q.with_history = true;
  const auto map = records::heat_map(store.summaries(q));
  if (o.format == "json") {
    auto rows = ordered_json::array();
    for (std::size_t i = 0; i < map.steps.size(); ++i) {
      auto cells = ordered_json::array();
      for (const auto& c : map.cells[i])
        cells.push_back(
            {{"attempts", c.attempts}, {"passed", c.passed}, {"evidence", c.competent}});
      rows.push_back({{"step", map.steps[i]}, {"cells", cells}});
    }
    print_json({{"trainees", map.trainees}, {"steps", rows}});
    return done;
  }
  if (map.steps.empty())
    fmt::print("No step of {} was tried unaided yet; records list shows what was played.\n",
               o.scenario);
  for (std::size_t i = 0; i < map.steps.size(); ++i) {
    fmt::print("{}\n", map.steps[i]);
    for (std::size_t k = 0; k < map.trainees.size(); ++k)
      if (const auto& c = map.cells[i][k]; c.attempts > 0)
        fmt::print("  {:<28}  {}/{}{}\n", map.trainees[k], c.passed, c.attempts,
                   c.competent ? "  evidence complete" : "");
  }
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
  if (e.around.empty()) return;
  fmt::print("\n");
  for (const auto& line : picture::around_words(e.around, texts_in("en")))
    fmt::print("  {}\n", line);
}

// Whoever may not see it is not told that it exists.
records::SessionRecord seen(Store& store, const RecordsOptions& o, const std::string& id) {
  const auto s = store.session(id);
  if (!s) {
    if (!o.trainer.empty()) required_trainer(store, o);
    throw Failure(input_at_fault, "the store has no session " + id);
  }
  required_trainee(store, o, s->trainee);
  return *s;
}

// One session to be played again, or two.
std::vector<stage::Played> required_played(Store& store, const RecordsOptions& o) {
  std::vector<stage::Played> played;
  records::Library library(store);
  for (const auto& id : {o.session, o.other}) {
    if (id.empty()) continue;
    seen(store, o, id);
    try {
      played.push_back(stage::stored_session(store, library, id));
    } catch (const drill::RecordingError& e) {
      throw Failure(input_at_fault, e.what());
    }
  }
  return played;
}

std::string lead_text(const std::optional<records::NeedRecord>& n) {
  if (!n) return "-";
  return fmt::format("{:+.1f} s{}", to_seconds(n->lead()),
                     n->helped      ? " !"
                     : n->requested ? " ?"
                                    : "");
}

ordered_json json_or_null(const std::optional<records::NeedRecord>& n) {
  return n ? to_json(records::Evidence{{}, {*n}})["needs"][0] : ordered_json();
}

int side_by_side(Store& store, const RecordsOptions& o) {
  const auto first = seen(store, o, o.session), second = seen(store, o, o.other);
  if (first.scenario != second.scenario)
    throw Failure(input_at_fault, fmt::format("they are of two scenarios, {} and {}",
                                              first.scenario, second.scenario));
  const auto pairs =
      records::side_by_side(store.evidence(first.id).needs, store.evidence(second.id).needs);
  if (o.format == "json") {
    auto needs = ordered_json::array();
    for (const auto& p : pairs)
      needs.push_back({{"step", p.step},
                       {"need", p.need},
                       {"first", json_or_null(p.first)},
                       {"second", json_or_null(p.second)}});
    print_json({{"first", to_json(first)}, {"second", to_json(second)}, {"needs", needs}});
    return done;
  }
  print_sessions({first, second});
  fmt::print("\n{:<28}  {:<28}  {:>12}  {:>12}\n", "need", "for", "first", "second");
  for (const auto& p : pairs)
    fmt::print("{:<28}  {:<28}  {:>12}  {:>12}\n", p.need, p.step, lead_text(p.first),
               lead_text(p.second));
  fmt::print(
      "Lead: positive, ready before it was needed. ?: asked for. !: fetched by the "
      "clinician.\n");
  return done;
}

int show(Store& store, const RecordsOptions& o) {
  if (!o.other.empty()) return side_by_side(store, o);
  const auto s = seen(store, o, o.session);
  const auto e = store.evidence(s.id);
  if (o.format != "json") {
    print_session(s, e);
    return done;
  }
  auto j = to_json(s);
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

// How far, by which law, and what to practise next and why.
void print_reviews(Store& store, const records::Person& who) {
  records::Library library(store);
  const auto file = trainee_file(store, library, who);
  const auto t = texts_in("en");
  for (std::size_t i = 0; i < file.scenarios.size(); ++i) {
    const auto& r = file.scenarios[i];
    const auto& p = *file.procedures[i];
    fmt::print("\n{}: {}\n", r.title, word(r.readiness));
    if (r.curve) fmt::print("  {}\n", picture::law_words(*r.curve, t));
    fmt::print("{}", r.next.empty() ? "  No step is weak or forgotten.\n" : "  Practise next:\n");
    for (std::size_t k = 0; k < std::min<std::size_t>(3, r.next.size()); ++k)
      fmt::print("  {}. {}: {}\n", k + 1, p.phases[r.next[k].phase.at()].title,
                 reason(p, r.next[k]));
    for (const auto& step : r.steps)
      if (!step.standing.competent() && step.standing.attempts > 0)
        fmt::print("    {:<44}  {} of the last {}, {}\n", step.title, step.recent_passed,
                   step.recent, picture::evidence_words(step.standing, t));
  }
  for (const auto& id : file.unread)
    fmt::print("\n{} is left out: this version cannot read its scenario\n", id);
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
    print_reviews(store, who);
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
int records_replay(const RecordsOptions& o) {
  std::vector<stage::Played> played;  // the store is closed before the window opens
  with_store(o, [&](Store& s) {
    played = required_played(s, o);
    return done;
  });
  return play_in_window(std::move(played), Ms{0});
}
int records_person(const RecordsOptions& o) {
  return with_store(o, [&](Store& s) { return person(s, o); });
}
int records_steps(const RecordsOptions& o) {
  return with_store(o, [&](Store& s) { return steps(s, o); });
}
int records_verify(const RecordsOptions& o) {
  return with_store(o, [&](Store& s) { return verify(s, o); });
}
int records_people(const RecordsOptions& o, Part part) {
  return with_store(o, [&](Store& s) { return people(s, o, part); });
}

}  // namespace beforehand::command
