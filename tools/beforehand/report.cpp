// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/report.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <nlohmann/json.hpp>

#include "drill/recording.hpp"
#include "language.hpp"
#include "records_json.hpp"
#include "report.hpp"
#include "stage/app.hpp"
#include "stage/shelf.hpp"

namespace beforehand::command {
namespace {

using nlohmann::ordered_json;
using records::Library;
using records::Store;

ordered_json json_of(const procedure::Procedure& p, const records::ScenarioReview& r) {
  ordered_json j{{"scenario", r.scenario},
                 {"readiness", word(r.readiness)},
                 {"sessions", r.sessions.size()},
                 {"completed", r.counted.size()}};
  if (r.curve) {
    constexpr const char* laws[] = {"level", "exponential", "power"};
    j["curve"] = {{"law", laws[static_cast<int>(r.curve->law)]},
                  {"floor", r.curve->floor},
                  {"gain", r.curve->gain},
                  {"rate", r.curve->rate}};
  }
  j["steps"] = ordered_json::array();
  for (const auto& s : r.steps)
    j["steps"].push_back({{"id", s.id},
                          {"attempts", s.standing.attempts},
                          {"passed", s.standing.passed},
                          {"evidence", s.standing.competent()},
                          {"share_low", s.share.low},
                          {"share_high", s.share.high}});
  j["practise_next"] = ordered_json::array();
  for (const auto& part : r.next)
    j["practise_next"].push_back({{"phase", p.phases[part.phase.at()].id},
                                  {"priority", part.priority},
                                  {"why", reason(p, part)}});
  return j;
}

ordered_json json_of(const records::TraineeFile& f) {
  ordered_json j{{"trainee", f.trainee.id}, {"name", f.trainee.name}};
  j["scenarios"] = ordered_json::array();
  for (std::size_t i = 0; i < f.scenarios.size(); ++i)
    j["scenarios"].push_back(json_of(*f.procedures[i], f.scenarios[i]));
  return j;
}

ordered_json json_of(const records::CohortFile& f) {
  auto list = ordered_json::array();
  for (const auto& s : f.scenarios) {
    for (std::size_t i = 0; i < s.summaries.size(); ++i) {
      auto row = to_json(s.summaries[i]);
      row["readiness"] = word(s.readiness[i]);
      row["due"] = moment_text(due(s.summaries[i], s.readiness[i]));
      list.push_back(std::move(row));
    }
  }
  return {{"trainees", list}};
}

std::string dumped(const ordered_json& j) {
  return j.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n";
}

// With the texts of the scenarios that came with the program, and of the user's own.
Library::Spoken speaker(const std::string& language) {
  return stage::speaker({stage::home_folder() + "/scenarios", stage::data_folder() + "/scenarios"},
                        language);
}

// Whoever may see the trainee may see the session.
records::SessionFile seen_session(Store& store, Library& library, const ReportOptions& o) {
  const auto record = store.session(o.session);
  if (!record) throw Failure(input_at_fault, "there is no session " + o.session);
  required_trainee(store, o, record->trainee);
  return session_file(store, library, o.session);
}

}  // namespace

std::string report_page(Store& store, const ReportOptions& o) {
  const bool json = o.format == "json";
  const auto t = texts_in(o.language);
  Library library(store, json ? Library::Spoken() : speaker(o.language));
  if (!o.session.empty()) {
    const auto file = seen_session(store, library, o);
    return json ? dumped(to_json(file.record)) : picture::session_report(file, t);
  }
  if (!o.trainee.empty()) {
    const auto file = trainee_file(store, library, required_trainee(store, o, o.trainee));
    return json ? dumped(json_of(file)) : picture::trainee_report(file, t);
  }
  required_trainer(store, o);
  records::SummaryQuery query;
  query.scenario = o.scenario;
  query.search = o.search;
  const auto file = cohort_file(store, library, query);
  return json ? dumped(json_of(file)) : picture::cohort_report(file, t);
}

void write_out(const std::string& text, const std::string& file) {
  const auto fail = [&](const char* did) {
    throw Failure(environment_at_fault, fmt::format("{} {}: {}", did, file, std::strerror(errno)));
  };
  if (file.empty()) {
    if (std::fwrite(text.data(), 1, text.size(), stdout) != text.size() || std::fflush(stdout) != 0)
      throw Failure(environment_at_fault, "the standard output cannot be written");
    return;
  }
  const int out = ::open(file.c_str(), O_WRONLY | O_CREAT | O_EXCL, 0600);
  if (out < 0) fail("cannot make");
  std::size_t written = 0;
  while (written < text.size()) {
    const auto n = ::write(out, text.data() + written, text.size() - written);
    if (n <= 0) {
      ::close(out);
      ::unlink(file.c_str());
      fail("cannot write");
    }
    written += static_cast<std::size_t>(n);
  }
  if (::close(out) != 0) fail("cannot write");
}

int report(const ReportOptions& o) {
  return with_store(o, [&](Store& store) {
    try {
      write_out(report_page(store, o), o.output);
    } catch (const drill::RecordingError& e) {
      throw Failure(input_at_fault, e.what());
    }
    return done;
  });
}

}  // namespace beforehand::command
