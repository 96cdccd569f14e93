// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>

#include "base/strings.hpp"
#include "commands.hpp"

// In which language a command writes its pages.

namespace CLI {
class App;
}

namespace beforehand::command {

/// --language, as in ISO 639-1.
void add_language(CLI::App&, std::string& language);

/// The folder of the texts. Ends the command when it is not there.
std::string home_of_texts();

/// The texts of a language. Ends the command when there are none.
Strings texts_in(const std::string& language);

/// The scenario of an input as it is told in a language, where its texts are there.
procedure::Procedure told_in(const std::string& language, procedure::Procedure,
                             const std::string& input, const Layers& = {});

}  // namespace beforehand::command
