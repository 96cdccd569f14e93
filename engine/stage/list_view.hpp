// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

#include "stage/widgets.hpp"

namespace beforehand::stage {

/// Rows one under the other, of which one can be chosen. Row i is pressed as `first_id` + i.
struct ListView {
  std::vector<double> heights;        ///< one a row
  std::optional<std::size_t> chosen;  ///< drawn as that, and kept in view while `focused`
  bool focused = false;               ///< the keyboard is here
  int first_id = 0;
  bool follow = false;  ///< kept in view without being focused too
};

/// Draws the rows that are in view, each in its frame; `write` fills a frame and has the box inside
/// its margins. Sets the scroll's heights.
void list_view(Pen&, const Box& view, Scroll&, const ListView&,
               const std::function<void(const Box& inside, std::size_t row)>& write);

/// A row of one line in a list_view(), and one that has room for a text in a view of this width.
double list_row_height(const Pen&);
double list_row_height(const Pen&, double view_width, std::string_view text,
                       Weight weight = Weight::regular);
/// The text of a row, behind the icon of a supply.
void list_line(Pen&, const Box& inside, std::string_view text, Weight weight = Weight::regular,
               std::string_view icon = {});

}  // namespace beforehand::stage
