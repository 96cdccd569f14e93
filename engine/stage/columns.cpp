// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/columns.hpp"

#include <algorithm>

#include "picture/text.hpp"

namespace beforehand::stage {

void Columns::write(const std::vector<std::string>& cells, Weight weight) {
  const double height = pen_.px(26), gap = pen_.px(8);
  auto style = pen_.style(TextSize::label, pen_.ink().ink, weight);
  style.level = picture::Level::middle;
  double x = flow_.x();
  for (std::size_t i = 0; i < std::min(cells.size(), shares_.size()); ++i) {
    const double width = flow_.width() * shares_[i];
    style.align = i == 0 ? picture::Align::left : picture::Align::right;
    const auto text = picture::shorten(pen_.canvas, cells[i], width - gap, style.size, weight);
    pen_.canvas.text({i == 0 ? x : x + width, flow_.y + height / 2}, text, style);
    x += width;
  }
  flow_.y += height;
  pen_.canvas.line({flow_.x(), flow_.y}, {x, flow_.y}, {pen_.ink().edge, pen_.px(1)});
}

}  // namespace beforehand::stage
