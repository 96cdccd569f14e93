// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <functional>
#include <string>

#include "records.hpp"

// `report` and `export`: what a store holds, for people to print and for other programs.

namespace CLI {
class App;
}

namespace beforehand::command {

struct ReportOptions : StoreOptions {
  std::string trainee, session, scenario, search, output, language = "en";
};
int report(const ReportOptions&);

struct ExportOptions : StoreOptions {
  std::string to, table = "sessions", trainee, scenario, home, output, send, language = "en";
  bool names = false;
};
int export_records(const ExportOptions&);

/// Adds both to the command line; parsing one sets `action`.
void add_report_and_export(CLI::App&, std::function<int()>& action);

/// To a new file, whole or not at all, or to the standard output when `file` is empty.
void write_out(const std::string& text, const std::string& file);

/// The page for a session, a trainee, or everybody.
std::string report_page(records::Store&, const ReportOptions&);

}  // namespace beforehand::command
