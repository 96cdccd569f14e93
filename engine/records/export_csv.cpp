// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include "records/export.hpp"
#include "records/review.hpp"

namespace beforehand::records {
namespace {

std::string in_quotes(std::string_view text) {
  if (text.find_first_of(",\"\r\n") == std::string_view::npos) return std::string(text);
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + '"';
}

std::string joined(const std::vector<std::string>& cells) {
  std::string line;
  for (std::size_t i = 0; i < cells.size(); ++i) line += (i > 0 ? "," : "") + cells[i];
  return line + "\r\n";
}

std::string seconds(Ms t) { return t == never ? "" : fmt::format("{:.3f}", to_seconds(t)); }
std::string yes_or_no(bool b) { return b ? "yes" : "no"; }

}  // namespace

std::string csv_text(std::string_view text) {
  const auto first = text.find_first_not_of(" \n");
  const bool formula = first != std::string_view::npos &&
                       std::string_view("=+-@\t\r").find(text[first]) != std::string_view::npos;
  return in_quotes(formula ? "'" + std::string(text) : std::string(text));
}

std::string sessions_csv(const std::vector<ExportSession>& sessions) {
  std::string out = joined({"session",
                            "started",
                            "trainee",
                            "trainee_name",
                            "scenario",
                            "scenario_hash",
                            "program",
                            "level",
                            "phase",
                            "assistant",
                            "seed",
                            "complete",
                            "total",
                            "anticipation",
                            "idle",
                            "sequence",
                            "verdict",
                            "chair_time_s",
                            "reference_chair_time_s",
                            "reference_proven",
                            "clinician_wait_s",
                            "requests",
                            "errors",
                            "unsafe"});
  for (const auto& s : sessions) {
    const auto& r = s.record;
    out += joined({csv_text(r.id),
                   iso_text(r.started),
                   csv_text(r.trainee),
                   csv_text(s.trainee_name),
                   csv_text(r.scenario),
                   csv_text(r.scenario_hash),
                   csv_text(r.program),
                   csv_text(drill::word(r.level)),
                   csv_text(r.phase),
                   csv_text(r.assistant),
                   fmt::format("{}", r.seed),
                   yes_or_no(r.complete),
                   fmt::format("{:.3f}", r.total),
                   fmt::format("{:.6f}", r.anticipation),
                   fmt::format("{:.6f}", r.idle),
                   fmt::format("{:.6f}", r.sequence),
                   csv_text(scoring::word(r.verdict)),
                   seconds(r.chair_time),
                   seconds(r.reference.chair_time),
                   yes_or_no(r.reference.proven),
                   seconds(r.clinician_wait),
                   fmt::format("{}", r.requests),
                   fmt::format("{}", r.errors),
                   yes_or_no(r.unsafe)});
  }
  return out;
}

std::string needs_csv(const std::vector<ExportSession>& sessions) {
  std::string out = joined({"session", "step", "from", "need", "need_s", "ready_s", "lead_s",
                            "wait_s", "requested", "helped", "credit"});
  for (const auto& s : sessions) {
    for (const auto& n : s.needs) {
      out += joined({csv_text(s.record.id), csv_text(n.step), csv_text(n.from), csv_text(n.need),
                     seconds(n.due_at), seconds(n.ready_at), seconds(n.lead()), seconds(n.wait),
                     yes_or_no(n.requested), yes_or_no(n.helped), fmt::format("{:.6f}", n.credit)});
    }
  }
  return out;
}

}  // namespace beforehand::records
