// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <string_view>

namespace beforehand::picture {

/// Text as it may stand in XML and HTML, between tags and in quoted attributes. What is no UTF-8,
/// and what XML cannot hold, becomes U+FFFD.
std::string escape_markup(std::string_view text);

}  // namespace beforehand::picture
