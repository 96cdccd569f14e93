// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "drill/session.hpp"
#include "procedure/procedure.hpp"
#include "records/record.hpp"

// Records as other programs read them. Pure: records in, UTF-8 text out; nothing is sent anywhere.

namespace beforehand::records {

/// A session with what its export needs; the pointers must outlive the call.
struct ExportSession {
  SessionRecord record;
  std::string trainee_name;
  std::vector<NeedRecord> needs;
  const procedure::Procedure* procedure = nullptr;
  const drill::Session* session = nullptr;  ///< only XES reads it
};

/// An event log for process mining, a trace a session: IEEE 1849-2016 (XES), no namespace, version
/// "1849.2016", with its standard extensions concept, time, lifecycle and organizational. Sessions
/// without procedure or session are traces without events.
std::string to_xes(const std::vector<ExportSession>&);

/// A JSON array of xAPI statements (IEEE 9274.1.1, in its 1.0.3 form), one a session. `home` is the
/// IRI that makes the trainees' ids unique: actors are accounts under it, never mail addresses.
/// Without `names` actors are pseudonyms: the id alone.
std::string to_xapi(const std::vector<ExportSession>&, const std::string& home, bool names);
inline constexpr std::string_view xapi_home = "https://beforehand.invalid";  ///< RFC 2606

/// RFC 4180, UTF-8, a header line; a row a session, or a row a need of each.
std::string sessions_csv(const std::vector<ExportSession>&);
std::string needs_csv(const std::vector<ExportSession>&);

/// One field: quoted where RFC 4180 asks for it. A text that a spreadsheet would take for a formula
/// (it starts with = + - @, a tab or a return, after blanks too) gets an apostrophe in front.
std::string csv_text(std::string_view);

}  // namespace beforehand::records
