// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/text.hpp"

#include <algorithm>
#include <utility>

#include "picture/utf8.hpp"

namespace beforehand::picture {
namespace {

constexpr std::string_view ellipsis = "\u2026";

// A figure and its unit are not parted: "14 min", "3.5 s", "80 %".
bool is_figure(std::string_view word) {
  return !word.empty() && word.back() >= '0' && word.back() <= '9';
}

bool starts_with_unit(std::string_view rest) {
  for (const std::string_view unit : {" s", " min", " %", " mm", " ml"})
    if (rest.starts_with(unit) &&
        (rest.size() == unit.size() ||
         std::string_view(" .,;:)").find(rest[unit.size()]) != std::string_view::npos))
      return true;
  return false;
}

class Wrapper {
 public:
  Wrapper(const Canvas& canvas, double width, double size, Weight weight)
      : canvas_(canvas), width_(width), size_(size), weight_(weight) {}

  bool fits(std::string_view line) const {
    return canvas_.measure(line, size_, weight_).width <= width_;
  }

  void add_paragraph(std::string_view text) {
    std::string line;
    while (!text.empty()) {
      std::size_t end = std::min(text.find(' '), text.size());
      if (is_figure(text.substr(0, end)) && starts_with_unit(text.substr(end)))
        end = std::min(text.find(' ', end + 1), text.size());
      add_word(line, text.substr(0, end));
      text.remove_prefix(std::min(end + 1, text.size()));
    }
    lines_.push_back(std::move(line));
  }

  std::vector<std::string> take() { return std::move(lines_); }

 private:
  void add_word(std::string& line, std::string_view word) {
    if (word.empty()) return;
    const std::string longer = line.empty() ? std::string(word) : line + ' ' + std::string(word);
    if (fits(longer)) {
      line = longer;
      return;
    }
    if (!line.empty()) lines_.push_back(std::exchange(line, {}));
    line = break_word(word);
  }

  /// Puts full lines of an overlong word away and gives what is left of it.
  std::string break_word(std::string_view word) {
    while (!fits(word)) {
      std::size_t count = 1;
      while (fits(utf8_prefix(word, count + 1))) ++count;
      const std::string_view piece = utf8_prefix(word, count);
      if (piece.size() == word.size()) break;
      lines_.emplace_back(piece);
      word.remove_prefix(piece.size());
    }
    return std::string(word);
  }

  const Canvas& canvas_;
  double width_;
  double size_;
  Weight weight_;
  std::vector<std::string> lines_;
};

double line_height(const Canvas& canvas, double size, Weight weight) {
  return canvas.measure("X", size, weight).height;
}

/// Where a line of this alignment hangs in the box.
double hang(const Box& box, Align align) {
  if (align == Align::left) return box.x;
  return align == Align::right ? box.right() : box.centre().x;
}

}  // namespace

std::vector<std::string> wrap(const Canvas& canvas, std::string_view text, double width,
                              double size, Weight weight) {
  Wrapper wrapper(canvas, width, size, weight);
  while (true) {
    const std::size_t end = text.find('\n');
    wrapper.add_paragraph(text.substr(0, end));
    if (end == std::string_view::npos) return wrapper.take();
    text.remove_prefix(end + 1);
  }
}

std::string shorten(const Canvas& canvas, std::string_view text, double width, double size,
                    Weight weight) {
  const Wrapper wrapper(canvas, width, size, weight);
  if (wrapper.fits(text)) return std::string(text);
  std::string best;
  for (std::size_t count = 1; count < text.size(); ++count) {
    std::string_view start = utf8_prefix(text, count);
    while (start.ends_with(' ')) start.remove_suffix(1);
    std::string candidate = std::string(start) + std::string(ellipsis);
    if (!wrapper.fits(candidate)) break;
    best = std::move(candidate);
  }
  return best;
}

double paragraph(Canvas& canvas, const Box& box, std::string_view text, const TextStyle& style) {
  std::vector<std::string> lines = wrap(canvas, text, box.width, style.size, style.weight);
  const double height = line_height(canvas, style.size, style.weight);
  const auto room = static_cast<std::size_t>(std::max(0.0, (box.height + 0.01) / height));
  if (room == 0) return 0;
  if (lines.size() > room) {
    lines.resize(room);
    lines.back() = shorten(canvas, lines.back() + ' ' + std::string(ellipsis), box.width,
                           style.size, style.weight);
  }
  TextStyle line_style = style;
  line_style.level = Level::top;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    canvas.text({hang(box, style.align), box.y + height * static_cast<double>(i)}, lines[i],
                line_style);
  }
  return height * static_cast<double>(lines.size());
}

double paragraph_height(const Canvas& canvas, std::string_view text, double width, double size,
                        Weight weight) {
  return line_height(canvas, size, weight) *
         static_cast<double>(wrap(canvas, text, width, size, weight).size());
}

}  // namespace beforehand::picture
