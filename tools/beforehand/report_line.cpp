// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "report.hpp"

#include <CLI/CLI.hpp>
#include <memory>

#include "language.hpp"
#include "records/export.hpp"

namespace beforehand::command {
namespace {

void add_store(CLI::App& sub, StoreOptions& o) {
  sub.add_option("--store", o.store, "File or postgresql://...; else BEFOREHAND_STORE");
  sub.add_option("--trainer", o.trainer, "The trainer who asks; needs the passcode");
  sub.add_option("--passcode-file", o.passcode_file,
                 "First line: the passcode; else BEFOREHAND_PASSCODE, else asked");
}

void add_report(CLI::App& app, std::function<int()>& action) {
  const auto o = std::make_shared<ReportOptions>();
  o->format = "html";
  auto* sub = app.add_subcommand("report",
                                 "A page to print: a session, a trainee or (trainers) "
                                 "everybody");
  auto* session = sub->add_option("--session", o->session, "One session, by its id");
  sub->add_option("--trainee", o->trainee, "One trainee, by name or id")->excludes(session);
  sub->add_option("--scenario", o->scenario, "Everybody: one scenario only");
  sub->add_option("--search", o->search, "Everybody: part of a name");
  sub->add_option("--output", o->output, "New file; else the standard output");
  add_language(*sub, o->language);
  sub->add_option("--format", o->format, "html to print, json for programs")
      ->check(CLI::IsMember({"html", "json"}))
      ->capture_default_str();
  add_store(*sub, *o);
  sub->callback([&action, o] { action = [o] { return report(*o); }; });
}

void add_export(CLI::App& app, std::function<int()>& action) {
  const auto o = std::make_shared<ExportOptions>();
  o->home = records::xapi_home;
  auto* sub = app.add_subcommand("export", "Sessions as other programs read them");
  sub->add_option("--to", o->to, "xes, xapi, csv or html")
      ->required()
      ->check(CLI::IsMember({"xes", "xapi", "csv", "html"}));
  sub->add_option("--table", o->table, "csv: a row a session, or a row a need")
      ->check(CLI::IsMember({"sessions", "needs"}))
      ->capture_default_str();
  sub->add_option("--trainee", o->trainee, "One trainee only; else (trainers) everybody");
  sub->add_option("--scenario", o->scenario, "One scenario only");
  sub->add_flag("--names", o->names, "With the trainees' names; else ids only");
  add_language(*sub, o->language);
  sub->add_option("--home", o->home, "xapi: the address that makes your ids unique")
      ->capture_default_str();
  auto* output = sub->add_option("--output", o->output, "New file; else the standard output");
  sub->add_option("--send", o->send,
                  "xapi: send it there instead: https://..., the address of a store of learning "
                  "records")
      ->excludes(output);
  sub->add_option("--format", o->format, "json: say as JSON what was exported")
      ->check(CLI::IsMember({"text", "json"}));
  add_store(*sub, *o);
  sub->callback([&action, o] { action = [o] { return export_records(*o); }; });
}

}  // namespace

void add_report_and_export(CLI::App& app, std::function<int()>& action) {
  add_report(app, action);
  add_export(app, action);
}

}  // namespace beforehand::command
