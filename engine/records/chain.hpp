// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "records/store.hpp"

// The hashes of the chain: BLAKE2b with 32 bytes (RFC 7693), as 64 hexadecimal digits. Fields are
// joined with their lengths, so that no two lists of fields give the same text.

namespace beforehand::records {

std::string digest(std::string_view text);
std::string digest_of(const std::vector<std::string>& fields);

/// What a link's `content` must be.
std::string content_of(const SessionRecord&, const Evidence&);
std::string content_of(const SignOff&);  ///< as signed: without what a revocation adds
std::string revocation_of(const SignOff&);
std::string content_of(const Erasure&);

/// What a link's `hash` must be, given the hash of the one before; empty before the first.
std::string hash_after(const std::string& previous, const Link&);

}  // namespace beforehand::records
