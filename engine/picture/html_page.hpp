// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "base/strings.hpp"
#include "base/time.hpp"
#include "picture/canvas.hpp"

namespace beforehand::picture {

/// Writes a page of a report, in the language of the texts. All text handed in is escaped.
class HtmlPage {
 public:
  /// The texts must outlive the page.
  HtmlPage(const Strings&, std::string_view title);

  void heading(int level, std::string_view text);  ///< 1 to 3
  void paragraph(std::string_view text);
  /// What was kept in English, as it was kept.
  void kept(std::string_view text);
  void strong(std::string_view text);  ///< a paragraph that must not be overlooked
  void list(const std::vector<std::string>& items);

  /// Rows of texts under a header; the first cell of a row names it. Columns from `figures` on are
  /// set to the right.
  struct Table {
    std::string caption;
    std::vector<std::string> head;
    std::vector<std::vector<std::string>> rows;
    std::size_t figures = 1000;
  };
  void table(const Table&);

  /// A picture with its title and description, and its figures as a table below.
  struct Figure {
    std::string title, description;
    double width = 0, height = 0;
    std::function<void(Canvas&)> draw;
    Table figures;
  };
  void figure(const Figure&);

  /// A definition list: what a figure is, and the figure.
  void facts(const std::vector<std::pair<std::string, std::string>>&);
  /// What a report must not be mistaken for, and the scenario's own cautions.
  void cautions(const std::vector<std::string>& own);

  std::string str() const;

 private:
  void element(std::string_view name, std::string_view text);
  void table_body(const Table&);
  const Strings& t_;
  std::string head_, body_;
};

std::string number_text(double value, int decimals);
std::string percent_text(double share);
std::string seconds_text(Ms);

}  // namespace beforehand::picture
