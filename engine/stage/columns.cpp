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
  const double gap = pen_.px(8), first = flow_.width() * shares_.front();
  auto style = pen_.style(TextSize::label, pen_.ink().ink, weight);
  style.level = picture::Level::middle;
  const double name =
      picture::paragraph_height(pen_.canvas, cells.front(), first - gap, style.size, weight);
  const double height = std::max(pen_.px(26), name + pen_.px(6)), middle = flow_.y + height / 2;
  paragraph(pen_, {flow_.x(), middle - name / 2}, first - gap, cells.front(), TextSize::label,
            style.colour, weight);
  style.align = picture::Align::right;
  double x = flow_.x() + first;
  for (std::size_t i = 1; i < std::min(cells.size(), shares_.size()); ++i) {
    const double width = flow_.width() * shares_[i];
    const auto text = picture::shorten(pen_.canvas, cells[i], width - gap, style.size, weight);
    pen_.canvas.text({x + width, middle}, text, style);
    x += width;
  }
  flow_.y += height;
  pen_.canvas.line({flow_.x(), flow_.y}, {x, flow_.y}, {pen_.ink().edge, pen_.px(1)});
}

}  // namespace beforehand::stage
