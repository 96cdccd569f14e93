// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "procedure/procedure.hpp"

// A scenario in other words: what people read and hear in it, in another language. A text file
// beside the scenario, LANGUAGE.yaml, mirrors the scenario's texts by their ids; nothing that
// happens in a drill depends on it, so a recording is the same in every language.

namespace beforehand::procedure {

/// One text of a procedure, where it stands in it ("steps/etch/cue"), and how long it may be.
struct TextSlot {
  std::string path;
  std::string* text;
  std::size_t longest;
};

/// Every text of a procedure that people read or hear, in the file's order. The slots point into
/// the procedure.
std::vector<TextSlot> text_slots(Procedure&);

/// The texts of one language. `of` is the text that `text` stands for.
struct Texts {
  struct Entry {
    std::string path, of, text;
  };
  std::string language;  ///< ISO 639-1: "es"
  std::vector<Entry> entries;
};

/// What reading gives: the texts when there was no error, and every problem found, ordered by
/// place.
struct TextsReading {
  std::optional<Texts> texts;
  std::vector<Problem> problems;
};

/// Reads and checks a text file against the procedure whose texts it mirrors: the form of each
/// text, ids and keys that the procedure does not have, and, unless the file says that it is not
/// complete, texts that are missing. Never throws for bad text.
TextsReading read_texts(std::string_view yaml_text, const Procedure& of);

/// The procedure with its texts replaced where they are still those that were translated: what a
/// preference card has put in other words keeps them.
Procedure with_texts(Procedure, const Texts&);

/// The languages a scenario can be read in: its own first, then those of the text files beside it,
/// in order of their names.
std::vector<std::string> languages_of(const Procedure&, const std::string& scenario_file);

/// The text file of a scenario for a language: FOLDER/LANGUAGE.yaml.
std::string text_file(const std::string& scenario_file, std::string_view language);

/// Reads a text file, whose name must be its language.
TextsReading load_texts(const std::string& file, const Procedure& of);

/// A procedure in a language, for whoever shows it; `base` is the scenario without a card, the same
/// procedure where there is none. Where the language is the scenario's own, or there is no text
/// file for it, or that file has errors, the procedure comes back as it is; `problems` then says
/// what is wrong with the file.
struct InLanguage {
  Procedure procedure;
  std::string language;  ///< the one it came back in
  std::vector<Problem> problems;
};
InLanguage in_language(Procedure, const Procedure& base, const std::string& scenario_file,
                       std::string_view language);

}  // namespace beforehand::procedure
