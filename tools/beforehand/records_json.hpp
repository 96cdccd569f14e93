// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "records/store.hpp"

namespace beforehand::command {

/// "2026-03-02T09:00:00Z" (RFC 3339); empty for no moment.
std::string moment_text(records::Moment);

nlohmann::ordered_json to_json(const records::SessionRecord&);
nlohmann::ordered_json to_json(const records::Evidence&);
nlohmann::ordered_json to_json(const records::Summary&);
nlohmann::ordered_json to_json(const records::SignOff&);
nlohmann::ordered_json to_json(const records::Note&);
nlohmann::ordered_json to_json(const records::Person&);

/// On the standard output, with two spaces and a line feed; bytes that are no UTF-8 are replaced.
void print_json(const nlohmann::ordered_json&);

}  // namespace beforehand::command
