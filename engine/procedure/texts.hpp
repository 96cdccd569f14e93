// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "procedure/load.hpp"
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
/// complete, texts that are missing. With a `base` the file is that of the preference card laid
/// over it: it mirrors only what the card has put in other words. Never throws for bad text.
TextsReading read_texts(std::string_view yaml_text, const Procedure& of,
                        const Procedure* base = nullptr);

/// The procedure with its texts replaced where they are still those that were translated: what a
/// preference card has put in other words keeps them.
Procedure with_texts(Procedure, const Texts&);

/// The languages a scenario can be read in: its own first, then those of the text files beside it,
/// in order of their names.
std::vector<std::string> languages_of(const Procedure&, const std::string& scenario_file);

/// The text file of a scenario for a language: FOLDER/LANGUAGE.yaml.
std::string text_file(const std::string& scenario_file, std::string_view language);
/// That of a card: FOLDER/LANGUAGE/CARD.yaml.
std::string card_text_file(const std::string& card_file, std::string_view language);

/// Reads a text file, whose name, or that of its folder for a card's, must be its language.
TextsReading load_texts(const std::string& file, const Procedure& of,
                        const Procedure* base = nullptr);

/// A procedure in a language, for whoever shows it. Where the language is the scenario's own, or
/// there is no text file for it, or that file has errors, the procedure comes back as it is; where
/// only a card has none, the card's words stay as they are. `problems` says what is wrong with the
/// files, whose texts are `sources`.
struct InLanguage {
  Procedure procedure;
  std::string language;  ///< the one it came back in
  std::vector<Problem> problems;
  std::vector<Source> sources;
};
InLanguage in_language(Procedure, const Files&, std::string_view language);

/// The procedure of the files in every language it can be read in, its own first: the same steps in
/// the same order, in other words. Empty when the files have errors or cannot be read.
std::vector<Procedure> in_every_language(const Files&);

/// A text file for a changed copy of a procedure: the texts that the copy took over, as they were
/// translated in `translated`, under the copy's ids; not complete where the copy says what the
/// original did not. `title` is the copy's in that language.
std::string texts_of_copy(const Procedure& copy, const Procedure& original,
                          const Procedure& translated, const std::string& title);

}  // namespace beforehand::procedure
