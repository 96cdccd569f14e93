// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "procedure/reader.hpp"
#include "process.hpp"

namespace beforehand {

/// A folder of one's own to write files in and run the program from; gone afterwards.
class Folder {
 public:
  Folder() {
    auto name = (std::filesystem::temp_directory_path() / "beforehand-commands-XXXXXX").string();
    path_ = ::mkdtemp(name.data());
  }
  ~Folder() {
    std::error_code failed;
    std::filesystem::remove_all(path_, failed);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  std::string path() const { return path_; }
  std::string text(const std::string& name) const {
    return procedure::load_text(path_ + "/" + name);
  }
  void save(const std::string& name, const std::string& text) const {
    std::filesystem::create_directories(std::filesystem::path(path_ + "/" + name).parent_path());
    std::ofstream(path_ + "/" + name, std::ios::binary) << text;
  }
  Outcome run(const std::vector<std::string>& arguments, const std::string& typed = "") const {
    Setting setting;
    setting.folder = path_;
    setting.typed = typed;
    return beforehand::run(arguments, setting);
  }

 private:
  std::string path_;
};

}  // namespace beforehand
