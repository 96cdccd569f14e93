// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <cstdlib>
#include <filesystem>

#include "stage/app.hpp"

namespace beforehand::stage {

namespace fs = std::filesystem;

std::string data_folder() {
  const char* data = std::getenv("XDG_DATA_HOME");
  if (data != nullptr && fs::path(data).is_absolute())
    return (fs::path(data) / "beforehand").string();
  const char* home = std::getenv("HOME");
  if (home != nullptr && *home != '\0')
    return (fs::path(home) / ".local/share/beforehand").string();
  return "beforehand-data";
}

std::string home_folder() {
  std::error_code failed;
  fs::path above = fs::read_symlink("/proc/self/exe", failed).parent_path();
  for (; !failed && !above.empty(); above = above.parent_path()) {
    for (const auto& candidate : {above / "share/beforehand", above})
      if (fs::is_directory(candidate / "assets/strings", failed)) return candidate.string();
    failed.clear();
    if (above == above.root_path()) break;
  }
  return {};
}

}  // namespace beforehand::stage
