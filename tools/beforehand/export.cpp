// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/export.hpp"

#include <fmt/format.h>

#include <deque>
#include <map>
#include <nlohmann/json.hpp>

#include "drill/recording.hpp"
#include "records/gather.hpp"
#include "records_json.hpp"
#include "report.hpp"
#include "xapi_send.hpp"

namespace beforehand::command {
namespace {

using records::Store;

constexpr int all = 1'000'000;

// Recordings that cannot be read are said, and exported without their events.
void read_session(const Store& store, records::Library& library, records::SessionFile& f) {
  const auto evidence = store.evidence(f.record.id);
  f.needs = evidence.needs;
  f.procedure = library.version(f.record.scenario_hash);
  if (f.procedure == nullptr) return;
  try {
    f.session = drill::from_text(evidence.recording, *f.procedure, "session " + f.record.id);
  } catch (const drill::RecordingError& e) {
    fmt::print(stderr, "beforehand: {}; exported without its events\n", e.what());
    f.session = {};
  }
}

std::string exported(const std::vector<records::ExportSession>& list, const ExportOptions& o) {
  if (o.to == "xes") return to_xes(list);
  if (o.to == "xapi") return to_xapi(list, o.home, o.names);
  return o.table == "needs" ? needs_csv(list) : sessions_csv(list);
}

std::string export_text(Store& store, const ExportOptions& o, std::size_t& count) {
  records::SessionQuery query;
  query.scenario = o.scenario;
  query.oldest_first = true;
  query.limit = all;
  if (o.trainee.empty()) {
    required_trainer(store, o);
  } else {
    query.trainee = required_trainee(store, o, o.trainee).id;
  }
  std::map<records::Id, std::string> names;
  for (const auto& p : store.people(records::Person::Part::trainee)) names[p.id] = p.name;
  records::Library library(store);
  std::deque<records::SessionFile> files;  // what the export points to stays where it is
  std::vector<records::ExportSession> list;
  for (auto& record : store.sessions(query)) {
    auto& f = files.emplace_back();
    f.record = std::move(record);
    read_session(store, library, f);
    const auto name = o.names ? names[f.record.trainee] : std::string{};
    list.push_back({f.record, name, std::move(f.needs), f.procedure, &f.session});
  }
  count = list.size();
  return exported(list, o);
}

int told_of_sending(std::size_t statements, const ExportOptions& o) {
  if (o.format == "json")
    print_json({{"statements", statements}, {"sent_to", o.send}});
  else
    fmt::print("{} statements sent to {}\n", statements, o.send);
  return done;
}

int export_page(const ExportOptions& o) {
  ReportOptions r;
  static_cast<StoreOptions&>(r) = o;
  r.trainee = o.trainee;
  r.scenario = o.scenario;
  r.output = o.output;
  r.language = o.language;
  r.format = "html";
  return report(r);
}

}  // namespace

int export_records(const ExportOptions& o) {
  if (o.to == "html") return export_page(o);
  if (!o.send.empty() && o.to != "xapi") throw Failure(wrong_usage, "--send goes with --to xapi");
  if (o.format == "json" && o.output.empty() && o.send.empty())
    throw Failure(wrong_usage, "--format json says what was exported; name the file with --output");
  return with_store(o, [&](Store& store) {
    std::size_t count = 0;
    const auto text = export_text(store, o, count);
    if (!o.send.empty()) return told_of_sending(send_statements(text, o.send), o);
    write_out(text, o.output);
    if (o.format == "json")
      print_json({{"sessions", count}, {"to", o.to}, {"file", o.output}, {"bytes", text.size()}});
    else if (!o.output.empty())
      fmt::print("{} sessions written to {}\n", count, o.output);
    return done;
  });
}

}  // namespace beforehand::command
