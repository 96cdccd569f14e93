// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "records/record.hpp"
#include "stage/choice.hpp"
#include "stage/input.hpp"
#include "stage/pen.hpp"
#include "stage/shelf.hpp"

namespace beforehand::stage {

/// Choosing what to practise and how.
class StartScreen {
 public:
  enum class Outcome { stay, begin, close, who, records, settings, learn };
  enum class Row { shelf, level, pace, part, name, seed, begin };

  /// The shelf must outlive the screen. `folder` is where it was read from, for the message when it
  /// is empty.
  StartScreen(const std::vector<ShelfItem>& shelf, std::string folder, Choice first);

  /// How whoever practises has done so far, by scenario.
  void show(std::map<std::string, records::Summary> standing) { standing_ = std::move(standing); }

  /// What lies over scenarios, by their files: the titles of a card and of materials.
  void show_laid(std::map<std::string, std::string> laid) { laid_ = std::move(laid); }

  /// Whether the lesson in the controls is put forward.
  void offer_lesson(bool offered) { offers_lesson_ = offered; }
  /// What is not as it should be, in words; empty: nothing.
  void warn(std::string problem) { problem_ = std::move(problem); }
  /// The shelf was read again; `item` is where the chosen scenario stands now.
  void shelf_changed(std::size_t item);

  Outcome handle(const Input&);
  void draw(Pen&, const Box&);

  const Choice& choice() const { return choice_; }
  Row row() const { return row_; }
  /// The procedure chosen, or nullptr when there is none that can be played.
  const procedure::Procedure* chosen() const;

 private:
  Outcome on_key(const Input&);
  Outcome on_press(Point at);
  void move(int by);
  void change(int by);
  void type(char32_t c);
  void choose_item(std::size_t item);
  Outcome begin();

  void draw_shelf(Pen&, const Box&);
  std::string side_of(const Pen&, const procedure::Procedure&) const;
  std::string about(const Pen&, std::size_t item) const;
  double item_height(const Pen&, double width, std::size_t item) const;
  void draw_item(Pen&, const Box&, std::size_t item);
  /// `foot`: what is kept free at the bottom.
  void draw_how(Pen&, const Box&, double foot);
  void draw_go(Pen&, const Box&);
  double draw_title(Pen&, const Box&);
  void draw_mending(Pen&, const Box&) const;
  void draw_stacked(Pen&, const Box&);
  void draw_empty(Pen&, const Box&);
  std::vector<std::string> level_names(const Pen&) const;
  std::string part_name(const Pen&) const;

  const std::vector<ShelfItem>& shelf_;
  std::string folder_;
  std::map<std::string, records::Summary> standing_;
  std::map<std::string, std::string> laid_;
  Choice choice_;
  Row row_ = Row::shelf;
  bool offers_lesson_ = false;
  std::string problem_;
  Scroll scroll_;
  Scroll page_;  // where shelf and choices stand one above the other
  Hits hits_;
};

}  // namespace beforehand::stage
