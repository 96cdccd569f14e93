// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/chart_words.hpp"

namespace beforehand::picture {

ChartWords chart_words(const Strings& t) {
  ChartWords words;
  words.work = t("chart.work");
  words.cover = t("chart.cover");
  words.waiting = t("chart.waiting");
  words.standby = t("chart.standby");
  words.avoidable_idle = t("chart.avoidable");
  words.window = t("chart.window");
  words.need = t("chart.need");
  words.waited = t("chart.waited");
  words.critical = t("chart.critical");
  words.request = t("chart.request");
  words.error = t("chart.error");
  words.signal = t("chart.signal");
  words.now = t("chart.now");
  words.planned = t("chart.planned");
  words.played = t("chart.played");
  words.busy = t("chart.busy");
  words.time = t("chart.time");
  return words;
}

}  // namespace beforehand::picture
