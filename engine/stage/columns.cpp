// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/columns.hpp"

#include <algorithm>

#include "picture/text.hpp"

namespace beforehand::stage {

void Columns::head(const std::vector<std::string>& cells) {
  head_ = cells;
  const double size = pen_.size(TextSize::label), gap = pen_.px(8);
  for (std::size_t i = 0; i < std::min(cells.size(), shares_.size()); ++i)
    stacked_ = stacked_ || pen_.canvas.measure(cells[i], size, Weight::bold).width >
                               flow_.width() * shares_[i] - gap;
  stacked_ = stacked_ || flow_.width() < pen_.px(660);
  if (!stacked_) write(cells, Weight::bold);
}

void Columns::row(const std::vector<std::string>& cells) {
  if (!stacked_) return write(cells, Weight::regular);
  std::string figures;
  for (std::size_t i = 1; i < cells.size(); ++i)
    if (cells[i] != "–")
      figures += (i == 1 ? "" : "  ·  ") + (i < head_.size() ? head_[i] + " " : "") + cells[i];
  flow_.text(cells.front(), pen_.ink().ink, Weight::bold);
  flow_.under(figures, pen_.ink().ink);
}

void Columns::write(const std::vector<std::string>& cells, Weight weight) {
  const double gap = pen_.px(8);
  const auto count = std::min(cells.size(), shares_.size());
  auto style = pen_.style(TextSize::label, pen_.ink().ink, weight);
  const auto height_of = [&](std::size_t i) {
    return picture::paragraph_height(pen_.canvas, cells[i], flow_.width() * shares_[i] - gap,
                                     style.size, weight);
  };
  double height = pen_.px(26);
  for (std::size_t i = 0; i < count; ++i) height = std::max(height, height_of(i) + pen_.px(6));
  double x = flow_.x();
  for (std::size_t i = 0; i < count; ++i) {
    const double width = flow_.width() * shares_[i], own = height_of(i);
    const double left = i == 0 ? x : x + gap;  // a name ends before its gap, a figure begins after
    picture::paragraph(pen_.canvas,
                       {left, flow_.y + (height - own) / 2, width - gap, own + pen_.px(1)},
                       cells[i], style);
    style.align = picture::Align::right;
    x += width;
  }
  flow_.y += height;
  pen_.canvas.line({flow_.x(), flow_.y}, {x, flow_.y}, {pen_.ink().edge, pen_.px(1)});
}

}  // namespace beforehand::stage
