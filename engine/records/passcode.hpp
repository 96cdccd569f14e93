// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <chrono>
#include <string>

namespace beforehand::records {

/// What is kept of a passcode: Argon2id (RFC 9106) with libsodium's settings for people waiting (64
/// MiB, about a tenth of a second). Throws std::runtime_error for a code shorter than 6 or longer
/// than 200 bytes.
std::string hash_passcode(const std::string& passcode);
bool is_passcode(const std::string& hash, const std::string& passcode);

/// How long the next try must wait after `wrong` wrong ones in a row: none after two, then 2 s,
/// doubled each time, at most a quarter of an hour.
std::chrono::seconds wait_after(int wrong);

}  // namespace beforehand::records
