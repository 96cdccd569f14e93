// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/fonts.hpp"

#include <fontconfig/fontconfig.h>
#include <imgui.h>
#include <stb_truetype.h>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <fstream>
#include <iterator>
#include <memory>

namespace beforehand::stage {
namespace {

using picture::TextSize;
using picture::Weight;

// Western and central European letters, dashes and quotes, arrows, a few signs. More costs start-up
// time.
constexpr ImWchar glyphs[] = {0x0020, 0x017F, 0x2010, 0x2026, 0x2032, 0x2033, 0x2190,
                              0x2193, 0x2212, 0x2212, 0x2248, 0x2248, 0x2264, 0x2265,
                              0x25A0, 0x25CF, 0x2713, 0x2717, 0};

constexpr TextSize text_sizes[] = {TextSize::label, TextSize::body, TextSize::heading,
                                   TextSize::title};

struct PatternFree {
  void operator()(FcPattern* p) const { FcPatternDestroy(p); }
};
using Pattern = std::unique_ptr<FcPattern, PatternFree>;

std::string find_font(FcConfig* config, int weight) {
  const Pattern wanted(FcPatternCreate());
  for (const char* family : {"DejaVu Sans", "Noto Sans", "Liberation Sans", "sans-serif"})
    FcPatternAddString(wanted.get(), FC_FAMILY, reinterpret_cast<const FcChar8*>(family));
  FcPatternAddInteger(wanted.get(), FC_WEIGHT, weight);
  FcPatternAddInteger(wanted.get(), FC_SLANT, FC_SLANT_ROMAN);
  FcPatternAddBool(wanted.get(), FC_SCALABLE, FcTrue);
  FcConfigSubstitute(config, wanted.get(), FcMatchPattern);
  FcDefaultSubstitute(wanted.get());
  FcResult result = FcResultNoMatch;
  const Pattern found(FcFontMatch(config, wanted.get(), &result));
  FcChar8* file = nullptr;
  FcBool scalable = FcFalse;
  if (!found || FcPatternGetBool(found.get(), FC_SCALABLE, 0, &scalable) != FcResultMatch ||
      !scalable || FcPatternGetString(found.get(), FC_FILE, 0, &file) != FcResultMatch)
    return {};
  return reinterpret_cast<const char*>(file);
}

std::vector<char> content_of(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

// Line height over em size; 0 for what is no font.
double line_over_em(const std::vector<char>& content) {
  if (content.empty()) return 0;
  const auto* bytes = reinterpret_cast<const unsigned char*>(content.data());
  stbtt_fontinfo info;
  const int offset = stbtt_GetFontOffsetForIndex(bytes, 0);
  if (offset < 0 || !stbtt_InitFont(&info, bytes, offset)) return 0;
  int ascent = 0, descent = 0, gap = 0;
  stbtt_GetFontVMetrics(&info, &ascent, &descent, &gap);
  return double(stbtt_ScaleForMappingEmToPixels(&info, 1)) * (ascent - descent);
}

ImFont* add_face(ImFontAtlas& atlas, std::vector<char>& content, double line_height) {
  ImFontConfig config;
  config.OversampleH = config.OversampleV = 1;
  config.PixelSnapH = true;
  config.SizePixels = static_cast<float>(line_height);
  if (content.empty()) return atlas.AddFontDefault(&config);
  config.FontDataOwnedByAtlas = false;
  return atlas.AddFontFromMemoryTTF(content.data(), static_cast<int>(content.size()),
                                    static_cast<float>(line_height), &config, glyphs);
}

}  // namespace

FontFiles find_fonts() {
  FcConfig* config = FcInitLoadConfigAndFonts();
  if (config == nullptr) return {};
  FontFiles files{find_font(config, FC_WEIGHT_REGULAR), find_font(config, FC_WEIGHT_BOLD)};
  FcConfigDestroy(config);
  return files;
}

void FontSet::bake(ImFontAtlas& atlas, const FontFiles& files, const picture::Theme& theme) {
  atlas.Clear();
  baked_.clear();
  complaint_.clear();
  std::vector<char> contents[2];
  for (const Weight weight : {Weight::regular, Weight::bold}) {
    const auto& file = weight == Weight::bold ? files.bold : files.regular;
    const auto index = static_cast<std::size_t>(weight);
    contents[index] = content_of(file);
    const double ratio = line_over_em(contents[index]);
    em_to_line_[index] = ratio > 0 ? ratio : 1;
    if (ratio > 0) continue;
    contents[index].clear();
    complaint_ = "No usable sans-serif font was found" + (file.empty() ? "" : " in " + file) +
                 "; the built-in letters are used. Install fonts-dejavu-core for better ones.";
  }
  for (const Weight weight : {Weight::regular, Weight::bold})
    for (const TextSize size : text_sizes) {
      const auto index = static_cast<std::size_t>(weight);
      const double em = theme.size(size);
      const double line = std::round(em * em_to_line_[index]);
      baked_.push_back({add_face(atlas, contents[index], line), em, weight});
    }
  atlas.Build();
}

FontChoice FontSet::choose(double em_size, Weight weight) const {
  assert(!baked_.empty());
  const BakedFont* best = nullptr;
  for (const auto& candidate : baked_) {
    if (candidate.weight != weight) continue;
    const bool fits = candidate.size >= em_size - 0.01;
    if (best == nullptr || (fits ? best->size < em_size - 0.01 || candidate.size < best->size
                                 : candidate.size > best->size && best->size < em_size))
      best = &candidate;
  }
  return {best->font, em_to_line_[static_cast<std::size_t>(weight)]};
}

}  // namespace beforehand::stage
