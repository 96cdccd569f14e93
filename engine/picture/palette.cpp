// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/palette.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace beforehand::picture {
namespace {

double linear(std::uint8_t channel) {
  const double c = channel / 255.0;
  return c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

double luminance(Colour c) {
  return 0.2126 * linear(c.red) + 0.7152 * linear(c.green) + 0.0722 * linear(c.blue);
}

std::uint8_t mix(std::uint8_t over, std::uint8_t under, std::uint8_t alpha) {
  return static_cast<std::uint8_t>((over * alpha + under * (255 - alpha) + 127) / 255);
}

}  // namespace

double Theme::size(TextSize size) const {
  switch (size) {
    case TextSize::label:
      return px(16);
    case TextSize::body:
      return px(17);
    case TextSize::heading:
      return px(21);
    case TextSize::title:
      return px(30);
  }
  return px(17);
}

Palette high_contrast() {
  Palette p;
  p.page = p.card = p.well = Colour::hex(0xFFFFFF);
  p.edge = Colour::hex(0x5A5A5A);
  p.edge_strong = p.ink = p.ink_soft = Colour::hex(0x000000);
  p.accent = Colour::hex(0x003C46);
  p.accent_strong = Colour::hex(0x00232A);
  p.accent_soft = Colour::hex(0xCDEFF2);
  p.good = Colour::hex(0x00401F);
  p.good_soft = Colour::hex(0xDDF6E6);
  p.caution = Colour::hex(0x4A2700);
  p.caution_soft = Colour::hex(0xFFEBC2);
  p.danger = Colour::hex(0x760E00);
  p.danger_soft = Colour::hex(0xFFE4DE);
  p.standby = Colour::hex(0xE4E4E4);
  p.work = Colour::hex(0x7CCBF5);
  p.waiting = Colour::hex(0xB34300);
  p.window = Colour::hex(0x004E7A);
  p.need = Colour::hex(0x6A1F56);
  return p;
}

double contrast(Colour a, Colour b) {
  const double la = luminance(a);
  const double lb = luminance(b);
  return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

Colour blend(Colour over, Colour under) {
  return {mix(over.red, under.red, over.alpha), mix(over.green, under.green, over.alpha),
          mix(over.blue, under.blue, over.alpha), 255};
}

std::span<const TextPair> text_pairs() {
  using P = Palette;
  static constexpr std::array pairs{
      TextPair{"text on the page", &P::ink, &P::page},
      TextPair{"text on a card", &P::ink, &P::card},
      TextPair{"text in a well", &P::ink, &P::well},
      TextPair{"secondary text on the page", &P::ink_soft, &P::page},
      TextPair{"secondary text on a card", &P::ink_soft, &P::card},
      TextPair{"secondary text in a well", &P::ink_soft, &P::well},
      TextPair{"text on an action", &P::on_accent, &P::accent},
      TextPair{"text on a pressed action", &P::on_accent, &P::accent_strong},
      TextPair{"text on what is chosen", &P::ink, &P::accent_soft},
      TextPair{"secondary text on what is chosen", &P::ink_soft, &P::accent_soft},
      TextPair{"an action's name on a card", &P::accent, &P::card},
      TextPair{"an action's name on the page", &P::accent, &P::page},
      TextPair{"an action's name on what is chosen", &P::accent, &P::accent_soft},
      TextPair{"good news", &P::good, &P::good_soft},
      TextPair{"good news on a card", &P::good, &P::card},
      TextPair{"text on good news", &P::ink, &P::good_soft},
      TextPair{"a caution", &P::caution, &P::caution_soft},
      TextPair{"a caution on a card", &P::caution, &P::card},
      TextPair{"text on a caution", &P::ink, &P::caution_soft},
      TextPair{"a danger", &P::danger, &P::danger_soft},
      TextPair{"a danger on a card", &P::danger, &P::card},
      TextPair{"a danger in a well", &P::danger, &P::well},
      TextPair{"text on a danger", &P::ink, &P::danger_soft},
      TextPair{"a number on a danger mark", &P::on_accent, &P::danger},
      TextPair{"the flag of now", &P::card, &P::ink},
      TextPair{"a number on a request", &P::on_accent, &P::caution},
      TextPair{"a label on work", &P::ink, &P::work},
      TextPair{"a label on cover", &P::ink, &P::cover},
      TextPair{"a label on stand-by", &P::ink, &P::standby},
      TextPair{"a label on avoidable idleness", &P::ink, &P::avoidable_idle},
  };
  return pairs;
}

}  // namespace beforehand::picture
