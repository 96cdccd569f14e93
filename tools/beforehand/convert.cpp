// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <cstdio>
#include <filesystem>

#include "commands.hpp"
#include "procedure/edit.hpp"
#include "procedure/formats.hpp"

namespace beforehand::command {
namespace {

namespace fs = std::filesystem;

// The new text stands whole under another name before it takes the file's; the old one stays
// beside it.
std::string replace(const std::string& file, const procedure::Converted& now) {
  const auto old = fmt::format("{}.format-{}", file, now.from), fresh = file + ".new";
  if (fs::exists(old))
    throw Failure(input_at_fault,
                  fmt::format("{} is there already, so {} is left as it is", old, file));
  write_new(fresh, now.text);
  std::error_code failed;
  fs::copy_file(file, old, failed);
  if (!failed) fs::rename(fresh, file, failed);
  if (failed) {
    fs::remove(fresh);
    throw Failure(environment_at_fault, fmt::format("{}: {}", file, failed.message()));
  }
  return old;
}

bool convert_one(const std::string& file) {
  procedure::Converted now;
  try {
    now = procedure::convert(load_file(file));
  } catch (const procedure::EditError& e) {
    fmt::print(stderr, "{}: {}; it is left as it is\n", file, e.what());
    return false;
  }
  if (now.from == now.to) {
    fmt::print("{}: format {}, as it is to be; left as it is\n", file, now.to);
    return true;
  }
  const auto old = replace(file, now);
  fmt::print("{}: from format {} to {}; as it was: {}\n", file, now.from, now.to, old);
  for (const auto& change : now.changes) fmt::print("  {}\n", change);
  return true;
}

}  // namespace

int convert(const ConvertOptions& options) {
  bool good = true;
  for (const auto& file : options.files) try {
      good &= convert_one(file);
    } catch (const Failure& e) {
      if (e.exit_code != input_at_fault) throw;
      fmt::print(stderr, "{}\n", e.what());
      good = false;
    }
  return good ? done : input_at_fault;
}

}  // namespace beforehand::command
