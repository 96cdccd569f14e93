// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "procedure/kind.hpp"
#include "procedure/yaml_tree.hpp"

// The versions of the file formats. What an older version called otherwise is read as what it is
// called now, so that no file and no recording is lost; convert() writes it so.

namespace beforehand::procedure {

/// The version a kind of file has now. It goes up when a file of the version before would be read
/// otherwise, or not at all.
int current_format(Kind);
/// The key that gives the version: "beforehand", "card", "texts", "materials".
std::string_view format_key(Kind);

/// Reads the version at the top of a tree and, where it is an older one, puts today's names into
/// it; every mark stays where it is in the text. Anything else than a version this program knows is
/// reported. Gives the version that was written, or the current one where none can be read.
int bring_up(Tree&, Kind, Report&);

/// A file of an older version written as one of today.
struct Converted {
  std::string text;                  ///< the same when it was of today already
  int from = 0, to = 0;              ///< versions
  std::vector<std::string> changes;  ///< what was changed and where, a line each
};

/// Changes what the newer version wants changed, and no other byte: remarks, order and layout stay.
/// Throws EditError when it is no YAML of ours or has no version this program knows.
Converted convert(std::string_view yaml);

}  // namespace beforehand::procedure
